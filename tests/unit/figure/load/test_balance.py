"""Whatever carries a body: the forces balance its weight, stay in the friction cone, and lie within the range."""

from __future__ import annotations

from dataclasses import replace

import pytest

from protodsl.figure.body.vectors import add, cross, dot, length, minus, times
from protodsl.figure.load.balance import FRICTION, Balance
from protodsl.figure.load.held import METRE, Held
from protodsl.figure.load.moments import loads_at
from protodsl.figure.posture import Vector
from tests.unit.figure.load.movements import FIGURES, JOINTS, moving

EVERY = [(name, held) for name in FIGURES for held in moving(name).held if held.supports]
IDS = [f"{name} {number}" for number, (name, _) in enumerate(EVERY)]


@pytest.mark.parametrize(("name", "held"), EVERY, ids=IDS)
def test_forces_hold_the_body_in_balance(name: str, held: Held) -> None:
    """Their sum is the weight, and about any point their moment is that of the weight: to a millionth of the weight."""
    balance = Balance(held)
    assert balance.possible, name
    forces = balance.forces()
    weight = sum(newtons for _, _, newtons in held.pulls())
    about: Vector = (0.3, -0.2, 0.5)
    force: Vector = (0.0, 0.0, -weight)
    moment: Vector = (0.0, 0.0, 0.0)
    for _, at, newtons in held.pulls():
        moment = add(moment, cross(minus(at, about), (0.0, 0.0, -newtons)))
    for one, push in zip(held.supports, forces, strict=True):
        force = add(force, push)
        moment = add(moment, cross(minus(times(one.at, METRE), about), push))
    assert length(force) < 1e-6 * weight
    assert length(moment) < 1e-6 * weight


@pytest.mark.parametrize(("name", "held"), EVERY, ids=IDS)
def test_nothing_pulls_and_nothing_slips(name: str, held: Held) -> None:
    for one, push in zip(held.supports, Balance(held).forces(), strict=True):
        press = dot(push, one.normal)
        assert press >= -1e-9
        assert length(minus(push, times(one.normal, press))) <= FRICTION * press + 1e-6


@pytest.mark.parametrize(("name", "held"), EVERY, ids=IDS)
def test_the_range_holds_the_estimate(name: str, held: Held) -> None:
    for joint in JOINTS:
        for load in loads_at(joint, "right", held):
            assert load.least - 1e-5 <= load.estimate <= load.most + 1e-5, (joint, load)


@pytest.mark.parametrize(("name", "held"), EVERY[::3], ids=IDS[::3])
def test_scipy_finds_the_same_range_and_the_same_forces(name: str, held: Held) -> None:
    """The range by scipy's solver, and the estimate by its non-negative least squares: other methods, other code."""
    optimize = pytest.importorskip("scipy.optimize")
    numpy = pytest.importorskip("numpy")
    balance = Balance(held)
    of = [(1.0, 0.3, 0.2) if number % 2 else (0.0, -0.5, 1.0) for number in range(len(held.supports))]
    cost = [sum(dot(of[number], force) for number, force in push.at) for push in balance.pushes]
    ends = [
        optimize.linprog([sign * one for one in cost], A_eq=balance.rows, b_eq=balance.right, method="highs").fun
        for sign in (1, -1)
    ]
    assert balance.least_and_most(of) == pytest.approx((ends[0], -ends[1]), abs=1e-4)
    stiff = 1e5
    costs = numpy.array([push.cost for push in balance.pushes])
    matrix = numpy.vstack([stiff * numpy.array(balance.rows), numpy.diag(numpy.sqrt(costs))])
    right = numpy.concatenate([stiff * numpy.array(balance.right), numpy.zeros(len(costs))])
    amounts, _ = optimize.nnls(matrix, right)
    forces = [(0.0, 0.0, 0.0)] * len(held.supports)
    for amount, push in zip(amounts, balance.pushes, strict=True):
        for number, force in push.at:
            forces[number] = add(forces[number], times(force, float(amount)))
    for ours, theirs in zip(balance.forces(), forces, strict=True):
        assert ours == pytest.approx(theirs, abs=0.05)


def test_a_body_that_hangs_beside_its_feet_cannot_be_held() -> None:
    held = moving("heel raise both legs").held[0]
    beside = tuple(replace(one, at=add(one.at, (60.0, 0.0, 0.0))) for one in held.supports)
    assert not Balance(replace(held, supports=beside)).possible
    assert loads_at("ankle", "right", replace(held, supports=beside)) == ()
    assert loads_at("elbow", "right", replace(held, supports=beside)) != ()
