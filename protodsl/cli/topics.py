"""What `protodsl reference` says beside the statements: the parts that lines are made of, each with an example."""

from __future__ import annotations

from typing import NamedTuple


class Topic(NamedTuple):
    """A topic: what is said of it, and rows of an example and its meaning.

    `frame` is a text that makes a whole of an example put in for `{}`; a test reads every one of them.
    """

    name: str
    about: tuple[str, ...]
    frame: str
    rows: tuple[tuple[str, str], ...]


_DO = "  do\n    Rise.\n"
_GUARD = f"exercise x\n{_DO}  avoid if {{}}\n"

TOPICS: tuple[Topic, ...] = (
    Topic(
        "dose parts",
        (
            "A dose is parts with commas between, in any order: `dose 3 x 12, lift 2 s, rest 60 s, 3 days a week`.",
            "The groups: volume, tempo of a repetition, rest, sides, load, effort, how often, supervised, how long.",
            "A stronger line replaces the groups it says and keeps the others: week row, level, give, exercise, phase,"
            " protocol.",
        ),
        f"exercise x\n  dose {{}}\n{_DO}",
        (
            ("3 x 12", "volume: sets and repetitions"),
            ("3 to 4 x 8 to 12", "volume: ranges"),
            ("3 x 30 s", "volume: sets of a time; also min, breaths, steps or a length"),
            ("3 x to fatigue", "volume: each set until tired"),
            ("12 reps", "volume: once; also 20 min, 400 m, to fatigue"),
            ("12 then 10 then 8", "volume: repetitions of each set"),
            ("5 x (4 min walk + 1 min run)", "volume: intervals"),
            ("lift 2 s, hold 2 to 5 s, lower 3 s", "tempo of one repetition"),
            ("hold until settled", "tempo: as long as it takes"),
            ("rest 60 s", "rest between sets; also 2 to 3 min"),
            ("rest until settled", "rest: as long as it takes"),
            ("each side", "sides: both, in turn"),
            ("affected side", "sides: the hurt one alone"),
            ("load 5 kg", "load: a weight"),
            ("load 70 % of 1RM", "load: a share of what can be lifted once, or of a finding"),
            ("load 8RM", "load: what can be lifted eight times"),
            ("load body weight + 5 kg", "load: a band or body weight, with a weight added or taken off"),
            ("load 8RM up to 20 kg", "load: bounded, where a phase limits the load"),
            ("effort 6 to 7", "effort from 0 to 10"),
            ("2 reps in reserve", "effort: repetitions that would still go"),
            ("daily", "how often: every day"),
            ("hourly", "how often: once an hour"),
            ("every 2 hours", "how often: by the hour"),
            ("once a day", "how often: on each training day"),
            ("twice a day", "how often: on each training day"),
            ("3 times a day", "how often: on each training day; also 3 to 4"),
            ("3 days a week", "how often: training days; also 2 to 3"),
            ("every other day", "how often: a day between"),
            ("3 days a week, rest day between", "how often: never two days running"),
            ("3 x 12, 1 supervised", "so many of the week's sessions in the clinic"),
            ("3 x 12, for 6 weeks", "how long it is done at all"),
            ("week 1: 2 x 10", "a row for one week; `weeks 2 to 3:` and `weeks 4 on:` go on"),
            ("weeks 2 to 3: 3 x 10", "a row for several weeks; rows join without gap or overlap"),
            ("weeks 4 on: 3 x 12", "a row without an end"),
        ),
    ),
    Topic(
        "conditions",
        (
            "A condition stands behind if, unless, when and until. `and` and `or` do not mix without brackets.",
            "What is not known is neither yes nor no: it leaves out what is risky and lets nothing rise.",
        ),
        _GUARD,
        (
            ("fever", "a question that is answered yes"),
            ("not fever", "answered no"),
            ("fever or chest pain", "either; `and` for both"),
            ("not (fever or chest pain)", "brackets"),
            ("fever and (cough or chest pain)", "brackets keep `and` and `or` apart"),
            ("pain > 5", "a number; also < >= <= ="),
            ("pain next morning > pain + 1", "one number held against another"),
            ("knee bend < bend allowed", "a number held against a setting: its bare name, without brackets"),
            ("pain site is heel", "a choice; also `is not heel`"),
            ("pain site is not heel", "any other choice"),
            ("pain site is one of (heel, mid tendon)", "one of several choices"),
            ("at least 2 of (fever, night pain, pain > 7)", "so many of them"),
            ("heel raises >= 15 on each side", "a sided finding on both sides"),
            ("heel raises < 15 on either side", "on at least one side"),
            ("heel raises >= 15 on the affected side", "also the other, left or right side"),
            ("heel raises >= 15 on the other side", "the side that is not hurt"),
            ("heel raises >= 15 on the left side", "one side, whoever is hurt where"),
            ("heel raises >= 15 on the right side", "one side, whoever is hurt where"),
            ("symmetry of heel raises >= 90 %", "affected over unaffected side, in percent"),
            ("difference of knee bend <= 10 deg", "unaffected less affected side"),
            ("change of pain since start >= 2", "less the first value"),
            ("change of pain since last time >= 2", "less the value before"),
            ("weeks since start >= 6", "completed weeks; also `days since`"),
            ("days since phase start >= 10", "since the phase began"),
            ("weeks since operation date >= 6", "since a date that is a finding"),
        ),
    ),
    Topic(
        "streaks",
        ("Behind the condition of up when, down when, add, take off, until, back to, call if: sessions in a row.",),
        "protocol x like y\n  call if {}\n",
        (
            ("pain > 5", "at once"),
            ("pain > 5, 3 sessions in a row", "three sessions running; there is no `for 3 days`"),
        ),
    ),
    Topic(
        "names",
        (
            "Words with one blank between. A word begins with a letter of any script and may hold digits, - and '.",
            "These stand in no name: and or not if unless like is (write `pins-and-needles`).",
            "A name begins with none of: left, right, otherwise, no, load, at least 2, symmetry of, difference of,"
            " change of, weeks since, days since.",
            "Capitals count. A question, a test and a finding share their names; any other kinds do not.",
        ),
        f"exercise {{}}\n{_DO}",
        (
            ("heel raise", "two words"),
            ("pins-and-needles", "a joining word, hyphenated"),
            ("own-thing-2", "a number belongs to a word"),
            ("sit to stand", "most keywords may stand in a name"),
        ),
    ),
    Topic(
        "sides",
        (
            "A finding has sides where its answer ends in `, each side`; a condition on it then names one.",
            "In a dose: `each side` or `affected side`. In prose: `[affected side]` or `[other side]`.",
            "The affected side is the one in the case; with `both, worse left` it is the worse one.",
        ),
        "test heel raises: Heel raises\n  answer {}\n",
        (("reps from 0 to 60, each side", "measured on both sides"), ("reps from 0 to 60", "measured once")),
    ),
    Topic(
        "kinds of answer",
        ("What a question or a test can be answered with; without an `answer` line it is yes or no.",),
        "question x: Words?\n  answer {}\n",
        (
            ("yes or no", "two answers, and unknown"),
            ("0 to 10", "a scale of whole steps"),
            ("cm from 0 to 25", "a measure with its unit and range"),
            ("one of heel, mid tendon, calf", "a choice"),
            ("date", "a date, for `weeks since`"),
            ("cm from 0 to 25, each side", "on both sides"),
        ),
    ),
    Topic(
        "prose",
        (
            "What a person reads. A line of a block begins with a capital letter; under `do` it is one step.",
            "`*word*` is emphasis, `**word**` is strong; nothing else is markup. Write `x` for times, not a star.",
            "A setting stands in [brackets] in prose, and bare in conditions and limits.",
            "`[affected side]` and `[other side]` are noun phrases: for a person they become `left side` or"
            " `right side`, on a general sheet `affected side` and `other side`. So write `on your [affected side]`.",
        ),
        "setting weeks in brace = 3 weeks\nexercise x\n  do\n    {}\n",
        (
            ("Stand on your [affected side].", "becomes: Stand on your left side."),
            ("Wear the brace for [weeks in brace].", "becomes: Wear the brace for 3 weeks."),
            ("Lower **slowly**.", "strong"),
        ),
    ),
    Topic(
        "picture",
        (
            "One of two stands under an exercise: `figure` with lines that describe a drawing, or `image` with a file.",
            "A picture file lies below the project's folder; its words are for those who cannot see it.",
        ),
        f"exercise x\n{{}}\n{_DO}",
        (
            ("  figure\n    start standing\n    end knees 60", "a drawing from clinical words"),
            ("  figure like bridge\n    end but left knee 0", "as another exercise's, with what differs"),
            ("  image pictures/bridge.svg: hips lifted, knees bent", "a file of your own"),
        ),
    ),
    Topic(
        "poses",
        (
            "A figure is written for the right side; for the left it is mirrored. It has `start`, any number of `then`,"
            " and `end`. The first pose begins with a position; each later one says what differs from the pose before.",
            "Angles are degrees from the neutral position, of flexion where no movement is written (at the ankle"
            " dorsiflexion, at wrist and toes extension); less than 0 is the other way. No side means both.",
            "What is touched is touched on in the poses after it, at the same place, until `lift` or `slide`.",
            "`figure like` another exercise takes all that is not restated: a prop, a view, a pose, the arrows. A pose"
            " that is written again is a new one; with `but` behind `start`, `then` or `end` it is the other's, with"
            " these items put over those that say the same thing.",
            "Sitting brings a chair of 45 cm and lying a mat. A long pose goes on in lines under its keyword.",
        ),
        f"exercise x\n  figure like bridge\n    start {{}}\n{_DO}",
        (
            ("lying on back, knees 100", "a position, and an angle of both knees"),
            ("half-kneeling left foot forward", "a position; without the foot it is the right one"),
            ("but right hip extension 10", "the pose of the other figure with one change"),
            ("standing, knees straight", "no angle"),
            ("standing, trunk rotation 30 to right", "the spine turns and bends to a side"),
            ("standing, trunk lean forward 40", "the trunk as a whole, from upright"),
            ("standing, feet flat on floor", "a contact; also `against wall`, `on step edge`"),
            ("standing, right hand on left knee", "a part on a part"),
            ("standing, lift left foot, slide right heel", "what touches no longer, or at another place"),
            ("on all fours, hands under shoulders", "straight below"),
            ("standing, thighs horizontal, shins vertical", "the direction of a limb"),
            ("standing, feet 30 cm apart", "a distance; also `45 cm from wall`, `40 cm in front of left foot`"),
            ("standing, hands at shoulder height", "level with another part"),
            ("but right foot 30 cm to right", "so far to a side of where it was; in `then` and `end`"),
            ("standing, trunk upright, look ahead, arms forward", "postures of the whole body"),
        ),
    ),
)
# Other words under which somebody looks for a topic.
ALIASES: dict[str, str] = {
    "dose part": "dose parts",
    "condition": "conditions",
    "streak": "streaks",
    "name": "names",
    "placeholders": "prose",
    "text": "prose",
    "pictures": "picture",
    "pose": "poses",
    "figures": "poses",
    "answers": "kinds of answer",
}


def topic(word: str) -> Topic | None:
    """The topic of that name."""
    wanted = ALIASES.get(word, word)
    return next((one for one in TOPICS if one.name == wanted), None)
