"""What is said about kinds, units and ranges: what can be compared with what, and what a line may hold."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Span

NUMBER_AGAINST_YES_NO = Code("K301", "number-against-yes-no", Severity.ERROR)
NUMBER_AS_FACT = Code("K302", "number-as-fact", Severity.ERROR)
CHOICE_WITHOUT_IS = Code("K303", "choice-without-is", Severity.ERROR)
IS_WITHOUT_CHOICES = Code("K304", "is-without-choices", Severity.ERROR)
UNKNOWN_CHOICE = Code("K305", "unknown-choice", Severity.ERROR)
BARE_DATE = Code("K306", "date-in-a-comparison", Severity.ERROR)
SINCE_WITHOUT_DATE = Code("K307", "since-without-a-date", Severity.ERROR)
DIFFERENT_DIMENSIONS = Code("K308", "different-dimensions", Severity.ERROR)
MISSING_UNIT = Code("K309", "missing-unit", Severity.ERROR)
OUTSIDE_RANGE = Code("K310", "outside-the-range", Severity.ERROR)
SIDE_MISSING = Code("K311", "side-missing", Severity.ERROR)
SIDE_WITHOUT_SIDES = Code("K312", "side-without-sides", Severity.ERROR)
NEEDS_SIDES = Code("K313", "needs-two-sides", Severity.ERROR)
NEEDS_NUMBER = Code("K314", "needs-a-number", Severity.ERROR)
SETTING_IN_FRONT = Code("K315", "setting-in-front", Severity.ERROR)
SETTING_OUTSIDE = Code("K316", "setting-outside-its-range", Severity.ERROR)
IMPOSSIBLE_NUMBER = Code("K317", "impossible-number", Severity.ERROR)
NOT_IN_LIST = Code("K318", "not-in-the-list", Severity.ERROR)
PART_TWICE = Code("K319", "part-twice", Severity.ERROR)
WRONG_UNIT = Code("K320", "wrong-unit", Severity.ERROR)
DOSE_TWICE = Code("K321", "dose-twice", Severity.ERROR)
LIMIT_NOT_AT_MOST = Code("K322", "limit-not-at-most", Severity.ERROR)
LINE_FOR_ANOTHER_KIND = Code("K323", "line-for-another-kind", Severity.ERROR)
LINE_OUT_OF_PLACE = Code("K324", "line-out-of-place", Severity.ERROR)
NOT_WHOLE = Code("K325", "not-whole-weeks-or-days", Severity.ERROR)
CHOICES = Code("K326", "choices", Severity.ERROR)
REVIEW_TURNED = Code("K327", "review-turned-round", Severity.ERROR)
WITHOUT_ROWS = Code("K328", "finding-without-rows", Severity.ERROR)

# What a unit measures, as a person says it; the keys are the dimensions of protodsl.units and three kinds of answers.
DIMENSION_WORDS: dict[str, str] = {
    "angle": "an angle",
    "length": "a length",
    "mass": "a weight",
    "time": "a time",
    "calendar": "a time in months or years",
    "count": "a count",
    "steps": "a number of steps",
    "breaths": "a number of breaths",
    "rate": "a pulse",
    "pressure": "a pressure",
    "speed": "a speed",
    "power": "a power",
    "force": "a force",
    "percent": "a percentage",
    "number": "a number without a unit",
    "scale": "a point on a scale",
}

_ONE_OF_SIDES = "say `on each side`, `on either side`, `on the affected side` or another side"


def number_against_yes_no(name: str, span: Span, declared: Span) -> Diagnostic:
    """A comparison with a finding that is answered yes or no."""
    return Diagnostic(
        NUMBER_AGAINST_YES_NO,
        f"`{name}` is answered yes or no and cannot be compared with a number",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"write `{name}` or `not {name}` alone",
        args={"name": name},
    )


def number_as_fact(name: str, span: Span, declared: Span) -> Diagnostic:
    """A number where a yes or no is needed."""
    return Diagnostic(
        NUMBER_AS_FACT,
        f"`{name}` is a number, so by itself it is neither yes nor no",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"compare it, as in `{name} >= 3`",
        args={"name": name},
    )


def choice_without_is(name: str, span: Span, declared: Span, choices: Sequence[str]) -> Diagnostic:
    """A choice used as a fact or compared with a number."""
    return Diagnostic(
        CHOICE_WITHOUT_IS,
        f"`{name}` is one of several words and needs `is` to be decided",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"write `{name} is {choices[0] if choices else 'VALUE'}`",
        args={"name": name},
    )


def is_without_choices(name: str, span: Span, declared: Span, yes_no: bool) -> Diagnostic:
    """`is` after a finding that has no list of words."""
    return Diagnostic(
        IS_WITHOUT_CHOICES,
        f"`{name}` has no list of words to choose from, so `is` decides nothing",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"write `{name}` or `not {name}`" if yes_no else f"compare it, as in `{name} >= 3`",
        args={"name": name},
    )


def unknown_choice(
    value: str, name: str, span: Span, declared: Span, choices: Sequence[str], nearest: str | None
) -> Diagnostic:
    """A word that is not among the answers of a finding."""
    return Diagnostic(
        UNKNOWN_CHOICE,
        f"`{value}` is not an answer to `{name}`",
        Label(span),
        (Label(declared, "declared here"),),
        notes=(f"the answers are {_list(choices)}",),
        help=f"did you mean `{nearest}`?" if nearest else "use one of the answers, or add it where it is declared",
        fix=Fix(span, nearest) if nearest else None,
        args={"name": name, "value": value, "nearest": nearest},
    )


def bare_date(name: str, span: Span, declared: Span) -> Diagnostic:
    """A date used as a fact or in a comparison without `since`."""
    return Diagnostic(
        BARE_DATE,
        f"`{name}` is a date; a condition counts the weeks or days since it",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"write `weeks since {name} >= 6`",
        args={"name": name},
    )


def since_without_date(name: str, span: Span, declared: Span) -> Diagnostic:
    """`weeks since` something that is no date."""
    return Diagnostic(
        SINCE_WITHOUT_DATE,
        f"`{name}` is not a date, so no weeks or days have passed since it",
        Label(span),
        (Label(declared, "declared here"),),
        help="name a question whose `answer` is `date`, or `start` or `phase start`",
        args={"name": name},
    )


def different_dimensions(
    left: str, left_is: str, right: str, right_is: str, span: Span, places: Sequence[tuple[Span, str]]
) -> Diagnostic:
    """Two things that cannot be compared, added or bounded; `left_is` and `right_is` are dimensions."""
    return Diagnostic(
        DIFFERENT_DIMENSIONS,
        f"`{left}` is {DIMENSION_WORDS[left_is]} and `{right}` is {DIMENSION_WORDS[right_is]}",
        Label(span),
        tuple(Label(place, words) for place, words in places),
        help=f"write {DIMENSION_WORDS[left_is]} instead of `{right}`",
        args={"left": left_is, "right": right_is},
    )


def missing_unit(number: str, unit: str, span: Span, what: str = "") -> Diagnostic:
    """A number that needs a unit; `unit` is the likely one."""
    return Diagnostic(
        MISSING_UNIT,
        f"`{number}` has no unit{f', and {what} is measured in {unit}' if what else ''}",
        Label(span),
        help=f"write `{number} {unit}`",
        fix=Fix(span, f"{number} {unit}"),
        args={"number": number, "unit": unit},
    )


def outside_range(name: str, written: str, low: str, high: str, always: bool, span: Span, declared: Span) -> Diagnostic:
    """A threshold that the answers of a finding can never reach, or never leave."""
    return Diagnostic(
        OUTSIDE_RANGE,
        f"`{written}` {'always holds' if always else 'can never hold'}: `{name}` goes from {low} to {high}",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"write a value between {low} and {high}, or widen the range where it is declared",
        args={"name": name, "low": low, "high": high},
    )


def side_missing(name: str, span: Span, declared: Span) -> Diagnostic:
    """A finding of both sides, and nobody said which."""
    return Diagnostic(
        SIDE_MISSING,
        f"`{name}` is known for each side, and this does not say which side counts",
        Label(span),
        (Label(declared, "declared here"),),
        help=_ONE_OF_SIDES,
        args={"name": name},
    )


def side_without_sides(name: str, span: Span, declared: Span | None) -> Diagnostic:
    """A side of something that has none; `declared` is None where no line declares it."""
    return Diagnostic(
        SIDE_WITHOUT_SIDES,
        f"`{name}` has no left and right, so a side says nothing here",
        Label(span),
        (Label(declared, "declared here"),) if declared else (),
        help="take the side out, or add `, each side` to its `answer`" if declared else "take the side out",
        args={"name": name},
    )


def needs_sides(name: str, what: str, span: Span, declared: Span) -> Diagnostic:
    """Symmetry, difference or focus of a finding without sides; `what` is the words that need them."""
    return Diagnostic(
        NEEDS_SIDES,
        f"`{what}` compares left with right, but `{name}` has no sides",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"add `, each side` to the `answer` of `{name}`",
        args={"name": name, "what": what},
    )


def needs_number(name: str, what: str, span: Span, declared: Span) -> Diagnostic:
    """Arithmetic or an order on a finding that is no number; `what` is what needs it, in words."""
    return Diagnostic(
        NEEDS_NUMBER,
        f"{what} needs a number, but `{name}` is none",
        Label(span),
        (Label(declared, "declared here"),),
        help="name a finding with a scale or a measure",
        args={"name": name, "what": what},
    )


def setting_in_front(name: str, span: Span, declared: Span) -> Diagnostic:
    """A setting left of a comparison, where the finding belongs."""
    return Diagnostic(
        SETTING_IN_FRONT,
        f"`{name}` is a setting and does not change; the finding stands in front of the comparison",
        Label(span),
        (Label(declared, "declared here"),),
        help="put the finding first and the setting behind the sign",
        args={"name": name},
    )


def setting_outside(name: str, value: str, low: str, high: str, span: Span, declared: Span) -> Diagnostic:
    """A setting's value that its own range forbids."""
    return Diagnostic(
        SETTING_OUTSIDE,
        f"`{name}` cannot be {value}: it goes from {low} to {high}",
        Label(span),
        (Label(declared, "declared here"),),
        help=f"choose a value between {low} and {high}",
        args={"name": name, "value": value, "low": low, "high": high},
    )


