"""What every format needs beside the plan: the person's language without its marks, and the file and line of a rule."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from protodsl.diagnostics import project as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.handout.options import Options
from protodsl.handout.person.voice import spoken
from protodsl.handout.phrase import Phrase
from protodsl.localise.catalogue import Catalogue, catalogue, languages
from protodsl.localise.phrases import phrase as localised
from protodsl.localise.voice import Voice
from protodsl.model.case import Case
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Scope
from protodsl.model.text import Prose
from protodsl.outcome import Outcome
from protodsl.render.markdown import plain, unbroken
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Translation:
    """The words for authored prose that was `written_in` another language ("": in the same), by its key and its text.

    `gaps` says what stands between the prose that was used and a patient: that it has no words, or none that were read.
    `product` are the product's own words, where they are not those that are shipped.
    """

    texts: Mapping[tuple[str, str], str] = field(default_factory=dict)
    written_in: str = ""
    gaps: Callable[[Iterable[Prose]], tuple[Diagnostic, ...]] = lambda used: ()
    product: Catalogue | None = None


NO_TRANSLATION = Translation()


@dataclass(frozen=True, slots=True)
class Speech:
    """One language speaking of one protocol, or of one person whose affected side (left or right) may be known.

    `private` is the file of the case: its name may say who it is, so a line of it is `case:12`.
    """

    voice: Voice
    clinic: Clinic
    options: Options
    side: str | None = None
    private: str = ""

    @property
    def language(self) -> str:
        """The language as a BCP 47 tag."""
        return self.options.language

    def words(self, phrase: Phrase) -> str:
        """The words of a phrase, without any marks of emphasis and in one line."""
        return plain(localised(self.voice, spoken(phrase, self.side)))

    def phone(self, number: str) -> str:
        """A telephone number; where one writes from right to left its groups are kept in their order."""
        return unbroken(number) if self.voice.catalogue.direction == "rtl" else number

    def place(self, span: Span) -> str:
        """File and line as `ankle.protocol:41`; the file alone where its text is not at hand, "" for no place."""
        source = self.options.sources.get(span.path)
        file = "case" if self.is_private(span) else span.path
        return f"{file}:{source.position(span.start)[0]}" if source else file

    def is_private(self, span: Span) -> bool:
        """Whether a line stands in the file of the case."""
        return self.private != "" and span.path == self.private


def speech(
    scope: Scope,
    clinic: Clinic,
    options: Options,
    case: Case | None = None,
    translation: Translation = NO_TRANSLATION,
) -> Outcome[Speech]:
    """The language of the options; no value and a diagnostic where the product does not speak it."""
    spoken_here = translation.product or catalogue(options.language)
    if spoken_here is None:
        return Outcome(None, (say.no_such_language(options.language, languages()),))
    voice = Voice(spoken_here, scope, clinic.lengths, translation.texts, written_in=translation.written_in)
    return Outcome(Speech(voice, clinic, options, *((case.side.worse, case.span.path) if case else ())))
