"""Figures whose loads are looked at, and how each is reckoned, for the tests of the load at a joint."""

from __future__ import annotations

from protodsl.figure.load.joints import Load
from protodsl.figure.load.movement import Movement, movement, peaks
from tests.unit.figure.solve.reading import figure

FIGURES: dict[str, str] = {
    "seated knee extension": "start sitting\nend right knee 0, lift right foot",
    "heel raise both legs": "start standing\nend ankles plantarflexion 30, lift heels, body straight",
    "heel raise one leg": "start standing, lift left foot, left knee 60\n"
    "end right ankle plantarflexion 30, lift right heel, right knee 0, right hip 0",
    "bridge both legs": "start lying on back, knees 100, feet flat on floor\nend hips 0, lift pelvis",
    "bridge one leg": "start lying on back, knees 100, feet flat on floor\n"
    "then lift left foot, left knee 0, left hip 40\nend right hip 0, lift pelvis, left hip 0",
    "squat to 60": "start standing\nend knees 60, feet flat on floor, arms forward",
    "squat to 90": "start standing\nend knees 90, feet flat on floor, arms forward",
    "wall squat": "wall behind\nstart standing, back against wall, feet 45 cm from wall\n"
    "end knees 60, trunk upright, slide back",
    "stance on one leg": "start standing\nend lift left foot, left knee 60",
    "straight leg raise": "start lying on back\nend right hip 45, right knee 0, lift right leg",
    "side support": "start lying on right side, right forearm on floor, right elbow under right shoulder\n"
    "end lift pelvis, body straight",
    "plank": "start lying face down, forearms on floor, toes on floor\nend lift pelvis, body straight",
    "arm and leg": "start on all fours\n"
    "end lift right leg, right hip 0, right knee 0, lift left hand, left shoulder flexion 170",
    "arm forward": "start standing\nend right shoulder flexion 90, right shoulder abduction 0, right elbow 0",
    "chair rise": "start sitting\nend standing",
}
JOINTS: tuple[str, ...] = ("hip", "knee", "ankle", "shoulder", "elbow", "wrist", "lumbar", "thoracic", "cervical")


def moving(name: str, mass: float = 70.0) -> Movement:
    """The movement of one of FIGURES."""
    found = movement(figure(FIGURES[name]), mass)
    assert found is not None
    return found


def peak(text: str, joint: str, of: str, side: str = "right") -> Load:
    """The largest load of a movement of a joint, of one of FIGURES or of the lines of a figure."""
    found = peaks(figure(FIGURES.get(text, text)), joint, side)
    assert found
    return next(load for load in found if load.movement == of)