def impossible_number(written: str, why: str, help_: str, span: Span) -> Diagnostic:
    """A number that can never be meant: no sets, four of three facts."""
    return Diagnostic(
        IMPOSSIBLE_NUMBER, f"`{written}` is not possible: {why}", Label(span), help=help_, args={"written": written}
    )


def not_in_list(what: str, word: str, known: Sequence[str], span: Span, nearest: str | None) -> Diagnostic:
    """A word that is not in one of the language's closed lists."""
    return Diagnostic(
        NOT_IN_LIST,
        f"`{word}` is not a {what}",
        Label(span),
        notes=(f"a {what} is one of {_list(known)}",),
        help=f"did you mean `{nearest}`?" if nearest else f"choose a {what} from the list",
        fix=Fix(span, nearest) if nearest else None,
        args={"what": what, "word": word, "nearest": nearest},
    )


def part_twice(what: str, span: Span, first: Span) -> Diagnostic:
    """Two parts of one dose line that say the same kind of thing."""
    return Diagnostic(
        PART_TWICE,
        f"two parts of this dose say {what}",
        Label(span, "again here"),
        (Label(first, "first here"),),
        help="leave one of the two",
        args={"what": what},
    )


def wrong_unit(written: str, is_: str, what: str, needs: str, example: str, span: Span) -> Diagnostic:
    """A quantity of the wrong kind for its line; `is_` is a dimension, `needs` says what belongs there."""
    return Diagnostic(
        WRONG_UNIT,
        f"`{written}` is {DIMENSION_WORDS[is_]}, but {what} is {needs}",
        Label(span),
        help=f"write it as in `{example}`",
        args={"written": written, "dimension": is_, "what": what},
    )


