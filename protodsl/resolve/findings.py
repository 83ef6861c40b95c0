"""Questions, tests and derived findings: kind of answer, range, freshness, rows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.model.finding import Answer, Finding, Kind, Row
from protodsl.model.text import Prose
from protodsl.resolve.blocks import LOST, Form, Reader, damaged, first, read_block
from protodsl.resolve.comparisons import NUMBERS
from protodsl.resolve.conditions import condition
from protodsl.resolve.lines import prose_value
from protodsl.resolve.names import Block, Names
from protodsl.resolve.prose import prose
from protodsl.resolve.quantities import quantity
from protodsl.syntax import tree
from protodsl.units import UNITS

YES_NO = Answer()
_KINDS: dict[str, Kind] = {
    "yes or no": Kind.YES_NO,
    "scale": Kind.SCALE,
    "measure": Kind.MEASURE,
    "choice": Kind.CHOICE,
    "date": Kind.DATE,
}


def answer_of(keyword: str, lines: Sequence[tree.Statement]) -> Answer | None:
    """The kind of answer that the lines under a finding give it; None where it cannot be understood."""
    if keyword == "finding":
        return _derived(lines)
    line = next((line for line in lines if isinstance(line, tree.AnswerLine)), None)
    return YES_NO if line is None else _answer(line)


def _derived(lines: Iterable[tree.Statement]) -> Answer | None:
    """Yes or no where the rows say nothing else; else a choice among their values."""
    values = dict.fromkeys(line.value.text for line in lines if isinstance(line, tree.Verdict))
    if not values:
        return None
    return YES_NO if values.keys() <= {"yes", "no"} else Answer(Kind.CHOICE, choices=tuple(values))


def _answer(line: tree.AnswerLine) -> Answer | None:
    if line.low is not None and line.high is not None and line.low > line.high:
        return None
    choices = tuple([choice.text for choice in line.choices])
    if line.kind == "choice" and len(set(choices)) < max(2, len(choices)):
        return None
    unit = UNITS[line.unit] if line.unit else None
    return Answer(_KINDS[line.kind], line.low, line.high, unit, choices, line.each_side)


def _answer_line(line: tree.AnswerLine, names: Names) -> Answer | None:
    texts = [choice.text for choice in line.choices]
    if line.kind == "choice" and len(set(texts)) < max(2, len(texts)):
        why = "are only one" if len(texts) < 2 else "hold the same word twice"
        names.say(say.choices(names.prefix.split("/")[1], why, line.head))
    return _answer(line)


def _fresh(line: tree.AmountLine, names: Names) -> Any:
    if line.amount is None:
        return "one session"
    if line.amount.value <= 0:
        why = "an answer counts for some time"
        help_ = "write how long the answer counts"
        names.say(say.impossible_number(str(quantity(line.amount)), why, help_, line.head))
        return None
    return quantity(line.amount)


def _better(line: tree.NamesLine, names: Names) -> str:
    return line.names[0].text


def _row(line: tree.Verdict, names: Names) -> Row | None:
    assert line.condition is not None
    when = condition(line.condition, names)
    return None if when is None else Row(line.value.text, when, span=line.head)


def _otherwise(line: tree.Verdict, names: Names) -> str:
    return line.value.text


_MEANINGS: dict[str, Reader] = {"means": prose_value, "yes means": prose_value, "no means": prose_value}
ASKED = Form(
    "a question or test",
    {"answer": _answer_line, "fresh": _fresh, "better": _better, **_MEANINGS},
)
DERIVED = Form("a finding", {"if": _row, "otherwise": _otherwise, **_MEANINGS})


def form_of(keyword: str) -> Form:
    """What may stand under a question, a test or a derived finding."""
    return DERIVED if keyword == "finding" else ASKED


def read(node: tree.FindingDeclaration, lines: Sequence[tree.Statement], answer: Answer | None, names: Names) -> Block:
    """The lines of a finding; those that do not go with its kind of answer are named."""
    block = read_block(lines, form_of(node.keyword), names)
    if answer is not None:
        for line in lines:
            needs = _wrong_for(line.keyword, answer)
            if needs:
                names.say(say.line_for_another_kind(line.keyword, node.name.text, needs, line.head, node.name.span))
                block.pop(line.keyword, None)
    else:
        block.setdefault(LOST, []).append("answer")
    if node.keyword == "finding" and lines is node.lines and not any(line.keyword == "if" for line in lines):
        names.say(say.without_rows(node.name.text, node.name.span))
    if node.words is not None:
        block["words"] = [prose(node.words, node.keyword, names)]
    return block


def _wrong_for(keyword: str, answer: Answer) -> str:
    """What a line is for, where this finding's answer is something else; else empty."""
    if keyword == "better" and answer.kind not in NUMBERS:
        return "a number"
    if keyword in ("yes means", "no means") and answer.kind is not Kind.YES_NO:
        return "an answer of yes or no"
    return ""


def build(node: tree.FindingDeclaration, answer: Answer | None, block: Block) -> Finding:
    """The finding that the lines come to."""
    fresh = first(block, "fresh")
    words: Prose | None = first(block, "words")
    return Finding(
        node.name.text,
        node.keyword,
        words,
        answer or YES_NO,
        fresh if fresh != "one session" else None,
        fresh == "one session",
        first(block, "better") or "",
        first(block, "means"),
        first(block, "yes means"),
        first(block, "no means"),
        tuple(block.get("if", ())),
        first(block, "otherwise"),
        damaged(block),
        span=node.name.span,
    )
