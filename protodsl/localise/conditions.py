"""A condition as a clause about the reader, made from the expression, so that it cannot drift from the rule.

A negation is carried down to the facts by De Morgan's laws, which hold in three-valued logic too (Kleene SC,
Introduction to Metamathematics, 1952, section 64): what is printed is yes, no and unknown exactly when the rule is.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from protodsl.localise import escape, numbers
from protodsl.localise.clause import Clause, authored, measure, side_words, turned
from protodsl.localise.comparisons import compared
from protodsl.localise.voice import Voice
from protodsl.model import named
from protodsl.model.condition import All, AnyOf, AtLeast, Condition, Fact, IsOneOf, Not, Side
from protodsl.model.finding import Finding

_KINDS_OF_MARKS = 4


def in_words(
    voice: Voice, condition: Condition, streak: int = 1, negated: bool = False, side: str | None = None
) -> str:
    """The clause for a condition that holds `streak` sessions in a row; `side` is the affected side where known."""
    text = _clause(voice.about(side), condition, negated, 0).text
    return text if streak == 1 else voice.say("condition.streak", Decimal(streak), clause=text)


def _clause(voice: Voice, node: Condition, negated: bool, depth: int) -> Clause:
    if isinstance(node, Not):
        return _clause(voice, node.of, not negated, depth)
    if isinstance(node, Fact):
        return _fact(voice, node, negated, depth)
    if isinstance(node, IsOneOf):
        return _choice(voice, node, negated)
    if isinstance(node, AtLeast):
        need = len(node.of) - node.count + 1 if negated else node.count
        return _marked(voice, "atleast", node.of, negated, depth, need)
    if isinstance(node, (All, AnyOf)):
        return _junction(voice, "and" if isinstance(node, All) != negated else "or", node.of, negated, depth)
    return compared(voice, node, negated)


def _junction(voice: Voice, by: str, parts: tuple[Condition, ...], negated: bool, depth: int) -> Clause:
    """Clauses joined in a sentence, or marked (a), (b) where one holds the other joining word: brackets are seen."""
    clauses = [_clause(voice, part, negated, depth) for part in parts]
    joins = frozenset((by,)).union(*(clause.joins for clause in clauses))
    if joins != {by}:
        return _marked(voice, by, parts, negated, depth)
    two = len(clauses) == 2 and not any(clause.joins for clause in clauses)
    text = clauses[0].text
    for at, clause in enumerate(clauses[1:], 2):
        place = "two" if two else "last" if at == len(clauses) else "more"
        text = voice.say(f"condition.{by}.{place}", first=text, second=clause.text)
    return Clause(text, joins)


def _marked(
    voice: Voice,
    by: str,
    parts: tuple[Condition, ...],
    negated: bool,
    depth: int,
    need: int = 0,
) -> Clause:
    """`all of these are true: (a) ...; (b) ...`, `at least 2 of these 3 are true: ...`."""
    clauses = [_clause(voice, part, negated, depth + 1).text for part in parts]
    text = ""
    for mark, clause in zip(_marks(voice, depth, len(clauses)), clauses, strict=True):
        item = voice.say("condition.marked", mark=mark, clause=clause)
        text = item if not text else voice.say("condition.marked.more", first=text, second=item)
    total = voice.number(Decimal(len(clauses)))
    head = voice.say(f"condition.{by}.of", Decimal(need or len(clauses)), total=total, clauses=text)
    return Clause(head, frozenset(("and", "or")))


def _marks(voice: Voice, depth: int, count: int) -> list[str]:
    """The marks of the language for this depth; numbers deeper still, and where it has too few."""
    marks = voice.say(f"condition.marks.{depth + 1}").split(" ") if depth < _KINDS_OF_MARKS else []
    return marks[:count] if count <= len(marks) else [voice.number(Decimal(at)) for at in range(1, count + 1)]


def _fact(voice: Voice, node: Fact, negated: bool, depth: int) -> Clause:
    """A yes/no finding: the words written for it, else its question with the answer, else its definition or name."""
    finding = voice.scope.findings.get(node.finding)
    side = turned(node.side, negated)
    clause = _definition(voice, finding, negated, depth) if side is None else None
    return _with_side(voice, clause or _said(voice, node.finding, finding, negated), side)


def _said(voice: Voice, name: str, finding: Finding | None, negated: bool) -> Clause:
    answer = "no" if negated else "yes"
    if finding is not None:
        own = finding.no_means if negated else finding.yes_means
        if own is not None:
            return authored(voice, voice.prose(own))
        if finding.role == "question" and finding.words is not None:
            return Clause(voice.say(f"fact.question.{answer}", question=voice.prose(finding.words)))
        if negated and finding.yes_means is not None:
            return authored(voice, voice.say("fact.not", clause=voice.prose(finding.yes_means)))
        if finding.words is not None:
            return Clause(voice.say(f"fact.test.{answer}", words=voice.prose(finding.words)))
    words = escape.literal(name) if finding is None else voice.prose(named.finding_name(finding))
    return Clause(voice.say(f"fact.test.{answer}", words=words))


def _definition(voice: Voice, finding: Finding | None, negated: bool, depth: int) -> Clause | None:
    """A derived yes/no finding of one row, without words of its own, is yes just when its one condition is."""
    if finding is None or finding.role != "finding" or len(finding.rows) != 1:
        return None
    if finding.words is not None or (finding.no_means if negated else finding.yes_means) is not None:
        return None
    values = (finding.rows[0].value, finding.otherwise)
    if values not in (("yes", "no"), ("no", "yes")):
        return None
    return _clause(voice, finding.rows[0].condition, negated != (values == ("no", "yes")), depth)


def _choice(voice: Voice, node: IsOneOf, negated: bool) -> Clause:
    """A choice: `your answer to “...” is yes, sometimes`, `the movement that eases your pain is not none found`."""
    negative = node.negated != negated
    side = turned(node.side, negated)
    of = measure(voice, node.finding)
    quoted = [_value(voice, voice.scope.findings.get(node.finding), value) for value in node.values]
    values = numbers.listed(voice.catalogue, quoted, "or")
    form = "none" if negative and len(quoted) > 1 else "not" if negative else "is"
    clause = Clause(
        voice.say(f"choice.{form}", measure=of.text, values=values), of.joins | ({"or"} if len(quoted) > 1 else set())
    )
    return _with_side(voice, clause, side)


def _value(voice: Voice, finding: Finding | None, written: str) -> str:
    """A value of a choice, in quotes unless it is plain words that cannot be taken for words of the sentence."""
    prose = None if finding is None else named.choice(finding, written)
    value = written if prose is None else voice.plain(prose)
    said = escape.literal(written) if prose is None else voice.prose(prose)
    held = value.lower().split()
    misread = authored(voice, value).joins or not set(voice.say("choice.negations").split()).isdisjoint(held)
    plain = not misread and all(word.replace("-", "").isalnum() for word in held)
    return said if plain else voice.say("choice.value", value=said)


def _with_side(voice: Voice, clause: Clause, side: Side | None) -> Clause:
    if side is None:
        return clause
    return replace(clause, text=voice.say("fact.sided", clause=clause.text, side=side_words(voice, side)))
