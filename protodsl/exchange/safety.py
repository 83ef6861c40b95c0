"""What every hand-on of exercises carries with it: when to stop, whom to call, in the words of the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.exchange.speech import Speech
from protodsl.handout.blocks import Block, Bullets, Item, Paragraphs, Stop, StopGroup
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Phrase
from protodsl.handout.stop import stop

_MARK = "- "


def stop_lines(on: Draft, speech: Speech) -> tuple[str, ...]:
    """The STOP frame of the sheet line by line: what to do with its number, then the signs, each behind a hyphen."""
    return tuple(line for block in stop(on).blocks for line in _block(block, speech))


def _block(block: Block[Phrase], speech: Speech) -> Iterator[str]:
    if isinstance(block, Stop):
        yield f"{speech.words(block.word)} {speech.words(block.head)}"
        for group in block.groups:
            yield from _group(group, speech)
    elif isinstance(block, (Paragraphs, Bullets)):
        mark = _MARK if isinstance(block, Bullets) else ""
        for item in block.lines:
            yield from _item(item, speech, mark)


def _group(group: StopGroup[Phrase], speech: Speech) -> Iterator[str]:
    yield _called(speech, group.head, group.phone)
    if group.other_hours is not None and group.other_phone is not None:
        yield _called(speech, group.other_hours, group.other_phone)
    for item in group.lines:
        yield from _item(item, speech, _MARK)


def _item(item: Item[Phrase], speech: Speech, mark: str) -> Iterator[str]:
    yield mark + speech.words(item.text)
    for under in item.under:
        yield from _item(under, speech, f"  {mark}")


def _called(speech: Speech, head: Phrase, phone: Phrase) -> str:
    number = speech.phone(speech.words(phone))
    return f"{speech.words(head)}: {number}" if number else f"{speech.words(head)}:"
