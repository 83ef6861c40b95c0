"""Hypothesis strategies for trees: any tree that somebody could have written."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from hypothesis import strategies as st

from protodsl.syntax import tree
from protodsl.syntax.lexis import compiled
from protodsl.syntax.tables import tables
from tests.properties import figures

S = st.SearchStrategy
_PATTERNS = {terminal.name: terminal.pattern for terminal in tables().terminals}


def _whole(terminal: str, text: str) -> bool:
    """Whether a terminal takes the whole of a text."""
    found = compiled(_PATTERNS[terminal])(text, 0)
    return found is not None and found.end() == len(text)


_WORDS = (
    st.sampled_from(["pain", "heel", "raise", "calf", "knee-to-wall", "Romberg's", "grade2", "a", "x", "is-not"])
    | st.sampled_from(["stop", "dose", "give", "level", "load", "start", "part", "done", "given", "to", "up", "off"])
    | st.sampled_from(["one", "last", "time", "side", "each", "since", "weeks", "left", "right", "no", "yes"])
    | st.sampled_from(["unknown", "at", "pins-and-needles", "übung", "колено", "痛み", "شدّ"])
)
_LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGäéßλж痛ع0123456789 .,;:!?()[]*%+-=<>/\"'’“”–≥×&#\u00a0"
names: S[tree.Name] = (
    st.lists(_WORDS, min_size=1, max_size=4)
    .map(" ".join)
    .filter(lambda text: _whole("NAME", text) and not text.startswith(("means", "to", "nothing", "one of", "chose")))
    .filter(lambda text: text not in ("phase start", "load", "yes means"))
    .map(tree.Name)
)


def _scored(name: tree.Name) -> bool:
    """Whether a session can score it: what follows the name must not be taken for part of it."""
    found = compiled(_PATTERNS["SCORED"])(f"{name.text} 3", 0)
    return found is not None and found.end() == len(name.text)


scored: S[tree.Name] = names.filter(_scored)
# A finding that a session reports by its name alone: behind another word, yes, no and unknown are values.
reported: S[tree.Name] = names.filter(lambda name: name.text.split()[-1] not in ("yes", "no", "unknown"))
prose: S[tree.Words] = (
    st.text(_LETTERS, min_size=1, max_size=30).map(str.strip).filter(lambda text: _whole("PROSE", text)).map(tree.Words)
)
sentences: S[tuple[tree.Words, ...]] = st.lists(
    prose.filter(lambda words: _whole("SENTENCE", words.text) and not words.text[0].islower()), min_size=1, max_size=3
).map(tuple)
numbers: S[Decimal] = st.decimals("0", "9999", places=2).map(lambda number: number.normalize())
counts: S[int] = st.integers(1, 60)
wholes: S[Decimal] = counts.map(Decimal)
days: S[date] = st.dates(date(2000, 1, 1), date(2099, 12, 31))
sides: S[str | None] = st.sampled_from([None, "each", "either", "left", "right", "affected", "other"])
units: S[str | None] = st.sampled_from([None, "deg", "cm", "kg", "%", "weeks", "bpm", "km/h", "reps"])
comparisons: S[str] = st.sampled_from([">=", "<=", "<", ">", "="])


def maybe(strategy: S[object]) -> S[object]:
    """Or None."""
    return st.none() | strategy


amounts: S[tree.Amount] = st.builds(tree.Amount, numbers, units)
negative: S[tree.Amount] = st.builds(lambda n, u: tree.Amount(-n, u), numbers, units)


def amount_in(*names_of_units: str) -> S[tree.Amount]:
    """An amount in one of these units."""
    return st.builds(tree.Amount, numbers, st.sampled_from(names_of_units))


def ranges(of: S[Decimal]) -> S[tree.Range]:
    """One number or two in order."""
    return st.tuples(of, of).map(lambda pair: tree.Range(min(pair), max(pair)))


subjects: S[tree.Subject] = st.builds(
    tree.Subject,
    st.sampled_from(
        ["value", "symmetry", "difference", "change since start", "change since last time", "weeks since", "days since"]
    ),
    names,
) | st.builds(
    tree.Subject,
    st.sampled_from(["weeks since", "days since"]),
    st.sampled_from(["start", "phase start"]).map(tree.Name),
)
operands: S[tree.Operand] = (
    st.builds(tree.Operand, st.none(), amounts | negative)
    | st.builds(tree.Operand, names, st.none())
    | st.builds(tree.Operand, names, (amounts | negative).filter(lambda amount: amount.value != 0))
)
_facts = (
    st.builds(tree.Fact, names, sides)
    | st.builds(tree.Compare, subjects, comparisons, operands, sides)
    | st.builds(tree.Is, names, st.tuples(names), st.booleans(), sides)
    | st.builds(tree.Is, names, st.lists(names, min_size=2, max_size=3).map(tuple), st.just(False), sides)
)


def _joined(of: S[tree.Condition]) -> S[tree.Condition]:
    several = st.lists(of, min_size=2, max_size=3).map(tuple)
    return (
        st.builds(tree.Not, of)
        | st.builds(tree.All, several)
        | st.builds(tree.AnyOf, several)
        | st.builds(tree.AtLeast, counts, several)
    )


conditions: S[tree.Condition] = st.recursive(_facts, _joined, max_leaves=5)

_seconds = ranges(numbers)
volumes: S[tree.Sets | tree.SetsOf | tree.Intervals] = (
    st.builds(tree.Sets, ranges(wholes), ranges(wholes), st.sampled_from([None, "s", "min", "breaths"]))
    | st.builds(tree.Sets, ranges(wholes), st.none(), st.none())
    | st.builds(tree.Sets, st.none(), ranges(numbers), st.sampled_from([None, "min", "m", "steps"]))
    | st.builds(tree.Sets, st.none(), st.none(), st.none())
    | st.builds(tree.SetsOf, st.lists(counts, min_size=2, max_size=4).map(tuple))
    | st.builds(
        tree.Intervals,
        ranges(wholes),
        st.lists(st.builds(tree.Leg, amount_in("min", "s", "m"), names), min_size=1, max_size=3).map(tuple),
    )
)
_up_to = maybe(amount_in("kg"))
loads: S[tree.Load] = (
    st.builds(lambda amount, up: tree.Load(amount, up_to=up), amount_in("kg", "lb"), _up_to)
    | st.builds(
        lambda share, of, up: tree.Load(percent=share, of=of, up_to=up),
        numbers,
        names | st.just(tree.Name("1RM")),
        _up_to,
    )
    | st.builds(lambda most, up: tree.Load(maximum=most, up_to=up), counts, _up_to)
    | st.builds(lambda name, up: tree.Load(name=name, up_to=up), names, _up_to)
    | st.builds(
        lambda name, amount, up: tree.Load(amount, name=name, up_to=up),
        names,
        (amount_in("kg") | negative).filter(lambda amount: amount.value != 0),
        _up_to,
    )
)
_times = ranges(wholes)
dose_parts: S[tree.DosePart] = (
    volumes
    | loads
    | st.builds(tree.Timing, st.sampled_from(["lift", "hold", "lower"]), maybe(_seconds))
    | st.builds(tree.Rest, _seconds, st.sampled_from(["s", "min"]))
    | st.just(tree.Rest(None, None))
    | st.builds(tree.Sides, st.sampled_from(["each", "affected"]))
    | st.builds(tree.Effort, st.sampled_from(["effort", "reserve"]), _times)
    | st.builds(tree.Often, st.sampled_from(["daily", "hourly", "every other day", "rest day between"]))
    | st.builds(tree.Often, st.sampled_from(["every hours", "times a day", "days a week"]), _times)
    | st.builds(tree.Supervised, counts)
    | st.builds(tree.Lasting, amount_in("weeks", "days"))
)
parts = st.lists(dose_parts, min_size=1, max_size=4).map(tuple)
weeks = st.builds(tree.Weeks, counts, st.none()) | st.tuples(counts, counts).map(
    lambda pair: tree.Weeks(min(pair), max(pair))
)


def line(kind: type[tree.Statement], keywords: str, *fields: S[object]) -> S[tree.Statement]:
    """A statement with one of the keywords, which are parted by bars."""
    return st.builds(kind, st.sampled_from(keywords.split("|")), *fields)


some_names = st.lists(names, min_size=1, max_size=3).map(tuple)
streaks = maybe(counts)
words = maybe(prose)
doses = (
    line(tree.DoseLine, "dose", parts, maybe(weeks))
    | line(tree.DoseLine, "set", parts, st.none(), counts)
    | line(tree.StepLine, "add|take off", amounts, conditions, streaks, maybe(amounts))
    | line(
        tree.AdjustLine,
        "adjust",
        counts,
        maybe(counts),
        st.lists(
            st.builds(tree.AdjustRow, st.just(2), st.sampled_from([None, 2, 5]), maybe(amounts | negative)),
            min_size=1,
            max_size=3,
        ).map(tuple),
    )
)
focus = line(tree.FocusLine, "focus", names, maybe(counts))
exercise_lines = (
    doses
    | focus
    | line(tree.ProseLine, "title|why|when|feel|normal|stop", prose)
    | line(tree.ProseLine, "fix", st.tuples(prose, prose).map(lambda p: tree.Words(f"{p[0].text}: {p[1].text}")))
    | line(tree.NamesLine, "position|bearing", st.tuples(names))
    | line(tree.NamesLine, "works|still", some_names)
    | st.just(tree.NamesLine("supervised", ()))
    | line(tree.BlockLine, "do", st.none(), sentences)
    | line(
        tree.MovesLine,
        "moves",
        st.lists(st.builds(tree.Move, names, amount_in("deg")), min_size=1, max_size=3).map(tuple),
    )
    | line(tree.NeedsLine, "needs", some_names, maybe(names))
    | line(tree.FigureLine, "figure", maybe(names), figures.lines)
    | line(tree.ImageLine, "image", st.just(tree.Words("pictures/heel.svg")), words)
    | line(tree.Guard, "avoid if", conditions, st.none(), st.just(()), maybe(names), words)
    | line(tree.Guard, "allow if", conditions, st.none(), st.just(()), st.none(), prose)
    | line(tree.Guard, "caution if", conditions, st.none(), sentences)
    | line(tree.LiftLine, "lift", prose, prose)
)
gives = line(
    tree.Give, "give", names, st.none(), st.just(False), st.lists(doses | focus, max_size=2).map(tuple)
) | line(tree.Give, "give", names, conditions, st.booleans(), st.just(()))
moves_of_levels = line(tree.Guard, "up when|down when", conditions, streaks, st.just(()) | sentences) | line(
    tree.HarderThan, "harder than", names, names.filter(lambda name: " at " not in f" {name.text} ")
)
levels = line(
    tree.Level,
    "level",
    names,
    maybe(names),
    maybe(names),
    st.lists(gives | doses | moves_of_levels, max_size=3).map(tuple),
)
progression_lines = (
    levels
    | moves_of_levels
    | st.builds(lambda c, t: tree.Guard("start at", c, target=t), conditions, names)
    | line(tree.NamesLine, "works", some_names)
)
groups = line(tree.Group, "choose", st.none(), counts, st.lists(gives, max_size=2).map(tuple)) | line(
    tree.Group, "part", prose, st.none(), st.lists(gives, max_size=2).map(tuple)
)
both = (
    gives
    | groups
    | line(tree.DoseLine, "dose", parts)
    | line(tree.Guard, "call if", conditions, streaks, st.just(()) | sentences)
    | line(tree.BlockLine, "advice", prose, sentences)
    | line(tree.ProseLine, "stop|may|not yet", prose)
    | line(tree.NamesLine, "leave out", st.tuples(names))
    | line(tree.LiftLine, "lift", prose, prose)
)
phase_lines = (
    both
    | line(tree.LimitLine, "limit", names, comparisons, operands)
    | line(tree.NamesLine, "forbid|bearing", st.tuples(names))
    | line(tree.Guard, "until", conditions, streaks)
    | st.builds(
        lambda c, s, b, t: tree.Guard("back to", c, s, b, target=t), conditions, streaks, st.just(()) | sentences, names
    )
)
zones = st.builds(tree.Zone, st.just(2), st.sampled_from([2, 5]), prose, st.just(()) | sentences)
protocol_lines = (
    both
    | line(tree.VersionLine, "version", st.sampled_from(["1.0.0", "10.2.33+north.1"]))
    | line(tree.ReviewLine, "review", days, names, days)
    | line(tree.ProseLine, "title|source|for|goal|why|when", prose)
    | line(tree.AmountLine, "lasts", amount_in("weeks", "days"))
    | line(tree.AmountLine, "budget", amount_in("min"))
    | line(tree.Guard, "emergency if|red flag if", conditions, st.none(), st.just(()) | sentences)
    | line(tree.BlockLine, "flare-up", st.none(), sentences)
    | line(tree.ZonesLine, "pain zones", st.lists(zones, min_size=1, max_size=3).map(tuple))
    | line(tree.Declaration, "phase", names, st.none(), st.lists(phase_lines, max_size=4).map(tuple))
    | line(
        tree.Declaration,
        "change",
        names,
        st.none(),
        st.lists(exercise_lines | levels | phase_lines, max_size=2).map(tuple),
    )
)
answers = (
    st.just(tree.AnswerLine("answer", "yes or no"))
    | st.builds(lambda e: tree.AnswerLine("answer", "date", each_side=e), st.booleans())
    | st.builds(
        lambda r, e: tree.AnswerLine("answer", "scale", r.low, r.high, each_side=e), ranges(numbers), st.booleans()
    )
    | st.builds(
        lambda r, e: tree.AnswerLine("answer", "measure", r.low, r.high, "cm", each_side=e),
        ranges(numbers),
        st.booleans(),
    )
    | st.builds(lambda n, e: tree.AnswerLine("answer", "choice", choices=n, each_side=e), some_names, st.booleans())
)
finding_lines = (
    answers
    | line(tree.AmountLine, "fresh", maybe(amount_in("weeks", "hours", "years")))
    | line(tree.NamesLine, "better", st.sampled_from(["higher", "lower"]).map(lambda word: (tree.Name(word),)))
    | line(tree.ProseLine, "means|yes means|no means", prose)
)
verdicts = st.lists(
    line(tree.Verdict, "if", names | st.sampled_from(["yes", "no"]).map(tree.Name), conditions)
    | line(tree.Verdict, "otherwise", names, st.none()),
    min_size=1,
    max_size=3,
).map(tuple)
declarations: S[tree.Statement] = (
    line(tree.Declaration, "exercise", names, maybe(names), st.lists(exercise_lines, max_size=5).map(tuple))
    | line(tree.Declaration, "progression", names, maybe(names), st.lists(progression_lines, max_size=4).map(tuple))
    | line(tree.Declaration, "protocol", names, maybe(names), st.lists(protocol_lines, max_size=5).map(tuple))
    | line(tree.FindingDeclaration, "question|test", names, prose, st.lists(finding_lines, max_size=3).map(tuple))
    | line(tree.FindingDeclaration, "finding", names, words, verdicts)
    | line(tree.Described, "equipment|target", names, prose)
    | line(tree.SettingLine, "setting", names, amounts)
    | line(tree.SettingLine, "setting", names, amounts, amounts, amounts)
    | line(
        tree.Use,
        "use",
        st.just(tree.Words("library/calf")),
        st.lists(st.tuples(names, amounts), max_size=2).map(tuple),
        st.lists(names, max_size=2).map(tuple),
    )
)
values: S[tree.Value] = (
    st.sampled_from(["yes", "no", "unknown"]).map(tree.Value)
    | st.builds(lambda amount: tree.Value("amount", amount), amounts | negative)
    | st.builds(lambda day: tree.Value("date", date=day), days)
    | st.builds(lambda name: tree.Value("name", name=name), names)
)
plain_values = values.filter(lambda value: value.form not in ("name", "date"))
sided = (
    values.map(lambda value: ((None, value),))
    | values.map(lambda value: (("left", value),))
    | st.tuples(values, values).map(lambda pair: (("right", pair[0]), ("left", pair[1])))
)
scores = (
    plain_values.map(lambda value: ((None, value),))
    | plain_values.map(lambda value: (("right", value),))
    | st.tuples(plain_values, plain_values).map(lambda pair: (("left", pair[0]), ("right", pair[1])))
)
session_parts: S[tree.SessionPart] = (
    st.sampled_from(["as given", "missed", "part done"]).map(tree.SessionPart)
    | volumes.map(lambda volume: tree.SessionPart("done", volume))
    | st.builds(
        lambda volume, side: tree.SessionPart("side done", volume, side),
        volumes.filter(lambda v: not isinstance(v, tree.Sets) or (v.sets is not None and v.amount is not None)),
        st.sampled_from(["left", "right"]),
    )
    | loads.map(lambda load: tree.SessionPart("load", load=load))
    | st.builds(lambda name, found: tree.SessionPart("score", name=name, values=found), scored, scores)
    | st.builds(lambda form, name: tree.SessionPart(form, name=name), st.sampled_from(["yes", "no"]), reported)
)
because = prose
case_lines = (
    line(tree.CaseProtocol, "protocol", names, st.just("1.3.0"))
    | line(tree.DateLine, "started|next visit", days)
    | line(tree.LanguageLine, "language", st.sampled_from(["es", "zh-Hans", "pt-BR"]))
    | line(tree.SideLine, "side", st.sampled_from(["left", "right", "none"]))
    | line(tree.SideLine, "side", st.just("both"), st.sampled_from(["left", "right"]))
    | line(tree.NamesLine, "has", st.lists(names, max_size=2).map(tuple))
    | line(
        tree.OnDate,
        "on",
        days,
        st.lists(
            line(tree.Answered, "answered", names, sided)
            | line(tree.ListedAnswers, "yes|no|unknown|chose", some_names),
            max_size=3,
        ).map(tuple),
    )
    | st.builds(
        lambda found, to, item, done: tree.Session("session", found if to is None else found[:1], to, item, done),
        st.lists(days, min_size=1, max_size=3).map(tuple),
        st.none() | st.just(date(2100, 1, 1)),
        maybe(names),
        st.lists(session_parts, min_size=1, max_size=3).map(tuple),
    )
    | line(tree.Answered, "corrected", names, sided, days, because)
    | line(tree.Place, "place", days, names, names, because)
    | line(tree.Note, "note", days, prose)
    | st.builds(
        lambda day, change, why: tree.From("from", day, None, change, why),
        days,
        gives
        | st.builds(lambda name: tree.NamesLine("leave out", (name,)), names)
        | line(tree.Declaration, "change", names, st.none(), st.lists(exercise_lines, max_size=2).map(tuple)),
        because,
    )
    | st.builds(lambda day: tree.From("from", day, None, tree.VersionLine("version", "1.4.0")), days)
)
cases: S[tree.Statement] = line(
    tree.CaseDeclaration, "case", st.just(tree.Name("P-0417")), st.lists(case_lines, max_size=6).map(tuple)
)