def dose_twice(keyword: str, span: Span, first: Span) -> Diagnostic:
    """Two common dose lines in one place, or two lines for one set."""
    return Diagnostic(
        DOSE_TWICE,
        f"`{keyword}` may be said once here, and it is said twice",
        Label(span, "again here"),
        (Label(first, "first here"),),
        help="put both into one line; what differs by week says so, as in `dose weeks 3 on: 4 x 10`"
        if keyword == "dose"
        else "leave one of the two",
        args={"keyword": keyword},
    )


def limit_not_at_most(sign: str, span: Span) -> Diagnostic:
    """A limit that is no upper bound."""
    return Diagnostic(
        LIMIT_NOT_AT_MOST,
        f"a limit says the most that is allowed, but `{sign}` does not",
        Label(span),
        help="write `<=`, as in `limit shoulder flexion <= 90 deg`",
        args={"sign": sign},
    )


def line_for_another_kind(keyword: str, name: str, needs: str, span: Span, declared: Span) -> Diagnostic:
    """A line that only makes sense for a finding with another kind of answer."""
    return Diagnostic(
        LINE_FOR_ANOTHER_KIND,
        f"`{keyword}` is for {needs}, and `{name}` is not one",
        Label(span),
        (Label(declared, f"`{name}`"),),
        help="take the line out, or change the `answer`",
        args={"keyword": keyword, "name": name},
    )


def line_out_of_place(keyword: str, what: str, span: Span, allowed: Sequence[str]) -> Diagnostic:
    """A line that does not belong under what it stands under; `what` is that thing in words."""
    return Diagnostic(
        LINE_OUT_OF_PLACE,
        f"a `{keyword}` line has no place in {what}",
        Label(span),
        notes=(f"{what} holds {_list(allowed)}",),
        help="move the line to what it belongs to",
        args={"keyword": keyword, "what": what},
    )


def not_whole(written: str, unit: str, span: Span) -> Diagnostic:
    """Weeks and days since a date are counted whole."""
    return Diagnostic(
        NOT_WHOLE,
        f"`{written}` is not a whole number of {unit}, and only whole {unit} are counted",
        Label(span),
        help=f"write a whole number, or count in {'days' if unit == 'weeks' else 'weeks'}",
        args={"written": written, "unit": unit},
    )


def choices(name: str, why: str, span: Span) -> Diagnostic:
    """An `answer one of` that offers no choice."""
    return Diagnostic(
        CHOICES,
        f"the answers to `{name}` {why}",
        Label(span),
        help="list two or more different answers",
        args={"name": name},
    )


def review_turned(span: Span) -> Diagnostic:
    """The next review lies before the last one."""
    return Diagnostic(
        REVIEW_TURNED,
        "the next review comes before the last one",
        Label(span),
        help="write the later date behind `next by`",
    )


def without_rows(name: str, span: Span) -> Diagnostic:
    """A finding that follows from nothing."""
    return Diagnostic(
        WITHOUT_ROWS,
        f"nothing says when `{name}` is so",
        Label(span),
        notes=("a finding follows from questions and tests, row by row",),
        help="add a row, as in `yes if pain > 5`, or make it a `question` or a `test`",
        args={"name": name},
    )


def _list(words: Sequence[str]) -> str:
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
