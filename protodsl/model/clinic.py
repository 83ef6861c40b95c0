"""The clinic: its words for help, its paper, its folders, the limits it wants checked."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from protodsl.model.text import Prose


@dataclass(frozen=True, slots=True)
class Contact:
    """Words and a telephone number, as they are printed."""

    text: str
    phone: str


@dataclass(frozen=True, slots=True)
class ReadingLimits:
    """How hard to read one language may be; None where the clinic said nothing of that language."""

    words_in_a_sentence: int | None = None
    characters_in_a_sentence: int | None = None
    reading_grade: Decimal | None = None
    reading_ease: Decimal | None = None
    lix: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """What the clinic wants checked; None where it said nothing.

    Without a limit there is no check, but for how hard a text is to read: there the usual limit of the language counts.
    `reading_ease` is the least, every other limit the most. `languages` say otherwise for one language, by its tag.
    """

    words_in_a_sentence: int | None = 20
    reading_grade: Decimal | None = None
    load_rise_percent: Decimal | None = None
    volume_rise_percent: Decimal | None = None
    characters_in_a_sentence: int | None = None
    reading_ease: Decimal | None = None
    lix: Decimal | None = None
    languages: tuple[tuple[str, ReadingLimits], ...] = ()

    def reading(self, language: str) -> ReadingLimits:
        """The limits for a language: those of its own tag, else of a shorter one (`es` for `es-MX`), else of all."""
        own = {tag.lower(): one for tag, one in self.languages}
        tag = language.replace("_", "-").lower()
        while tag and tag not in own:
            tag = tag.rpartition("-")[0]
        said = own.get(tag, ReadingLimits())
        return ReadingLimits(
            self.words_in_a_sentence if said.words_in_a_sentence is None else said.words_in_a_sentence,
            self.characters_in_a_sentence if said.characters_in_a_sentence is None else said.characters_in_a_sentence,
            self.reading_grade if said.reading_grade is None else said.reading_grade,
            self.reading_ease if said.reading_ease is None else said.reading_ease,
            self.lix if said.lix is None else said.lix,
        )


@dataclass(frozen=True, slots=True)
class Clinic:
    """What `clinic.toml` says; weights in kg, ascending; `one_rep_max` names the published equation."""

    name: str
    address: str
    emergency: Contact
    contact: Contact
    after_hours: Contact | None = None
    languages: tuple[str, ...] = ("en",)
    paper: str = "A4"
    formats: tuple[str, ...] = ("html", "pdf")
    lengths: str = "cm"
    libraries: tuple[str, ...] = ()
    templates: str | None = None
    output: str = "handouts"
    weights: tuple[Decimal, ...] = ()
    one_rep_max: str = "epley"
    limits: Limits = Limits()

    def words(self, key: str) -> Prose:
        """The words of a key of `clinic.toml`: `emergency/text`, `contact/text` or `contact/after-hours-text`."""
        contact = {"emergency/text": self.emergency, "contact/text": self.contact}.get(key, self.after_hours)
        return Prose(contact.text if contact else "", f"clinic/{key}")

    def proses(self) -> tuple[Prose, ...]:
        """All of its words that a patient reads; empty where none were written."""
        return tuple(self.words(key) for key in ("emergency/text", "contact/text", "contact/after-hours-text"))
