"""The one spelling of a line: its keyword, one blank, and what follows.

One blank and no columns: the width of a column would depend on the lines around, so that a longer keyword would
change its neighbours, and a change of one line would no longer be a change of one line in the diff.
"""

from __future__ import annotations

from protodsl.syntax import tree
from protodsl.syntax.figure_lines import figure_line_text
from protodsl.syntax.print_parts import (
    amount_text,
    answer_text,
    condition_text,
    names_text,
    operand_text,
    part_text,
    session_part_text,
    signed_text,
    values_text,
    weeks_text,
)


def line_of(statement: tree.Statement) -> str:
    """The line of a statement without its indent and without what stands under it."""
    rest = _rest(statement)
    if isinstance(statement, tree.Answered) and statement.date is None:
        return rest
    if isinstance(statement, tree.Verdict) and statement.condition is not None:
        return rest
    return f"{statement.keyword}{rest}" if rest.startswith(":") else f"{statement.keyword} {rest}".rstrip()


def _rest(statement: tree.Statement) -> str:
    """What follows the keyword."""
    match statement:
        case tree.ProseLine(_, words):
            return words.text
        case tree.NamesLine("has", ()):
            return "nothing"
        case tree.NamesLine(_, names):
            return names_text(names)
        case tree.BlockLine(_, title):
            return title.text if title else ""
        case tree.Guard():
            return _guard(statement)
        case tree.MovesLine(_, moves):
            return ", ".join(f"{move.name.text} to {amount_text(move.to)}" for move in moves)
        case tree.NeedsLine(_, options):
            return " or ".join(option.text for option in options)
        case tree.HarderThan(_, level, joint):
            return f"{level.text} at {joint.text}"
        case tree.FigureLine(_, like):
            return f"like {like.text}" if like else ""
        case tree.ImageLine(_, path, alternative):
            return path.text + (f": {alternative.text}" if alternative else "")
        case tree.DoseLine(_, parts, weeks, number):
            front = f"{weeks_text(weeks)}: " if weeks else f"{number}: " if number is not None else ""
            return front + ", ".join(map(part_text, parts))
        case tree.AdjustLine(_, by_set, for_set):
            until = f"set {for_set}" if for_set is not None else "next session"
            return f"load by reps in set {by_set}, for {until}"
        case tree.StepLine():
            return _step(statement)
        case tree.FocusLine(_, finding, extra):
            sets = "" if extra is None else f", {extra} extra {'set' if extra == 1 else 'sets'}"
            return f"weaker side by {finding.text}{sets}"
        case tree.LimitLine(_, name, op, operand):
            return f"{name.text} {op} {operand_text(operand)}"
        case tree.LiftLine(_, words):
            return words.text
        case tree.ReviewLine(_, day, by, next_by):
            return f"{day.isoformat()} by {by.text}, next by {next_by.isoformat()}"
        case tree.AmountLine(keyword, amount):
            return _amount_line(keyword, amount)
        case tree.AnswerLine():
            return answer_text(statement)
        case tree.ZonesLine():
            return ""
        case tree.ViewLine() | tree.PropLine() | tree.PoseLine() | tree.ArrowLine():
            return figure_line_text(statement)
        case _:
            return _declared(statement)


def _declared(statement: tree.Statement) -> str:
    """What follows the keyword of a line that opens a block, or of a line in a case."""
    match statement:
        case tree.VersionLine(_, version):
            return version
        case tree.Verdict(_, value, condition):
            return f"{value.text} if {condition_text(condition)}" if condition else value.text
        case tree.Give(_, item, condition, unless):
            word = "unless" if unless else "if"
            return item.text + (f" {word} {condition_text(condition)}" if condition else "")
        case tree.Group(_, title, count):
            return title.text if title else str(count)
        case tree.Level(_, name, exercise, after):
            front = f"{name.text}: {exercise.text}" if exercise else name.text
            return front + (f", after {after.text}" if after else "")
        case tree.Declaration(_, name, like):
            return name.text + (f" like {like.text}" if like else "")
        case tree.FindingDeclaration(_, name, words):
            return name.text + (f": {words.text}" if words else "")
        case tree.Described(_, name, words):
            return f"{name.text}: {words.text}"
        case tree.SettingLine(_, name, value, low, high):
            bounds = f", from {amount_text(low)} to {amount_text(high)}" if low and high else ""
            return f"{name.text} = {amount_text(value)}{bounds}"
        case tree.Use(_, path):
            return path.text
        case _:
            return _recorded(statement)


def _recorded(statement: tree.Statement) -> str:
    """What follows the keyword of a line of a case."""
    match statement:
        case tree.CaseDeclaration(_, name):
            return name.text
        case tree.CaseProtocol(_, name, version):
            return f"{name.text}, version {version}"
        case tree.DateLine(_, day) | tree.OnDate(_, day):
            return day.isoformat()
        case tree.LanguageLine(_, tag):
            return tag
        case tree.SideLine(_, side, worse):
            return f"{side}, worse {worse}" if worse else side
        case tree.Answered(_, name, values, day):
            return (f"{day.isoformat()} " if day else "") + f"{name.text}: {values_text(values)}"
        case tree.ListedAnswers(_, names):
            return f": {names_text(names)}"
        case tree.Session():
            return _session(statement)
        case tree.Place(_, day, item, level):
            return f"{day.isoformat()} {item.text}: {level.text}"
        case tree.From(_, day, to, change):
            return day.isoformat() + (f" to {to.isoformat()}" if to else "") + f" {line_of(change)}"
        case tree.Note(_, day, words):
            return f"{day.isoformat()} {words.text}"
        case _:
            raise TypeError(f"no spelling for {type(statement).__name__}")


def _guard(guard: tree.Guard) -> str:
    front = f"{guard.target.text} if " if guard.target else ""
    return front + condition_text(guard.condition) + _streak(guard.streak)


def _streak(streak: int | None) -> str:
    if streak is None:
        return ""
    return f", {streak} {'session' if streak == 1 else 'sessions'} in a row"


def _step(step: tree.StepLine) -> str:
    word = "up to" if step.keyword == "add" else "down to"
    bound = f", {word} {amount_text(step.bound)}" if step.bound else ""
    return f"{amount_text(step.amount)} when {condition_text(step.condition)}{_streak(step.streak)}{bound}"


def _amount_line(keyword: str, amount: tree.Amount | None) -> str:
    if keyword == "fresh":
        return f"for {amount_text(amount)}" if amount else "for one session"
    text = amount_text(amount) if amount else ""
    return f"{text} a day" if keyword == "budget" else text


def _session(session: tree.Session) -> str:
    days = ", ".join(day.isoformat() for day in session.dates) + (f" to {session.to.isoformat()}" if session.to else "")
    item = f" {session.item.text}" if session.item else ""
    return f"{days}{item}: {', '.join(map(session_part_text, session.parts))}"


def row_text(row: tree.AdjustRow | tree.Zone) -> str:
    """A row of `adjust` or of `pain zones`."""
    if isinstance(row, tree.Zone):
        return f"{row.low if row.low == row.high else f'{row.low} to {row.high}'}: {row.words.text}"
    if row.high is None:
        counts = f"{row.low} or more"
    else:
        counts = f"{row.low}" if row.low == row.high else f"{row.low} to {row.high}"
    return f"{counts}: {signed_text(row.change)}"
