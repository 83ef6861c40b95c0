"""The one spelling of the parts of a line: amounts, conditions, doses and values."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from protodsl.syntax import tree
from protodsl.units import plain


def condition_text(condition: tree.Condition) -> str:
    """A condition as it is written behind `if`."""
    match condition:
        case tree.Fact(name, side):
            return name.text + _side(side)
        case tree.Not(tree.Fact() as fact):
            return f"not {condition_text(fact)}"
        case tree.Not(of):
            return f"not ({condition_text(of)})"
        case tree.All(of):
            return " and ".join(map(_bracketed, of))
        case tree.AnyOf(of):
            return " or ".join(map(_bracketed, of))
        case tree.AtLeast(count, of):
            return f"at least {count} of ({', '.join(map(condition_text, of))})"
        case tree.Is(name, (value,), negated, side):
            return f"{name.text} is {'not ' if negated else ''}{value.text}{_side(side)}"
        case tree.Is(name, values, _, side):
            return f"{name.text} is one of ({names_text(values)}){_side(side)}"
        case tree.Compare(subject, op, operand, side):
            return f"{subject_text(subject)} {op} {operand_text(operand)}{_side(side)}"


def _bracketed(condition: tree.Condition) -> str:
    """A member of `and` or `or`, in brackets where it is one of these itself."""
    text = condition_text(condition)
    return f"({text})" if isinstance(condition, tree.All | tree.AnyOf) else text


def _side(side: str | None) -> str:
    """` on each side`, ` on the left side`, or nothing."""
    if side is None:
        return ""
    return f" on {side} side" if side in ("each", "either") else f" on the {side} side"


def subject_text(subject: tree.Subject) -> str:
    """What stands left of a comparison."""
    name = subject.name.text
    match subject.form:
        case "value":
            return name
        case "symmetry" | "difference":
            return f"{subject.form} of {name}"
        case "weeks since" | "days since":
            return f"{subject.form} {name}"
        case form:
            return f"change of {name} {form.removeprefix('change ')}"


def operand_text(operand: tree.Operand) -> str:
    """What stands right of a comparison."""
    if operand.name is None:
        return amount_text(operand.amount) if operand.amount else ""
    return operand.name.text + (_added(operand.amount) if operand.amount else "")


def _added(amount: tree.Amount) -> str:
    """` + 5 kg` or ` - 5 kg`."""
    sign = "-" if amount.value.is_signed() else "+"
    return f" {sign} {amount_text(tree.Amount(abs(amount.value), amount.unit))}"


def amount_text(amount: tree.Amount) -> str:
    """A number with its unit."""
    return plain(amount.value) + (f" {amount.unit}" if amount.unit else "")


def range_text(amount: tree.Range) -> str:
    """One number, or `low to high`."""
    return plain(amount.low) if amount.low == amount.high else f"{plain(amount.low)} to {plain(amount.high)}"


def names_text(names: Iterable[tree.Name]) -> str:
    """Names with commas between."""
    return ", ".join(name.text for name in names)


def part_text(part: tree.DosePart) -> str:
    """One part of a dose."""
    match part:
        case tree.Sets() | tree.SetsOf() | tree.Intervals():
            return volume_text(part)
        case tree.Timing(phase, seconds):
            return f"{phase} {range_text(seconds)} s" if seconds else f"{phase} until settled"
        case tree.Rest(amount, unit):
            return f"rest {range_text(amount)} {unit}" if amount else "rest until settled"
        case tree.Sides(which):
            return f"{which} side"
        case tree.Load():
            return load_text(part)
        case tree.Effort("effort", amount):
            return f"effort {range_text(amount)}"
        case tree.Effort(_, amount):
            return f"{range_text(amount)} reps in reserve"
        case tree.Often():
            return _often_text(part)
        case tree.Supervised(count):
            return f"{count} supervised"
        case tree.Lasting(amount):
            return f"for {amount_text(amount)}"


def volume_text(volume: tree.Sets | tree.SetsOf | tree.Intervals) -> str:
    """How much: `3 x 12`, `20 min`, `12 then 10 then 8`, `5 x (4 min walk + 1 min run)`."""
    match volume:
        case tree.SetsOf(counts):
            return " then ".join(map(str, counts))
        case tree.Intervals(rounds, legs):
            stretches = " + ".join(f"{amount_text(leg.amount)} {leg.activity.text}" for leg in legs)
            return f"{range_text(rounds)} x ({stretches})"
        case tree.Sets(sets, amount, unit):
            times = f"{range_text(sets)} x " if sets else ""
            if amount is None:
                return f"{times}to fatigue"
            return times + range_text(amount) + (f" {unit}" if unit else "" if sets else " reps")


def load_text(load: tree.Load) -> str:
    """What is lifted: `load 5 kg`, `load 70 % of 1RM`, `load medium band up to 5 kg`."""
    if load.percent is not None and load.of is not None:
        what = f"{plain(load.percent)} % of {load.of.text}"
    elif load.maximum is not None:
        what = f"{load.maximum}RM"
    elif load.name is not None:
        what = load.name.text + (_added(load.amount) if load.amount else "")
    else:
        what = amount_text(load.amount) if load.amount else ""
    return f"load {what}" + (f" up to {amount_text(load.up_to)}" if load.up_to else "")


def _often_text(often: tree.Often) -> str:
    """How often."""
    if often.amount is None:
        return often.form
    count = range_text(often.amount)
    match often.form:
        case "every hours":
            return f"every {count} {'hour' if count == '1' else 'hours'}"
        case "times a day":
            return {"1": "once a day", "2": "twice a day"}.get(count, f"{count} times a day")
        case _:
            return f"{count} {'day' if count == '1' else 'days'} a week"


def weeks_text(weeks: tree.Weeks) -> str:
    """`week 1`, `weeks 1 to 2`, `weeks 3 on`."""
    if weeks.last is None:
        return f"weeks {weeks.first} on"
    return f"week {weeks.first}" if weeks.first == weeks.last else f"weeks {weeks.first} to {weeks.last}"


def answer_text(line: tree.AnswerLine) -> str:
    """What an answer can be."""
    low, high = (plain(end) if end is not None else "" for end in (line.low, line.high))
    match line.kind:
        case "scale":
            kind = f"{low} to {high}"
        case "measure":
            kind = f"{line.unit} from {low} to {high}" if low and high else str(line.unit)
        case "choice":
            kind = f"one of {names_text(line.choices)}"
        case kind:
            pass
    return kind + (", each side" if line.each_side else "")


def values_text(values: tuple[tuple[str | None, tree.Value], ...]) -> str:
    """A value, or the values of the sides."""
    return ", ".join(f"{side} {value_text(value)}" if side else value_text(value) for side, value in values)


def value_text(value: tree.Value) -> str:
    """One value."""
    if value.amount is not None:
        return amount_text(value.amount)
    if value.date is not None:
        return value.date.isoformat()
    return value.name.text if value.name is not None else value.form


def session_part_text(part: tree.SessionPart) -> str:
    """One thing that a session says."""
    match part.form:
        case "done" | "side done" if part.volume is not None:
            return (f"{part.side} " if part.side else "") + volume_text(part.volume)
        case "load" if part.load is not None:
            return load_text(part.load)
        case "score" if part.name is not None:
            return f"{part.name.text} {values_text(part.values)}"
        case "yes" if part.name is not None:
            return part.name.text
        case "no" if part.name is not None:
            return f"not {part.name.text}"
        case form:
            return form


def signed_text(change: tree.Amount | None) -> str:
    """The change of a row under `adjust`."""
    if change is None:
        return "same load"
    verb = "take off" if change.value < Decimal(0) else "add"
    return f"{verb} {amount_text(tree.Amount(abs(change.value), change.unit))}"
