"""Diagnostics as a person reads them: the place, what is wrong, the line with a mark under it, what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from protodsl.diagnostics.diagnostic import Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.visible import visible, width
from protodsl.source import Source, Span

NAMES = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.HINT: "hint"}

_COLOURS = {Severity.ERROR: "1;31", Severity.WARNING: "1;33", Severity.HINT: "1;36"}
_WIDEST = 110
_LONGEST = 400
_GUTTER = 7


def render_text(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source], colour: bool = False) -> str:
    """All diagnostics in the order given, a blank line between two; `sources` by the path that the spans name."""
    paint = _Paint(colour)
    return "\n".join("".join(f"{line}\n" for line in _lines(one, sources, paint)) for one in diagnostics)


@dataclass(frozen=True, slots=True)
class _Paint:
    on: bool

    def __call__(self, text: str, how: str) -> str:
        return f"\x1b[{how}m{text}\x1b[0m" if self.on and text else text


@dataclass(frozen=True, slots=True)
class _Mark:
    """One label on one line: its stretch in characters of that line, its sign and its words."""

    start: int
    end: int
    sign: str
    words: str


def _lines(one: Diagnostic, sources: Mapping[str, Source], paint: _Paint) -> Iterator[str]:
    tone = _COLOURS[one.severity]
    head = paint(f"{NAMES[one.severity]} {one.code.id}", tone) + f": {_shortened(one.message)}"
    place = _place(one.primary.span, sources)
    yield f"{paint(place, '1')} {head}" if place else head
    yield from _excerpts(one, sources, paint, tone)
    for note in one.notes:
        yield from _said("note", note, paint)
    if one.help:
        yield from _said("do", one.help, paint)
    if one.fix:
        yield from _fix(one.fix, sources, paint)


def _place(span: Span, sources: Mapping[str, Source]) -> str:
    """`file:line:column`; the file alone where its text is not known, nothing where there is no file."""
    if span.path not in sources:
        return visible(span.path)
    line, column = sources[span.path].position(span.start)
    return f"{visible(span.path)}:{line}:{column}"


def _excerpts(one: Diagnostic, sources: Mapping[str, Source], paint: _Paint, tone: str) -> Iterator[str]:
    """Each labelled line once, the primary's file first, with a row of marks for each label on it."""
    by_line: dict[tuple[bool, str, int], list[_Mark]] = {}
    for label, sign in ((one.primary, "^"), *((label, "-") for label in one.secondary)):
        if label.span.path in sources and sources[label.span.path].text.strip():
            number, mark = _mark(label, sources[label.span.path], sign)
            by_line.setdefault((label.span.path != one.primary.span.path, label.span.path, number), []).append(mark)
        elif label.span.path and label.words and label is not one.primary:
            yield f"{'':{_GUTTER}}{_shortened(f'{label.span.path}: {label.words}')}"
    shown = one.primary.span.path
    for (_, path, number), marks in sorted(by_line.items(), key=lambda item: item[0]):
        if path != shown:
            shown = path
            yield f"{'':{_GUTTER}}{paint(f'in {visible(path)}', '1')}"
        text = sources[path].line(number)
        marks.sort(key=lambda mark: (mark.sign != "^", mark.start))
        text, marks = _cut(text, marks)
        yield f"{paint(f'{number:>{_GUTTER - 2}}:', '2')} {visible(text)}"
        for mark in marks:
            yield _underline(text, mark, paint, tone)


def _mark(label: Label, source: Source, sign: str) -> tuple[int, _Mark]:
    number, column = source.position(label.span.start)
    start = min(column - 1, len(source.line(number)))
    last, _ = source.position(max(label.span.start, label.span.end - 1))
    end = len(source.line(number)) if last > number else start + label.span.end - label.span.start
    words = label.words
    if last > number:
        words = f"{words} (to line {last})" if words else f"to line {last}"
    return number, _Mark(start, max(end, start + 1), sign, words)


def _cut(text: str, marks: list[_Mark]) -> tuple[str, list[_Mark]]:
    """A line too wide for a terminal becomes the part around its first mark, with dots where it was cut."""
    if len(text) <= _WIDEST and width(visible(text)) <= _WIDEST:
        return text, marks
    at = marks[0].start
    start, left = at, _WIDEST // 3
    while start and (left := left - width(visible(text[start - 1]))) >= 0:
        start -= 1
    end, left = at, _WIDEST - width(visible(text[start:at]))
    while end < len(text) and (left := left - width(visible(text[end]))) >= 0:
        end += 1
    before, after = "… " if start else "", " …" if end < len(text) else ""
    shift = len(before) - start
    inside = [
        _Mark(mark.start + shift, min(mark.end, end) + shift, mark.sign, mark.words)
        for mark in marks
        if start <= mark.start <= end
    ]
    return before + text[start:end] + after, inside


def _underline(text: str, mark: _Mark, paint: _Paint, tone: str) -> str:
    indent = _GUTTER + width(visible(text[: mark.start]))
    cells = max(1, width(visible(text[mark.start : mark.end])))
    signs = paint(mark.sign * cells, tone if mark.sign == "^" else "1;34")
    return f"{'':{indent}}{signs}{' ' if mark.words else ''}{_shortened(mark.words)}"


def _shortened(text: str) -> str:
    """Words of the program's own with what was written in them, which may be a whole file on one line."""
    half = _LONGEST // 2
    return visible(text if len(text) <= _LONGEST else f"{text[:half]} … {text[-half:]}")


def _said(word: str, text: str, paint: _Paint) -> Iterator[str]:
    first, *rest = text.split("\n")
    yield f"{paint(f'{word:>{_GUTTER - 2}}', '1')}  {_shortened(first)}"
    for line in rest:
        yield f"{'':{_GUTTER}}{_shortened(line)}"


def _fix(fix: Fix, sources: Mapping[str, Source], paint: _Paint) -> Iterator[str]:
    source = sources.get(fix.span.path)
    before = source.text[fix.span.start : fix.span.end] if source else ""
    after = fix.replacement.rstrip("\n")
    if "\n" in after or "\n" in before.strip("\n"):
        where = _place(fix.span, sources)
        yield from _said("fix", f"at {where} write:", paint)
        yield from (f"{'':{_GUTTER + 2}}{visible(line)}" for line in after.split("\n"))
    elif not before.strip() and not after.strip():
        blanks = f"{len(after)} blank{'s' if len(after) > 1 else ''}" if after else "nothing"
        yield from _said("fix", f"write {blanks} here", paint)
    elif not before:
        yield from _said("fix", f"put in `{after.strip()}`", paint)
    elif not after:
        yield from _said("fix", f"take out `{before.strip()}`", paint)
    else:
        yield from _said("fix", f"write `{after}` for `{before.strip()}`", paint)
