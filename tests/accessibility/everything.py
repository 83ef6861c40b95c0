"""Holds every page of the demo against the validators: `python -m tests.accessibility [pdf] [html] [WORDS ...]`.

`pdf`: veraPDF for PDF/UA-1, on all cores. `html`: axe-core on a phone, a desktop and paper, and the Nu HTML checker.
WORDS choose pages by their names, such as `large` or `"P-0417, sheet"`. This takes half an hour and more; the ordinary
tests hold a choice of the same pages.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from protodsl.render import html, pdf
from tests.accessibility import browser, pages, tools, verapdf
from tests.accessibility.pages import USUAL, Wanted

_VIEWS = {"phone": browser.PHONE, "desktop": browser.DESKTOP, "print": browser.PAPER}


def main(arguments: list[str]) -> int:
    """Say what fails, and how many pages there were; 1 where anything failed."""
    words = [one for one in arguments if one not in ("pdf", "html")]
    chosen = [one for one in pages.every_page() if all(word in one.name for word in words)]
    failed = 0
    if "html" not in arguments or "pdf" in arguments:
        failed += _count("veraPDF, PDF/UA-1", _in_parallel(_pdf_failures, chosen))
    if "pdf" not in arguments or "html" in arguments:
        on_screen = [one for one in chosen if one.form == USUAL]
        failed += _count("axe-core and Nu", _in_parallel(_html_failures, on_screen))
    return 1 if failed else 0


def _in_parallel(work: object, chosen: list[Wanted]) -> Iterable[tuple[str, tuple[str, ...]]]:
    # A Java machine and a browser do not outlive a fork.
    with ProcessPoolExecutor(mp_context=get_context("spawn")) as pool:
        yield from pool.map(work, chosen, chunksize=8)  # type: ignore[arg-type]


def _count(what: str, results: Iterable[tuple[str, tuple[str, ...]]]) -> int:
    counts: Counter[str] = Counter()
    for name, failures in results:
        counts["pages"] += 1
        counts["failed"] += bool(failures)
        if counts["pages"] % 50 == 0:
            print(f"{what}: {counts['pages']} pages so far", file=sys.stderr, flush=True)
        for one in failures:
            print(f"{name}: {one}", flush=True)
    print(f"{what}: {counts['pages']} pages, {counts['failed']} failed", flush=True)
    return counts["failed"]


def _pdf_failures(wanted: Wanted) -> tuple[str, tuple[str, ...]]:
    page, style = pages.made(wanted)
    if wanted.figures and not pages.has_pictures(page):
        return f"{wanted.name} (it has none)", ()
    made = pdf(page, style)
    said = tuple(one.message for one in made.diagnostics)
    return wanted.name, said if made.value is None else (*said, *verapdf.validate(made.value).failures)


def _html_failures(wanted: Wanted) -> tuple[str, tuple[str, ...]]:
    made = html(*pages.made(wanted))
    if made.value is None:
        return wanted.name, tuple(one.message for one in made.diagnostics)
    found = []
    for name, view in _VIEWS.items():
        with browser.shown(made.value, view) as page:
            found += [f"{name}: {one}" for one in browser.violations(page)]
    return wanted.name, (*found, *_invalid(made.value))


def _invalid(text: str) -> tuple[str, ...]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "page.html"
        path.write_text(text, encoding="utf-8")
        command = ["java", "-Xss2m", "-jar", str(tools.jar_of_vnu()), "--format", "json", "--exit-zero-always"]
        run = subprocess.run([*command, "--stdout", str(path)], capture_output=True, text=True, check=True)
    said = json.loads(run.stdout)["messages"]
    return tuple(one["message"] for one in said if one["type"] == "error" or one.get("subType") == "warning")
