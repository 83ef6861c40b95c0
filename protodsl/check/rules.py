"""Every rule there is, in the order of the families of codes."""

from __future__ import annotations

from protodsl.check.context import Rule
from protodsl.check.safety.bearing import bearing
from protodsl.check.safety.flag_never_yes import flag_never_yes
from protodsl.check.safety.forbidden_movement import forbidden_movement
from protodsl.check.safety.instead_avoided import instead_avoided
from protodsl.check.safety.load_limit import load_limit
from protodsl.check.safety.no_danger_sign import no_danger_sign
from protodsl.check.safety.no_instead import no_instead
from protodsl.check.safety.no_stop_rule import no_stop_rule
from protodsl.check.safety.past_limit import past_limit
from protodsl.check.safety.past_normal_range import past_normal_range
from protodsl.check.safety.review_passed import review_passed
from protodsl.check.safety.silent_joint import silent_joint

RULES: tuple[Rule, ...] = (
    past_limit,
    forbidden_movement,
    silent_joint,
    bearing,
    load_limit,
    past_normal_range,
    no_instead,
    instead_avoided,
    no_stop_rule,
    no_danger_sign,
    review_passed,
    flag_never_yes,
)
