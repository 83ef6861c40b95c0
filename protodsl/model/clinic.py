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
class Limits:
    """What the clinic wants checked; None where it said nothing and no check is made."""

    words_in_a_sentence: int | None = 20
    reading_grade: Decimal | None = None
    load_rise_percent: Decimal | None = None
    volume_rise_percent: Decimal | None = None


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
