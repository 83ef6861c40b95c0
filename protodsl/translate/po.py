"""Between a catalogue and the text of a gettext PO file, there and back without loss.

Babel reads; the lines are laid out here, because its writer breaks a long previous text in the middle of its string,
and drops what it knows of an entry that is obsolete.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from babel import Locale
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import PoFileError, PoFileParser, denormalize, escape, normalize

from protodsl.diagnostics import catalogues as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.outcome import Outcome
from protodsl.source import Source, Span
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.plurals import categories
from protodsl.translate.po_lines import look_at_lines
from protodsl.translate.review import mark_lines, read_mark
from protodsl.translate.tags import locale_of

_FUZZY = "fuzzy"


def read_po(source: Source, language: str) -> Outcome[Catalogue]:
    """The catalogue; None where the text is no PO file. Of an entry that is written twice the first counts."""
    said = look_at_lines(source)
    if said:
        return Outcome(None, said)
    held = _Held(len(categories(locale_of(language) or Locale.parse("en"))))
    try:
        PoFileParser(held, abort_invalid=True).parse(_lines(source.text))
    except (PoFileError, ValueError) as error:
        line = error.lineno + 1 if isinstance(error, PoFileError) else 1
        return Outcome(None, (say.not_a_catalogue(_line(source, line), _reason(error)),))
    entries, twice = _distinct(tuple(_entry(one, source) for one in held.kept if one.id), source)
    obsolete = tuple(_entry(one, source) for one in held.obsolete.values())
    head = tuple(comment for comment in (held.header.user_comments if held.header else ()))
    return Outcome(Catalogue(source.path, language, _headers(held), entries, obsolete, head), twice)


def write_po(catalogue: Catalogue) -> str:
    """The text of the catalogue: one string a line, so that a changed string is a changed line."""
    return "\n\n".join("\n".join(lines) for lines in _blocks(catalogue)) + "\n"


class _Held(Catalog):
    """What Babel's parser finds, every entry kept, also one that stands twice; each has so many plural `forms`."""

    def __init__(self, forms: int) -> None:
        super().__init__(charset="utf-8")
        self.forms = forms
        self.kept: list[Message] = []
        self.header: Message | None = None

    @property
    def num_plurals(self) -> int:
        """As many as the language has: what the header says of it is looked at elsewhere."""
        return self.forms

    def __setitem__(self, id: Any, message: Message) -> None:
        """Keep the entry; the header is not taken for settings."""
        if message.id:
            self.kept.append(message)
        else:
            self.header = message


def _lines(text: str) -> list[str]:
    """The lines, previous texts as comments with a number: Babel knows none of them, and of two alike keeps one."""
    found = []
    for number, line in enumerate(text.split("\n")):
        bare = line.strip()
        before = next((mark for mark in ("#~|", "#|") if bare.startswith(mark)), "")
        found.append(f"#|{number} {bare.removeprefix(before).strip()}" if before else line)
    return found


def _headers(held: _Held) -> tuple[tuple[str, str], ...]:
    text = str(held.header.string) if held.header else ""
    pairs = (line.partition(":") for line in text.split("\n") if ":" in line)
    return tuple((name.strip(), value.strip()) for name, _, value in pairs)


def _entry(message: Message, source: Source) -> Entry:
    plain = [one for one in message.user_comments if not one.startswith("|")]
    review, comments = read_mark(plain)
    flags = tuple(sorted(message.flags - {_FUZZY, "python-format", "python-brace-format", ""}))
    forms = _forms(message.string)
    return Entry(
        key=str(message.context or ""),
        source=_forms(message.id),
        target=forms if any(forms) else (),
        fuzzy=_FUZZY in message.flags,
        previous=_previous(one.partition(" ")[2] for one in message.user_comments if one.startswith("|")),
        notes=tuple(message.auto_comments),
        comments=comments,
        review=review,
        places=tuple(path for path, _ in message.locations),
        flags=flags,
        span=_line(source, int(message.lineno or 1)),
    )


