"""Each format that is made from a plan or a protocol, by its name."""

from __future__ import annotations

from protodsl.decide.plan import Plan
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.exchange import not_handed_on
from protodsl.exchange.speech import NO_TRANSLATION, Speech, Translation, speech
from protodsl.handout.options import Options
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Protocol
from protodsl.outcome import Outcome

CALENDAR, TABLE, JSON, FHIR_R5, FHIR_R4B = "ics", "csv", "json", "fhir-r5", "fhir-r4b"


def export_plan(
    name: str,
    plan: Plan,
    clinic: Clinic,
    options: Options,
    previous: Plan | None = None,
    translation: Translation = NO_TRANSLATION,
) -> Outcome[bytes]:
    """A person's plan in a format (KeyError for none of these); `previous` is the plan of the sheet before.

    Where no exercise may be done there is none in it; a calendar and a table are then not made, which is said. Without
    words for all that is in it, read by somebody, it is not made either.
    """
    opened = speech(plan.protocol.scope, clinic, options, plan.case, translation)
    if opened.value is None:
        return Outcome(None, opened.diagnostics)
    made = _plan(name, plan, opened.value, previous)
    gaps = translation.gaps(opened.value.voice.used)
    if not _are_errors(gaps):
        return made
    # An error would keep the referral page, which needs no words of the protocol, from being written.
    return Outcome(None, (not_handed_on(plan.case.id, name, plan.case.span),) if plan.refused else gaps)


def export_protocol(
    name: str, protocol: Protocol, clinic: Clinic, options: Options, translation: Translation = NO_TRANSLATION
) -> Outcome[bytes]:
    """A protocol in a format (KeyError for none of these, and for a calendar: a protocol has no dates)."""
    opened = speech(protocol.scope, clinic, options, None, translation)
    if opened.value is None:
        return Outcome(None, opened.diagnostics)
    made = _protocol(name, protocol, opened.value)
    gaps = translation.gaps(opened.value.voice.used)
    return Outcome(None, gaps) if _are_errors(gaps) else Outcome(made)


def _are_errors(said: tuple[Diagnostic, ...]) -> bool:
    return any(one.severity is Severity.ERROR for one in said)


def _plan(name: str, plan: Plan, spoken: Speech, previous: Plan | None) -> Outcome[bytes]:
    if name == CALENDAR:
        from protodsl.exchange.calendar import calendar

        return calendar(plan, spoken, previous)
    if name == TABLE:
        from protodsl.exchange.table import plan_table

        return plan_table(plan, spoken)
    if name == JSON:
        from protodsl.exchange.json import plan_json

        return Outcome(plan_json(plan, spoken))
    from protodsl.exchange.fhir import R4B, R5, plan_bundle

    return Outcome(plan_bundle(plan, spoken, {FHIR_R5: R5, FHIR_R4B: R4B}[name]))


def _protocol(name: str, protocol: Protocol, spoken: Speech) -> bytes:
    if name == TABLE:
        from protodsl.exchange.table import protocol_table

        return protocol_table(protocol, spoken)
    if name == JSON:
        from protodsl.exchange.json import protocol_json

        return protocol_json(protocol, spoken)
    from protodsl.exchange.fhir import R4B, R5, protocol_bundle

    return protocol_bundle(protocol, spoken, {FHIR_R5: R5, FHIR_R4B: R4B}[name])
