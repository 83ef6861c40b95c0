"""Every rule there is, in the order of the families of codes."""

from __future__ import annotations

from protodsl.check.chains.always_holds import always_holds
from protodsl.check.chains.endless_phase import endless_phase
from protodsl.check.chains.instead_in_a_circle import instead_in_a_circle
from protodsl.check.chains.never_holds import never_holds
from protodsl.check.chains.unreachable_level import unreachable_level
from protodsl.check.chains.up_and_down import up_and_down
from protodsl.check.chains.up_from_the_top import up_from_the_top
from protodsl.check.context import Rule
from protodsl.check.dose.budget import budget
from protodsl.check.dose.load_jump import load_jump
from protodsl.check.dose.no_room_for_rest import no_room_for_rest
from protodsl.check.dose.no_volume import no_volume
from protodsl.check.dose.often import often
from protodsl.check.dose.out_of_the_ordinary import out_of_the_ordinary
from protodsl.check.dose.set_lines import set_lines
from protodsl.check.dose.strength_running import strength_running
from protodsl.check.dose.two_doses import two_doses
from protodsl.check.dose.volume_jump import volume_jump
from protodsl.check.safety.bearing import bearing
from protodsl.check.safety.drawn_further import drawn_further
from protodsl.check.safety.drawn_past_limit import drawn_past_limit
from protodsl.check.safety.flag_never_yes import flag_never_yes
from protodsl.check.safety.forbidden_movement import forbidden_movement
from protodsl.check.safety.instead_avoided import instead_avoided
from protodsl.check.safety.instead_left_out import instead_left_out
from protodsl.check.safety.load_limit import load_limit
from protodsl.check.safety.no_danger_sign import no_danger_sign
from protodsl.check.safety.no_instead import no_instead
from protodsl.check.safety.no_stop_rule import no_stop_rule
from protodsl.check.safety.past_limit import past_limit
from protodsl.check.safety.past_normal_range import past_normal_range
from protodsl.check.safety.review_passed import review_passed
from protodsl.check.safety.silent_joint import silent_joint
from protodsl.check.safety.two_limits import two_limits
from protodsl.check.tables.finding_undecided import finding_undecided
from protodsl.check.tables.gives_undecided import gives_undecided
from protodsl.check.tables.repetitions import repetitions
from protodsl.check.tables.row_never_wins import row_never_wins
from protodsl.check.tables.weeks import weeks
from protodsl.check.tables.zones import zones
from protodsl.check.words.bare_side import bare_side
from protodsl.check.words.hard_to_read import hard_to_read
from protodsl.check.words.long_sentence import long_sentence
from protodsl.check.words.missing_character import missing_character
from protodsl.check.words.several_actions import several_actions
from protodsl.check.words.unmatched_emphasis import unmatched_emphasis

RULES: tuple[Rule, ...] = (
    unreachable_level,
    instead_in_a_circle,
    up_and_down,
    never_holds,
    always_holds,
    endless_phase,
    up_from_the_top,
    weeks,
    zones,
    repetitions,
    finding_undecided,
    gives_undecided,
    row_never_wins,
    past_limit,
    drawn_past_limit,
    drawn_further,
    forbidden_movement,
    silent_joint,
    bearing,
    load_limit,
    past_normal_range,
    no_instead,
    instead_avoided,
    instead_left_out,
    no_stop_rule,
    no_danger_sign,
    review_passed,
    flag_never_yes,
    two_limits,
    budget,
    strength_running,
    load_jump,
    volume_jump,
    often,
    no_volume,
    no_room_for_rest,
    out_of_the_ordinary,
    two_doses,
    set_lines,
    long_sentence,
    several_actions,
    hard_to_read,
    bare_side,
    missing_character,
    unmatched_emphasis,
)
