"""The fields of the model that are handed on, part by part: what `"format": 1` of the JSON is made of.

A field that the model gains is handed on only when it is written here and in the schemas; the tests ask for a decision.
"""

from __future__ import annotations

from collections.abc import Mapping

from protodsl.decide.plan import (
    Day,
    Evidence,
    FlagState,
    Guarded,
    LaterDose,
    Move,
    NotGiven,
    PlannedFocus,
    PlannedItem,
    PlannedLevel,
    PlannedLoad,
    Reason,
)
from protodsl.model.dose import (
    Adjust,
    AdjustRow,
    Dosage,
    Dose,
    Effort,
    Frequency,
    Intervals,
    Leg,
    Load,
    LoadStep,
    Range,
    Repetition,
    Rest,
    SetRow,
    Sets,
    SetsOf,
    WeekRow,
)
from protodsl.model.exercise import (
    Avoid,
    Caution,
    Exercise,
    Fix,
    Focus,
    Give,
    HarderThan,
    Level,
    Lifted,
    Movement,
    Need,
    Progression,
    StartAt,
    Trigger,
)
from protodsl.model.finding import Answer, Finding, Row
from protodsl.model.protocol import (
    Advice,
    BackTo,
    ChangeMade,
    Choose,
    Flag,
    Forbid,
    Limit,
    Part,
    Phase,
    Protocol,
    Setting,
    Term,
    Until,
    Zone,
)

_NAMES: Mapping[type, str] = {
    Day: "weekday minutes untimed over_budget",
    Evidence: "finding side value date stale",
    FlagState: "kind flag truth deciding unknown was_yes",
    Guarded: "line truth stays deciding unknown",
    LaterDose: "date week dose load",
    Move: "date kind item before after condition streak deciding lines because",
    NotGiven: "item asked replacement reasons uncovered until",
    PlannedFocus: "side extra_sets finding deciding",
    PlannedItem: (
        "item asked give dose first_given since week load focus level days dates minutes supervised part "
        "choice takes options sets equipment avoids cautions reasons later"
    ),
    PlannedLevel: "progression level number of since printed held",
    PlannedLoad: "written kilograms exact steps equation capped_by evidence",
    Reason: "kind name truth deciding unknown because",
    Adjust: "by_set for_set rows",
    AdjustRow: "low high change",
    Dosage: "common weeks sets adjusts steps",
    Dose: "volume repetition rest sides load effort frequency supervised lasting",
    Effort: "amount reserve",
    Frequency: "times_a_day days_a_week every_hours every_other_day rest_day_between",
    Intervals: "rounds legs",
    Leg: "amount activity",
    Load: "weight percent of maximum name up_to",
    LoadStep: "change condition streak bound",
    Range: "low high",
    Repetition: "lift hold lower settled",
    Rest: "seconds",
    SetRow: "number dose",
    Sets: "sets amount unit bare",
    SetsOf: "counts",
    WeekRow: "first last dose",
    Avoid: "condition instead because",
    Caution: "condition lines",
    Exercise: (
        "name title position bearing bearing_said works moves still needs dosage focus do why when feel "
        "normal fix stop supervised avoid caution lifted"
    ),
    Fix: "fault cure line",
    Focus: "finding extra_sets",
    Give: "item condition unless dosage why when supervised focus",
    HarderThan: "level joint",
    Level: "name gives label dosage up down harder",
    Lifted: "line because origin",
    Movement: "kind joint movement to",
    Need: "options instead",
    Progression: "name title levels works dosage start_at harder",
    StartAt: "level condition",
    Trigger: "condition streak lines",
    Answer: "kind low high unit choices sided",
    Finding: "name role words answer fresh one_session better means yes_means no_means rows otherwise",
    Row: "value condition",
    Advice: "title lines",
    BackTo: "phase condition streak lines",
    ChangeMade: "kind name because followers",
    Choose: "count gives",
    Flag: "condition lines streak",
    Forbid: "kind joint movement",
    Limit: "joint movement op most setting kind",
    Part: "title contents",
    Phase: (
        "name title bearing limits forbids until back_to contents dosage advice calls cautions stop may "
        "not_yet leave_out lifted"
    ),
    Protocol: (
        "name title version sources audience goals why when budget lasts emergencies red_flags calls cautions "
        "advice flare_up zones stop may not_yet dosage contents phases lifted changed changes leave_out"
    ),
    Setting: "name value low high",
    Term: "name words",
    Until: "condition streak",
    Zone: "low high words lines",
}
FIELDS: Mapping[type, tuple[str, ...]] = {kind: tuple(names.split()) for kind, names in _NAMES.items()}

# Left out everywhere: the place is told as `place`; `line` is the spelling by which a line is lifted, `damaged` what a
# check passes over, `like` what is already worked in, and a picture is no rule.
EVERYWHERE = frozenset(("span", "line", "damaged", "like", "figure", "image"))
# Told elsewhere in the document, or not handed on: by whom a protocol was reviewed may name a person.
LEFT_OUT: Mapping[type, frozenset[str]] = {
    PlannedItem: frozenset(("exercise", "dosage")),
    Exercise: frozenset(("position_at",)),
    Protocol: frozenset(("scope", "review")),
}
