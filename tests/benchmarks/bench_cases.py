"""Prints how fast cases become sheets, each as a ratio to what runs beside it in the same minutes.

    python tests/benchmarks/bench_cases.py [--cases 1000] [--rounds 3]

    B1  a folder of cases to HTML, from the files to the files   against bare jinja2: the same pages, one template each
    B2  two processes                                            against one, the same cases
    B3  the same folder again, with nothing changed              against the first time

Each case has six weeks of sessions. Absolute times are worth nothing on a shared machine.
"""

# ruff: noqa: E402 (the checkout is put on the path first)
from __future__ import annotations

import argparse
import contextlib
import io
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from protodsl import localise
from protodsl.asked import Asked, options_of, style
from protodsl.batch import Lost, in_parallel
from protodsl.case_checking import check_cases
from protodsl.case_compiler import decide_case
from protodsl.compiler import open_run
from protodsl.formats import HTML, SHEET
from protodsl.handout.blocks import Handout
from protodsl.handout.person import compose_person
from protodsl.project import open_project
from protodsl.render.document import _phones
from protodsl.render.environment import context, environment

DEMO = ROOT / "protocols_demo"
GOALS = {"B1": 1.5, "B2": 1 / 1.7, "B3": 0.02}
STARTED = date(2026, 10, 12)
ANSWERED = """\
    no: chest pain, sudden breathlessness, hot swollen calf, new numbness, outer ankle bone tender
    no: inner ankle bone tender, outer foot bone tender, inner foot bone tender, cannot take four steps
    no: recent calf tear, brittle bones, takes blood thinners, dizzy on standing up, unsteady on one leg
    no: ankle gives way
    yes: walks without limp
    knee-to-wall: left 11 cm, right {reach} cm
    heel raises: left 22, right {raises}
"""


