"""Prints how fast a check and one PDF are, each as a ratio to a peer that runs in turn with it in the same minutes.

    python tests/benchmarks/bench.py [--rounds 7] [--only C1,P2]

    C1  `protodsl check` of about 500 lines, cold                against `python -c pass`
    C2  all stages of a check over 10,000 lines, warm            against PyYAML's C loader on the same information
    C3  time a line of that at 100,000 lines                     against 1,000 lines
    C4  that with 2 % bad lines                                  against the clean text
    P1  `protodsl build` of one PDF, cold                        against LibreOffice, the same content as ODT to PDF/UA
    P2  that                                                     against a plain page of the same content in WeasyPrint
    P4  its peak memory                                          against LibreOffice's
    P5  same bytes cold, warm, and in a pool of two              (yes or no)

Absolute times are worth nothing on a shared machine; ratios of interleaved runs hold to about a tenth.
"""

# ruff: noqa: E402 (the checkout is put on the path first)
from __future__ import annotations

import argparse
import gc
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from datetime import date
from multiprocessing import get_context
from pathlib import Path

import yaml
from pypdf import PdfReader

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from protodsl.asked import Asked
from protodsl.cli.new import starter
from protodsl.compiler import check_project, make_handout
from protodsl.formats import PDF
from protodsl.project import open_project
from protodsl.source import Source
from protodsl.syntax import parse_protocol
from tests.benchmarks.bench_parse import nested_yaml, plain_data, with_mistakes
from tests.benchmarks.same_content import odt, pieces_of, plain_page

DEMO = ROOT / "protocols_demo"
AS_OF = date(2026, 11, 25)
STARTER = "stronger-legs"
GOALS = {"C1": 10, "C2": 2.0, "C3": 1.3, "C4": 1.3, "P1": 0.6, "P2": 0.45, "P4": 0.35}
_UA = 'pdf:writer_pdf_Export:{"PDFUACompliance":{"type":"boolean","value":"true"}}'


