"""Figures kept between runs: the same answer as anew, at its own place, and never what is damaged or out of date."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

from protodsl.cli.work import in_parallel
from protodsl.figure import cache
from protodsl.figure.cache import Store, code_digest
from protodsl.figure.cache_solved import told
from protodsl.figure.drawn import Look
from protodsl.figure.figures import Figures, Parallel
from protodsl.figure.solve.solve import solve
from tests.unit.architecture.imports import imports_of, modules_of
from tests.unit.figure.clinic import LIBRARY, checked, project
from tests.unit.figure.solve.reading import figure

PACKAGE = Path(cache.__file__).parents[1]
SQUAT = "start standing, arms forward\nend knees 60\narrow pelvis down"
FALLS = "start standing\nend body straight, ankles 15"
IMPOSSIBLE = "start lying face down, forearms on floor, elbows under shoulders\nend hips 0"
BEYOND = "start standing\nend right hip -45, lift right foot"
WITH_THINGS = "table 90 cm on left\nstart standing, left hand on table\nend lift right foot, right hip abduction 30"

# What a figure hangs on beside the code that the digest covers: places, outcomes, the classes of the model.
PLAIN = {"source", "outcome", "frozen", "units", "model", "model.condition", "model.text", "model.shown", "diagnostics"}
PLAIN |= {"", "figure.load"}


@pytest.mark.parametrize("lines", [SQUAT, FALLS, IMPOSSIBLE, BEYOND, WITH_THINGS])
def test_what_was_kept_is_what_is_solved_anew(lines: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Frames, angles, things and all that is said, with its places; the second time nothing is solved."""
    one = figure(lines)
    anew = solve(one)
    assert Figures(Store(tmp_path)).solved(one) == anew
    monkeypatch.setattr(Figures, "_solve", _forbidden)
    again = Figures(Store(tmp_path)).solved(one)
    assert again == anew
    for kept, said in zip(again.diagnostics, anew.diagnostics, strict=True):
        assert (kept.primary, kept.secondary, kept.fix, kept.args) == (
            said.primary,
            said.secondary,
            said.fix,
            said.args,
        )


def test_the_places_are_those_of_the_text_now(tmp_path: Path) -> None:
    """The same figure further down in a file is known, and what is said of it is said there."""
    here, there = figure(FALLS), figure(f"view side\n{FALLS}")
    assert told(here).text == told(there).text and told(here).places != told(there).places
    Figures(Store(tmp_path)).solved(here)
    assert len(list(tmp_path.iterdir())) == 1
    moved = Figures(Store(tmp_path)).solved(there)
    assert len(list(tmp_path.iterdir())) == 1
    assert [one.primary for one in moved.diagnostics] == [one.primary for one in solve(there).diagnostics]


def test_a_drawing_is_kept_for_its_look_alone(tmp_path: Path) -> None:
    """Scale, side, direction and what works each have a drawing of their own; the name on the page has not."""
    one = figure(WITH_THINGS)
    made = Figures(Store(tmp_path))
    looks = [Look(), Look(scale=22), Look(mirror=True), Look(leftward=True)]
    drawn = [made.drawn(one, (), look) for look in looks] + [made.drawn(one, ("calf",))]
    assert len({one.svg for one in drawn if one}) == 5
    again = Figures(Store(tmp_path))
    assert [again.drawn(one, (), look) for look in looks] + [again.drawn(one, ("calf",))] == drawn
    assert drawn[0] is not None and drawn[0].named("f7").count("f7-ground") == 2
    assert "figure-ground" not in drawn[0].named("f7")


@pytest.mark.parametrize("damage", [b"", b"{", b"\xff\xfe", b"null", b'{"said": [], "poses": []}'])
def test_a_damaged_file_is_made_again(damage: bytes, tmp_path: Path) -> None:
    """Whatever stands in it, also where it is good JSON."""
    one = figure(SQUAT)
    expected = Figures(Store(tmp_path)).solved(one)
    (file,) = tmp_path.iterdir()
    file.write_bytes(damage)
    assert Figures(Store(tmp_path)).solved(one) == expected
    assert Store(tmp_path).find(f"solved {told(one).text}") is not None


def test_a_changed_digit_is_seen(tmp_path: Path) -> None:
    """A file whose data is good but not as it was written is not believed."""
    one = figure(SQUAT)
    expected = Figures(Store(tmp_path)).solved(one)
    (file,) = tmp_path.iterdir()
    mark, _, data = file.read_bytes().partition(b"\n")
    value = json.loads(data)
    value["poses"][0][1]["right knee flexion"] = 12.0
    file.write_bytes(mark + b"\n" + json.dumps(value).encode())
    assert Figures(Store(tmp_path)).solved(one) == expected


def test_data_of_another_shape_is_made_again(tmp_path: Path) -> None:
    """Marked as it should be, but with a pose too few, a code that is none, or no data at all."""
    one = figure(SQUAT)
    expected = solve(one)
    key = f"solved {told(one).text}"
    values: tuple[object, ...] = (
        None,
        [],
        {"said": []},
        {"said": [], "poses": [], "props": []},
        {"said": [{"code": "F999"}], "poses": None},
    )
    for value in values:
        Store(tmp_path).keep(key, value)
        assert Figures(Store(tmp_path)).solved(one) == expected