def main() -> int:
    """Measure, and print a line for each goal."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--cases", type=int, default=1000)
    reader.add_argument("--rounds", type=int, default=3, help="runs of each, of which the median counts")
    given = reader.parse_args()
    with tempfile.TemporaryDirectory() as place:
        project = Path(place) / "clinic"
        shutil.copytree(DEMO, project, ignore=shutil.ignore_patterns("handouts", "cases"))
        without_templates(project / "clinic.toml")
        write_cases(project / "cases", given.cases)
        measure(project, given.cases, given.rounds)
    return 0


def without_templates(clinic: Path) -> None:
    """The shipped templates alone, so that both sides render the same ones in the same way."""
    lines = [line for line in clinic.read_text("utf-8").splitlines() if not line.startswith("templates")]
    clinic.write_text("\n".join(lines) + "\n", encoding="utf-8")


def write_cases(folder: Path, count: int) -> None:
    """People of one protocol at different places in it: six weeks of sessions, a visit every two weeks."""
    folder.mkdir()
    for number in range(count):
        lines = [
            f"case P-{number:04}",
            "  protocol lateral ankle sprain, version 1.2.0",
            f"  started {STARTED}",
            "  language en",
            f"  side {('right', 'left')[number % 2]}",
        ]
        for week in range(6):
            monday = STARTED + timedelta(days=7 * week)
            if week % 2 == 0:
                answers = ANSWERED.format(reach=6 + (number + week) % 5, raises=8 + (number + 2 * week) % 14)
                lines += [f"  on {monday}", answers.rstrip("\n")]
            for day in range(1, 7):
                pain = (number + day * week) % 5
                session = f"as given, pain {pain}, pain next morning {max(pain - 1, 0)}, not had to hold on"
                lines.append(f"  session {monday + timedelta(days=day)}: {session}")
        last = STARTED + timedelta(days=42)
        lines += [f"  on {last}", ANSWERED.format(reach=9, raises=15 + number % 7).rstrip("\n")]
        (folder / f"P-{number:04}.case").write_text("\n".join(lines) + "\n", encoding="utf-8")


def measure(project: Path, count: int, rounds: int) -> None:
    """All goals, one after the other in each round."""
    output = project / "handouts"
    taken: dict[str, list[float]] = {name: [] for name in ("build", "again", "bare", "two", "one")}
    cpu: list[float] = []
    pages = localised(project, min(count, 50))
    for _ in range(rounds):
        shutil.rmtree(output, ignore_errors=True)
        before = os.times()
        taken["build"].append(timed(lambda: build(project)))
        after = os.times()
        cpu.append(after.children_user + after.children_system - before.children_user - before.children_system)
        assert len(list(output.glob("*.html"))) == count
        taken["again"].append(timed(lambda: build(project)))
        taken["bare"].append(timed(lambda: bare(pages, count)))
    some = sorted((project / "cases").glob("*.case"))[: max(count // 5, 20)]
    for _ in range(rounds):
        for name, processes in (("two", 2), ("one", 1)):
            shutil.rmtree(output, ignore_errors=True)
            taken[name].append(timed(lambda processes=processes: made(project, some, processes)))  # type: ignore[misc]
    median = {name: statistics.median(times) for name, times in taken.items()}
    show("B1", median["build"] / median["bare"], f"{count} cases {median['build']:.1f} s, {median['bare']:.1f} s")
    used = statistics.median(cpu)
    print(f"      processor time of it {used:.1f} s, {1000 * used / count:.1f} ms a case")
    show("B2", median["two"] / median["one"], f"{len(some)} cases {median['two']:.1f} s, {median['one']:.1f} s")
    show("B3", median["again"] / median["build"], f"{count} cases {median['again']:.2f} s")


def build(project: Path) -> None:
    """The command as a person runs it."""
    command = [sys.executable, "-m", "protodsl.cli", "build", "cases", "--to", "html", "--no-clinician"]
    subprocess.run(command, cwd=project, check=True, capture_output=True, env={**os.environ, "PYTHONPATH": str(ROOT)})


def localised(project: Path, count: int) -> list[Handout[str]]:
    """The sheets of some cases as they come to the templates."""
    run = open_run(open_project(project), STARTED)
    pages = []
    for path in sorted((project / "cases").glob("*.case"))[:count]:
        (case,) = check_cases(f"cases/{path.name}", run)
        assert case.person is not None
        decided = decide_case(case.person, run).value
        assert decided is not None
        asked = Asked(formats=(HTML,))
        options = options_of(asked, "", run.sources(), run.pictured_for(decided.plan, asked))
        composed = compose_person(decided.plan, run.project.clinic, options, decided.previous)
        assert composed is not None
        page = localise.localise(composed, decided.plan.protocol.scope, run.project.clinic, "en").value
        assert page is not None
        pages.append(page)
    return pages


def bare(pages: list[Handout[str]], count: int) -> None:
    """So many pages through the same template, and nothing else."""
    look = replace(style(open_project(DEMO), Asked()), template_folder=None)
    template = environment(look).get_template("sheet.html.j2")
    for number in range(count):
        page = pages[number % len(pages)]
        template.render(context(look, page=page, phones=_phones(page)))


def made(project: Path, files: list[Path], processes: int) -> None:
    """The work on some cases alone, in so many processes."""
    from protodsl.cli.arguments import parser
    from protodsl.cli.build_cases import CaseFile, _worker

    arguments = parser().parse_args(["build", "cases", "--to", "html", "--no-clinician"])
    run = open_run(open_project(project), STARTED)
    todo = [CaseFile(f"cases/{path.name}", (path.stem,), ("lateral ankle sprain",), "") for path in files]
    with contextlib.redirect_stdout(io.StringIO()):
        done = list(in_parallel([one.path for one in todo], _worker(run, todo, arguments), processes))
    assert len(done) == len(files)
    assert all(not isinstance(one, Lost) and SHEET in one[1][0].pages for one in done)


def timed(work: Callable[[], object]) -> float:
    """Seconds of one run."""
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def show(goal: str, ratio: float, words: str) -> None:
    """One line: the goal, what it was, whether it was reached."""
    missed = "" if ratio <= GOALS[goal] else "  (not reached)"
    print(f"{goal}  {ratio:.3f} of at most {GOALS[goal]:.3f}{missed}  {words}")


if __name__ == "__main__":
    raise SystemExit(main())
