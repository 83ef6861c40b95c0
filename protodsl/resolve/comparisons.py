"""Comparisons: both ends of one kind and dimension, thresholds within reach, sides where there are sides."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics import names as say_names
from protodsl.model.condition import Change, Compare, Constant, Difference, Elapsed, Measured, Side, Symmetry, Term
from protodsl.model.finding import Answer, Kind
from protodsl.resolve.names import Missing, Names, Symbol
from protodsl.resolve.quantities import fits, quantity
from protodsl.syntax import tree
from protodsl.units import UNITS, Quantity, Unit, plain

NUMBERS = (Kind.SCALE, Kind.MEASURE)


@dataclass(slots=True)
class Left:
    """What stands left: the term, its unit (None: a point on a scale), its range, and whether a side is needed.

    `checked` is False where the finding's answer was not understood, so that nothing can be said about it.
    """

    term: Term
    words: str
    symbol: Symbol | None = None
    unit: Unit | None = None
    low: Decimal | None = None
    high: Decimal | None = None
    sided: bool = False
    side_needed: bool = False
    checked: bool = True

    @property
    def dimension(self) -> str:
        """What it measures; `scale` for a point on a scale."""
        return self.unit.dimension if self.unit else "scale"


def compare(node: tree.Compare, side: Side | None, names: Names) -> Compare | None:
    """A comparison that can be decided; None where it cannot, and it is said why."""
    left = _SUBJECTS[node.subject.form](node.subject, names)
    right = _right(node, left, names)
    if left is None or right is None:
        return None
    term, other = right
    if not _sides_fit(node, left, other, names):
        return None
    if isinstance(term, Constant) and not _within(node, left, term.quantity, names):
        return None
    return Compare(left.term, node.op, term, side, span=node.span)


def _value(subject: tree.Subject, names: Names) -> Left | None:
    name = subject.name
    symbol = names.find("findings", name.text)
    if symbol is None:
        setting = names.find("settings", name.text)
        if setting is not None:
            names.say(say.setting_in_front(name.text, name.span, setting.span))
        else:
            names.missing.append(Missing(("findings",), name))
        return None
    term = Measured(symbol.name, span=subject.span)
    answer = symbol.answer
    if answer is None:
        return Left(term, symbol.name, symbol, checked=False)
    if answer.kind is Kind.YES_NO:
        names.say(say.number_against_yes_no(symbol.name, name.span, symbol.span))
        return None
    if answer.kind is Kind.CHOICE:
        names.say(say.choice_without_is(symbol.name, name.span, symbol.span, answer.choices))
        return None
    if answer.kind is Kind.DATE:
        names.say(say.bare_date(symbol.name, name.span, symbol.span))
        return None
    return Left(term, symbol.name, symbol, answer.unit, answer.low, answer.high, answer.sided, answer.sided)


def _number(subject: tree.Subject, words: str, names: Names) -> tuple[Symbol, Answer | None] | None:
    """The finding of a subject that does arithmetic, with its answer where that was understood."""
    symbol = names.finding(subject.name)
    if symbol is None:
        return None
    answer = symbol.answer
    if answer is not None and answer.kind not in NUMBERS:
        names.say(say.needs_number(symbol.name, f"`{words}`", subject.name.span, symbol.span))
        return None
    return symbol, answer


def _two_sides(subject: tree.Subject, words: str, names: Names) -> tuple[Symbol, Answer | None] | None:
    found = _number(subject, words, names)
    if found and found[1] and not found[1].sided:
        names.say(say.needs_sides(found[0].name, words, subject.name.span, found[0].span))
        return None
    return found


def _symmetry(subject: tree.Subject, names: Names) -> Left | None:
    found = _two_sides(subject, "symmetry of", names)
    if found is None:
        return None
    symbol, answer = found
    term = Symmetry(symbol.name, span=subject.span)
    return Left(term, f"symmetry of {symbol.name}", symbol, UNITS["%"], sided=True, checked=answer is not None)


def _difference(subject: tree.Subject, names: Names) -> Left | None:
    found = _two_sides(subject, "difference of", names)
    if found is None:
        return None
    term = Difference(found[0].name, span=subject.span)
    return _spread(term, f"difference of {found[0].name}", *found, side_needed=False)


def _change(subject: tree.Subject, names: Names) -> Left | None:
    found = _number(subject, "change of", names)
    if found is None:
        return None
    since = subject.form.removeprefix("change since ")
    term = Change(found[0].name, since, span=subject.span)
    return _spread(term, f"change of {found[0].name}", *found, side_needed=True)


def _spread(term: Term, words: str, symbol: Symbol, answer: Answer | None, side_needed: bool) -> Left:
    """A difference of two values: it goes from minus to plus the whole range."""
    if answer is None:
        return Left(term, words, symbol, checked=False)
    low = high = None
    if answer.low is not None and answer.high is not None:
        high = answer.high - answer.low
        low = -high
    return Left(term, words, symbol, answer.unit, low, high, answer.sided, side_needed and answer.sided)


def _since(subject: tree.Subject, names: Names) -> Left | None:
    name = subject.name
    unit = subject.form.removesuffix(" since")
    term = Elapsed(unit, name.text, span=subject.span)
    words = f"{subject.form} {name.text}"
    if name.text in ("start", "phase start"):
        return Left(term, words, unit=UNITS[unit])
    symbol = names.finding(name)
    if symbol is None:
        return None
    answer = symbol.answer
    if answer is None:
        return Left(term, words, symbol, UNITS[unit], checked=False)
    if answer.kind is not Kind.DATE:
        names.say(say.since_without_date(symbol.name, name.span, symbol.span))
        return None
    return Left(term, words, symbol, UNITS[unit], sided=answer.sided, side_needed=answer.sided)


_SUBJECTS: dict[str, Callable[[tree.Subject, Names], Left | None]] = {
    "value": _value,
    "symmetry": _symmetry,
    "difference": _difference,
    "change since start": _change,
    "change since last time": _change,
    "weeks since": _since,
    "days since": _since,
}


def _right(node: tree.Compare, left: Left | None, names: Names) -> tuple[Term, Symbol | None] | None:
    """The right end, and the finding in it where it holds one; without a left end only its name is looked up."""
    operand = node.operand
    if operand.name is None:
        if left is None or operand.amount is None:
            return None
        found = _amount(operand.amount, left, names)
        return None if found is None else (Constant(found, span=operand.span), None)
    text = operand.name.text
    setting, finding = names.find("settings", text), names.find("findings", text)
    if setting is not None and finding is not None:
        places = (finding.span, setting.span)
        names.say(say_names.ambiguous(text, ("findings", "settings"), operand.name.span, places))
        return None
    if setting is None and finding is None:
        names.missing.append(Missing(("findings", "settings"), operand.name))
        return None
    if left is None:
        return None
    if finding is not None:
        term = _other_finding(operand, finding, left, names)
        return None if term is None else (term, finding)
    assert setting is not None
    constant = setting_value(operand, setting, left.unit, left.words, names) if left.checked else None
    if constant is None or not isinstance(left.term, Elapsed):
        return None if constant is None else (constant, None)
    whole = _whole(constant.quantity, left, operand, names)
    return None if whole is None else (Constant(whole, constant.setting, span=operand.span), None)


def _amount(amount: tree.Amount, left: Left, names: Names) -> Quantity | None:
    if isinstance(left.term, Elapsed):
        written = quantity(amount)
        if written.dimension not in ("number", "time"):
            return fits(amount, left.unit, left.words, names)
        return _whole(written, left, amount, names)
    return fits(amount, left.unit, left.words, names) if left.checked else quantity(amount)


def _whole(written: Quantity, left: Left, node: tree.Node, names: Names) -> Quantity | None:
    """Weeks or days in the unit that is counted in; only whole ones."""
    assert left.unit is not None
    found = Quantity(written.value, left.unit) if written.unit is None else written.to(left.unit)
    if found.value == found.value.to_integral_value():
        return found
    names.say(say.not_whole(str(written), left.unit.name, node.span))
    return None


def _other_finding(operand: tree.Operand, symbol: Symbol, left: Left, names: Names) -> Measured | None:
    assert operand.name is not None
    answer = symbol.answer
    if answer is None or not left.checked:
        return Measured(symbol.name, quantity(operand.amount) if operand.amount else None, span=operand.span)
    if answer.kind not in NUMBERS:
        names.say(say.needs_number(symbol.name, f"a comparison with `{left.words}`", operand.name.span, symbol.span))
        return None
    dimension = answer.unit.dimension if answer.unit else "scale"
    if dimension != left.dimension:
        places = [(one.span, f"`{one.name}`") for one in (left.symbol, symbol) if one is not None]
        names.say(
            say.different_dimensions(left.words, left.dimension, symbol.name, dimension, operand.span, places)
        )
        return None
    plus = fits(operand.amount, left.unit, left.words, names) if operand.amount else None
    if operand.amount and plus is None:
        return None
    return Measured(symbol.name, plus, span=operand.span)


def setting_value(
    operand: tree.Operand, symbol: Symbol, unit: Unit | None, words: str, names: Names
) -> Constant | None:
    """The value of a setting, with what is added to it, where it has the dimension of `unit` (None: a bare number).

    A setting without a unit also stands for a count, and for weeks and days that are counted.
    """
    setting = symbol.setting
    if setting is None:
        return None
    value = setting.value
    wanted = unit.dimension if unit else "number"
    if value.unit is None and unit is not None and wanted in ("count", "time"):
        value = Quantity(value.value, unit)
    if value.dimension != wanted:
        is_ = "scale" if unit is None else wanted
        places = [(symbol.span, f"`{symbol.name}` is {value}")]
        names.say(say.different_dimensions(words, is_, symbol.name, value.dimension, operand.span, places))
        return None
    if operand.amount is not None:
        plus = fits(operand.amount, value.unit, symbol.name, names)
        if plus is None:
            return None
        value = Quantity(value.value + plus.to(value.unit).value, value.unit)
    return Constant(value, symbol.name, span=operand.span)


def _sides_fit(node: tree.Compare, left: Left, other: Symbol | None, names: Names) -> bool:
    """A side is said where either end needs one, and only where one of them has sides."""
    other_sided = other is not None and other.answer is not None and other.answer.sided
    if not left.checked or (other is not None and other.answer is None):
        return True
    if node.side is None:
        if left.side_needed and left.symbol is not None:
            names.say(say.side_missing(left.symbol.name, node.subject.name.span, left.symbol.span))
            return False
        if other_sided and other is not None:
            names.say(say.side_missing(other.name, node.operand.span, other.span))
            return False
        return True
    if left.sided or other_sided:
        return True
    declared = left.symbol.span if left.symbol else None
    names.say(say.side_without_sides(left.words, node.subject.span, declared))
    return False


def _within(node: tree.Compare, left: Left, right: Quantity, names: Names) -> bool:
    """Whether the threshold lies where the finding's values lie; on the far edge `>` and `<` never hold."""
    if not left.checked or left.low is None or left.high is None or left.symbol is None:
        return True
    value = right.value if left.unit is None else right.to(left.unit).value
    low, high, op = left.low, left.high, node.op
    if low <= value <= high and not (op == ">" and value == high) and not (op == "<" and value == low):
        return True
    always = (op in (">", ">=") and value < low) or (op in ("<", "<=") and value > high)
    unit = f" {left.unit.name}" if left.unit and left.unit.name != "count" else ""
    written = f"{left.words} {op} {_shown(right)}"
    span = node.operand.span
    names.say(
        say.outside_range(
            left.words, written, plain(low), f"{plain(high)}{unit}", always, span, left.symbol.span
        )
    )
    return False


def _shown(value: Quantity) -> str:
    return plain(value.value) if value.unit is None or value.unit.name == "count" else str(value)