def main() -> int:
    """Measure what was asked for and print a line for each goal."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--rounds", type=int, default=7, help="runs of each, of which the median counts")
    reader.add_argument("--only", type=lambda text: set(text.split(",")), default=set(GOALS) | {"P5"})
    reader.add_argument(
        "--entry", default=STARTER, help=f"the handout that is printed: {STARTER}, the starter's, or one of the demo's"
    )
    given = reader.parse_args()
    with tempfile.TemporaryDirectory() as place:
        bench = Bench(Path(place), given.rounds, given.entry)
        if "C1" in given.only:
            bench.cold_check()
        if given.only & {"C2", "C3", "C4"}:
            bench.warm_check()
        if given.only & {"P1", "P2", "P4"}:
            bench.one_pdf()
        if "P5" in given.only:
            bench.same_bytes()
    return 0


class Bench:
    """The measurements, in a folder of their own."""

    def __init__(self, place: Path, rounds: int, entry: str) -> None:
        self.place = place
        self.rounds = rounds
        self.entry = entry
        self.environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        self.environment |= {"PYTHONPYCACHEPREFIX": str(place / "bytecode"), "PYTHONPATH": str(ROOT)}

    def cold_check(self) -> None:
        """C1."""
        paths, lines = self._about(500)
        check = [sys.executable, "-m", "protodsl.cli", "check", *map(str, paths)]
        taken = self._interleaved_commands({"check": check, "pass": [sys.executable, "-c", "pass"]})
        _show(
            "C1", taken["check"] / taken["pass"], f"check of {lines} lines {_ms(taken['check'])}, {_ms(taken['pass'])}"
        )

    def warm_check(self) -> None:
        """C2, C3 and C4."""
        one = self._copies("one", 1)
        lines = _lines(one)
        three, thirty = self._copies("three", 3), self._copies("thirty", 30)
        small = self._small()
        bad = self.place / "bad"
        shutil.copytree(three, bad)
        for path in bad.rglob("*.protocol"):
            path.write_text(with_mistakes(path.read_text("utf-8"), 0.02), encoding="utf-8")
        texts = [path.read_text("utf-8") for path in sorted(three.rglob("*.protocol"))]
        trees = [parse_protocol(Source("bench.protocol", text)).value for text in texts]
        structured = [yaml.dump(plain_data(one.statements), sort_keys=False) for one in trees if one]
        nested = [nested_yaml(text) for text in texts]
        for folder in (one, three):
            assert not checked(folder), f"{folder} has problems of its own"
        taken = interleaved(
            {
                "three": lambda: checked(three),
                "bad": lambda: checked(bad),
                "yaml": lambda: [yaml.load(text, yaml.CSafeLoader) for text in structured],
                "lines": lambda: [yaml.load(text, yaml.CSafeLoader) for text in nested],
            },
            self.rounds,
        )
        often = range(_lines(thirty) // _lines(small) // 4)
        taken |= interleaved({"thirty": lambda: checked(thirty), "small": lambda: [checked(small) for _ in often]}, 3)
        taken["small"] /= len(often)
        per_line = {name: taken[name] / _lines(folder) for name, folder in (("small", small), ("thirty", thirty))}
        _show("C2", taken["three"] / taken["yaml"], f"{lines * 3} lines {_ms(taken['three'])}, {_ms(taken['yaml'])}")
        print(f"      against unparsed lines of YAML: {taken['three'] / taken['lines']:.2f}")
        _show(
            "C3",
            per_line["thirty"] / per_line["small"],
            f"{_lines(thirty)} lines {_ms(taken['thirty'])}, {_lines(small)} lines {_ms(taken['small'])}",
        )
        _show("C4", taken["bad"] / taken["three"], f"{len(checked(bad))} problems {_ms(taken['bad'])}")

    def one_pdf(self) -> None:
        """P1, P2 and P4."""
        output = self.place / "made"
        project = self._printed("print")
        entry = self._file_of(project)
        build = [sys.executable, "-m", "protodsl.cli", "build", str(entry), "--no-clinician", "--output", str(output)]
        subprocess.run([*build, "--to", "html"], env=self.environment, check=True, capture_output=True)
        pieces = pieces_of((output / f"{self.entry}.html").read_text("utf-8"))
        plain, text = self.place / "plain.html", self.place / "same.odt"
        plain.write_text(plain_page(pieces, self.entry), encoding="utf-8")
        odt(pieces, self.entry, text)
        page, target = repr(str(plain)), repr(str(self.place / "p.pdf"))
        code = f"import weasyprint; weasyprint.HTML({page}).write_pdf({target}, pdf_variant='pdf/ua-1')"
        commands = {"ours": [*build, "--to", "pdf"], "plain": [sys.executable, "-c", code]}
        office = shutil.which("soffice")
        if office:
            profile = f"-env:UserInstallation=file://{self.place}/office"
            outdir = ["--outdir", str(self.place)]
            commands["office"] = [office, profile, "--headless", "--convert-to", _UA, *outdir, str(text)]
        taken = self._interleaved_commands(commands)
        if office:
            assert (self.place / "same.pdf").is_file(), "LibreOffice made no PDF"
            _show("P1", taken["ours"] / taken["office"], f"{_ms(taken['ours'])}, LibreOffice {_ms(taken['office'])}")
        else:
            print("P1  not measured: LibreOffice is not installed")
        _show("P2", taken["ours"] / taken["plain"], f"{_ms(taken['ours'])}, plain page {_ms(taken['plain'])}")
        made = {"ours": output / f"{self.entry}.pdf", "plain": self.place / "p.pdf", "office": self.place / "same.pdf"}
        pages = {name: len(PdfReader(path).pages) for name, path in made.items() if path.is_file()}
        each = ", ".join(f"{name} {count} pages of {_ms(taken[name] / count)}" for name, count in pages.items())
        print(f"      {each}")
        memory = {name: self._peak(command) for name, command in commands.items()}
        shown = ", ".join(f"{name} {kilobytes / 1024:.0f} MB" for name, kilobytes in memory.items())
        if office:
            _show("P4", memory["ours"] / memory["office"], shown)
        else:
            print(f"P4  {shown}")

    def same_bytes(self) -> None:
        """P5."""
        project = self._printed("bytes")
        entry = self._file_of(project)
        made = []
        for number in range(2):
            output = self.place / f"cold-{number}"
            command = [sys.executable, "-m", "protodsl.cli", "build", str(entry), "--no-clinician", "--to", "pdf"]
            subprocess.run([*command, "--output", str(output)], env=self.environment, check=True, capture_output=True)
            made.append((output / f"{self.entry}.pdf").read_bytes())
        warm = [pdf_of(entry) for _ in range(2)]
        with ProcessPoolExecutor(2, mp_context=get_context("fork")) as pool:
            pooled = list(pool.map(pdf_of, [entry] * 4))
        same = len({*made, *warm, *pooled}) == 1
        print(f"P5  {'yes' if same else 'NO'}  {len(made)} cold, {len(warm)} warm, {len(pooled)} in a pool")

    def _interleaved_commands(self, commands: dict[str, list[str]]) -> dict[str, float]:
        """Median seconds of each command, in turn; one run of each before that does not count."""

        def job(command: list[str]) -> Callable[[], object]:
            return lambda: subprocess.run(command, env=self.environment, check=True, capture_output=True)

        jobs = {name: job(command) for name, command in commands.items()}
        for run in jobs.values():
            run()
        return interleaved(jobs, self.rounds)

    def _peak(self, command: list[str]) -> int:
        """Peak resident memory in kB, as GNU time tells it (the largest process of a tree)."""
        timed = ["/usr/bin/time", "-v", *command]
        done = subprocess.run(timed, env=self.environment, check=True, capture_output=True, text=True)
        found = re.search(r"Maximum resident set size \(kbytes\): (\d+)", done.stderr)
        assert found, done.stderr
        return int(found[1])

    def _copies(self, name: str, count: int) -> Path:
        """A project that holds the demo so many times, each copy using its own library."""
        root = self.place / name
        for number in range(count):
            folder = root / f"copy{number}"
            shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns("clinic.toml", "handouts", "*.sh", "*.case"))
            for path in folder.rglob("*.protocol"):
                text = re.sub(r"(?m)^use (\S+)", rf"use copy{number}/\1", path.read_text("utf-8"))
                path.write_text(text, encoding="utf-8")
        clinic = re.sub(r"(?m)^(libraries|templates) =.*\n", "", (DEMO / "clinic.toml").read_text("utf-8"))
        (root / "clinic.toml").write_text(clinic, encoding="utf-8")
        return root

    def _printed(self, name: str) -> Path:
        """A project that holds the handout to print."""
        if self.entry != STARTER:
            return self._copies(name, 1)
        root = self.place / name
        (root / "library").mkdir(parents=True)
        for file, data in starter().items():
            dated = data.replace(b"{{today}}", b"2026-11-25").replace(b"{{in a year}}", b"2027-11-25")
            (root / file).write_bytes(dated)
        return root

    def _about(self, lines: int) -> tuple[list[Path], int]:
        """The protocol of the demo that with all it uses comes nearest to so many lines."""
        root = self._copies("cold", 1)
        project = open_project(root)
        entries = [entry.value for entry in check_project(project, [root], AS_OF).entries if entry.value]
        sizes = {
            entry.path: sum((root / file).read_text("utf-8").count("\n") for file in entry.files) for entry in entries
        }
        nearest = min(sizes, key=lambda path: abs(sizes[path] - lines))
        return [root / nearest], sizes[nearest]

    def _small(self) -> Path:
        """A project of about 1,000 lines: one protocol of the demo with what it uses."""
        root = self._copies("small", 1)
        project = open_project(root)
        entries = [entry.value for entry in check_project(project, [root], AS_OF).entries if entry.value]
        sizes = {
            entry.files: sum((root / file).read_text("utf-8").count("\n") for file in entry.files) for entry in entries
        }
        kept = min(sizes, key=lambda files: abs(sizes[files] - 1000))
        for path in root.rglob("*.protocol"):
            if path.relative_to(root).as_posix() not in kept:
                path.unlink()
        return root

    def _file_of(self, root: Path) -> Path:
        """The file whose handout is printed."""
        for entry in check_project(open_project(root), [root], AS_OF).entries:
            for protocol in entry.value.protocols if entry.value else ():
                if protocol.name.replace(" ", "-") == self.entry:
                    return root / entry.path
        raise SystemExit(f"the demo has no protocol `{self.entry}`")


def interleaved(jobs: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    """Median seconds of each job, the jobs taken in turn."""
    taken: dict[str, list[float]] = {name: [] for name in jobs}
    for _ in range(rounds):
        for name, job in jobs.items():
            gc.collect()
            start = time.perf_counter()
            job()
            taken[name].append(time.perf_counter() - start)
    return {name: statistics.median(seconds) for name, seconds in taken.items()}


def checked(root: Path) -> tuple[object, ...]:
    """Every problem of a project, found from the start, without a search for garbage as on the command line."""
    gc.disable()
    try:
        return check_project(open_project(root), [root], AS_OF).diagnostics
    finally:
        gc.enable()


def pdf_of(entry: Path) -> bytes:
    """The sheet of an entry as PDF, made in this process."""
    project = open_project(entry)
    found = check_project(project, [entry], AS_OF)
    (one,) = (each for each in found.entries if each.value and each.value.protocols)
    assert one.value is not None
    made = make_handout(found, one, one.value.protocols[0], Asked(formats=(PDF,), paper=project.clinic.paper))
    assert made.value, made.diagnostics
    return made.value[PDF]


def _lines(root: Path) -> int:
    return sum(path.read_text("utf-8").count("\n") for path in root.rglob("*.protocol"))


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.0f} ms"


def _show(goal: str, ratio: float, measured: str) -> None:
    met = "met" if ratio <= GOALS[goal] else "MISSED"
    print(f"{goal}  {ratio:.2f}  goal at most {GOALS[goal]}: {met}  ({measured})")


if __name__ == "__main__":
    sys.exit(main())