def _forms(of: Any) -> tuple[str, ...]:
    return tuple(str(form) for form in of) if isinstance(of, (tuple, list)) else (str(of),)


def _previous(lines: Iterable[str]) -> tuple[str, ...]:
    """The texts after `#| msgid` and `#| msgid_plural`; a previous context says nothing that is needed."""
    found: list[list[str]] = []
    taken = False
    for line in lines:
        keyword, _, rest = line.partition(" ")
        if keyword.startswith("msg"):
            taken = keyword in ("msgid", "msgid_plural")
            if taken:
                found.append([rest.strip()])
        elif taken:
            found[-1].append(line)
    return tuple("".join(denormalize(part) for part in parts) for parts in found)


def _distinct(entries: tuple[Entry, ...], source: Source) -> tuple[tuple[Entry, ...], tuple[Diagnostic, ...]]:
    first: dict[tuple[str, str], Entry] = {}
    said: list[Diagnostic] = []
    for entry in entries:
        known = first.setdefault(entry.id, entry)
        if known is not entry:
            said.append(say.entry_twice(entry.span, known.span, entry.key, entry.source[0]))
    return tuple(first.values()), tuple(said)


def _line(source: Source, number: int) -> Span:
    start, text = source.start_of(number), source.line(number)
    return Span(source.path, start, start + len(text))


def _reason(error: Exception) -> str:
    words = str(error).rpartition(" on ")[0] or str(error)
    return "an entry has more plural forms than the language" if "num_plurals" in words else words


def _blocks(catalogue: Catalogue) -> Iterator[list[str]]:
    header = "".join(f"{name}: {value}\n" for name, value in catalogue.headers)
    yield [*_comments(catalogue.head), 'msgid ""', f"msgstr {normalize(header, width=0)}"]
    for entry in catalogue.entries:
        yield [*_about(entry), *_words(entry, "")]
    for entry in catalogue.obsolete:
        # What it was once taken from and stood in says nothing any more.
        yield [*_about(entry, obsolete=True), *_words(entry, "#~ ")]


def _about(entry: Entry, obsolete: bool = False) -> Iterator[str]:
    """The comments of an entry, in the order in which gettext's own programs write them."""
    yield from _comments((*entry.comments, *(mark_lines(entry.review) if entry.review else ())))
    if not obsolete:
        yield from (f"#. {note}" for note in entry.notes)
        yield from (f"#: {_enclosed(place)}" for place in entry.places)
    flags = sorted({*entry.flags, *((_FUZZY,) if entry.fuzzy else ())})
    if flags:
        yield f"#, {', '.join(flags)}"
    before = "#~| " if obsolete else "#| "
    for keyword, text in zip(("msgid", "msgid_plural"), entry.previous, strict=False):
        yield f"{before}{keyword} {_quoted(text)}"


def _words(entry: Entry, before: str) -> Iterator[str]:
    if entry.key:
        yield f"{before}msgctxt {_quoted(entry.key)}"
    yield f"{before}msgid {_quoted(entry.source[0])}"
    if len(entry.source) == 1:
        yield f"{before}msgstr {_quoted(entry.target[0] if entry.target else '')}"
        return
    yield f"{before}msgid_plural {_quoted(entry.source[1])}"
    for at, form in enumerate(entry.target or ("", "")):
        yield f"{before}msgstr[{at}] {_quoted(form)}"


def _comments(lines: Sequence[str]) -> Iterator[str]:
    yield from (f"# {line}".rstrip() for line in lines)


def _quoted(text: str) -> str:
    return str(escape(text))


def _enclosed(path: str) -> str:
    """A path with blanks between the isolates that gettext puts around it."""
    return f"\N{FIRST STRONG ISOLATE}{path}\N{POP DIRECTIONAL ISOLATE}" if " " in path or "\t" in path else path