def test_a_folder_that_cannot_be_written_costs_time_alone(tmp_path: Path) -> None:
    """A file stands where the folder should be; nothing is said and everything is drawn."""
    blocked = tmp_path / "kept"
    blocked.write_text("")
    one = Figures(Store(blocked / "figures"))
    assert one.solved(figure(SQUAT)).value is not None and one.drawn(figure(SQUAT)) is not None
    assert blocked.read_text() == ""
    assert Figures(Store(None)).drawn(figure(SQUAT)) is not None


def test_the_digest_covers_the_code_of_figures() -> None:
    """Every module that solving and drawing import is in it, or holds no more than plain data."""
    imports = imports_of(modules_of(PACKAGE))
    by_module: dict[str, set[str]] = {}
    for one in imports:
        by_module.setdefault(one.importer, set()).add(one.imported)
    waiting, seen = ["protodsl.figure.solve.solve", "protodsl.figure.draw.draw"], set()
    while waiting:
        module = waiting.pop()
        if module not in seen and module in by_module | {}:
            seen.add(module)
            waiting += [name for name in by_module[module] if name.startswith("protodsl")]
    covered = {"model.figure", "model.lists", "diagnostics.poses", "diagnostics.phrases", "diagnostics.diagnostic"}
    names = {module.removeprefix("protodsl").removeprefix(".") for module in seen}
    outside = {name for name in names if not name.startswith("figure") and name not in covered}
    assert outside <= PLAIN, "add it to cache._ALSO"
    assert {f"{name.replace('.', '/')}.py" for name in covered} == set(cache._ALSO)


def test_another_program_has_another_folder(tmp_path: Path) -> None:
    """A change in any file of the folder changes the digest."""
    copy = tmp_path / "protodsl"
    shutil.copytree(PACKAGE, copy, ignore=shutil.ignore_patterns("__pycache__", "*.ttf", "*.woff2", "*.po"))
    code = "from protodsl.figure.cache import code_digest; print(code_digest())"

    def digest() -> str:
        done = subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            cwd=tmp_path,
            env={"PYTHONPATH": str(tmp_path)},
        )
        return done.stdout.strip()

    assert digest() == code_digest()
    with open(copy / "figure/draw/ink.py", "a") as file:
        file.write("\n")
    assert digest() != code_digest()


def test_the_second_check_loads_no_solver(tmp_path: Path) -> None:
    """Nor what draws: a check that finds everything kept takes no longer for its figures than for reading them."""
    folder = project(tmp_path / "p", LIBRARY, "")
    code = (
        "import sys; from protodsl.cli import main; main(['check', '.']);"
        "print([name for name in sys.modules if name.startswith(('protodsl.figure.solve', 'protodsl.figure.draw.'))])"
    )
    environment = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "home")}
    last = []
    for _ in range(2):
        done = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, cwd=folder, env=environment, timeout=120
        )
        last.append(done.stdout.splitlines()[-1])
    assert "solve" in last[0] and last[1] == "[]"


def test_old_folders_are_cleared(tmp_path: Path) -> None:
    """Those of the last programs stay; what is no folder of figures is not looked into."""
    for at in range(5):
        Store(tmp_path / f"program-{at}").keep("one", [at])
    assert len(list(tmp_path.iterdir())) == cache._PROGRAMS
    assert Store(tmp_path / "program-4").find("one") == [4]


def test_a_run_asks_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """However many protocols use a figure, it is looked for once in a run."""
    run, found = checked(project(tmp_path / "p"))
    value = found.entries[0].value
    assert value is not None
    exercise = next(one for one in value.scope.exercises.values() if one.figure is not None)
    assert exercise.figure is not None
    for name in ("_kept", "_solve"):
        monkeypatch.setattr(Figures, name, _forbidden)
    assert run.figures().solved(exercise.figure).value is not None


def test_many_at_once_are_as_one_by_one(tmp_path: Path) -> None:
    """On all processors, or with every second one lost on the way: the same figures and drawings, kept as well."""
    lines = [SQUAT, FALLS, IMPOSSIBLE, BEYOND, WITH_THINGS, "start standing", "start sitting", "start kneeling"]
    wanted = [figure(one) for one in lines]
    single = Figures(Store(None))

    def lossy(jobs: Sequence[int], work: Callable[[int], Any]) -> Iterator[Any]:
        yield from ("lost" if at % 2 else work(at) for at in jobs)

    spreads: tuple[Parallel, ...] = (in_parallel, lossy)
    for number, spread in enumerate(spreads):
        many = Figures(Store(tmp_path / str(number)))
        many.solve_all([*wanted, *wanted], spread)
        many.draw_all([(one, ("calf",)) for one in wanted], spread)
        for one in wanted:
            assert many.solved(one) == single.solved(one)
            assert many.drawn(one, ("calf",)) == single.drawn(one, ("calf",))
        again = Figures(Store(tmp_path / str(number)))
        again.solve_all(wanted, _forbidden)
        again.draw_all([(one, ("calf",)) for one in wanted], _forbidden)


def _forbidden(*_: object) -> Any:
    raise AssertionError("solved again")
