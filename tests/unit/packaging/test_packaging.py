"""What is installed is what lies in this checkout: no stale build, no package forgotten, no glob too narrow."""

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from importlib import metadata, resources
from importlib.resources.abc import Traversable
from pathlib import Path

import pytest

import protodsl

CHECKOUT = Path(__file__).resolve().parents[3]
PROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
SETUPTOOLS = PROJECT["tool"]["setuptools"]
PACKAGES: tuple[str, ...] = tuple(SETUPTOOLS["packages"])


def test_every_package_folder_is_listed() -> None:
    """A folder with an `__init__.py` under protodsl/, grammar/ or templates/ is a listed package, and no other is."""
    assert sorted(PACKAGES) == sorted(_package_folders())


@pytest.mark.parametrize("package", PACKAGES)
def test_resources_are_those_of_the_checkout(package: str) -> None:
    """importlib.resources finds, for each package, the files of this checkout's folder, byte for byte."""
    folder = _package_folders()[package]
    found, expected = _listing(resources.files(package)), _files(folder)
    assert found.keys() == expected
    assert [name for name in sorted(expected) if found[name].read_bytes() != (folder / name).read_bytes()] == []


def test_every_module_lies_in_a_package() -> None:
    """A module in a folder without an `__init__.py` would be left out of a build."""
    folders = set(_package_folders().values())
    roots = (CHECKOUT / "protodsl", CHECKOUT / "grammar", CHECKOUT / "templates")
    lost = [str(path) for root in roots for path in root.rglob("*.py") if path.parent not in folders]
    assert lost == []


def test_the_version_is_said_once() -> None:
    """The installed metadata, pyproject.toml and `protodsl.__version__` give one version."""
    assert protodsl.__version__ == PROJECT["project"]["version"] == metadata.version("protodsl")


def test_a_built_wheel_holds_every_file(tmp_path: Path) -> None:
    """A wheel that setuptools builds from this checkout holds every file of every package, and nothing else."""
    with zipfile.ZipFile(_build_wheel(tmp_path)) as wheel:
        built = {name for name in wheel.namelist() if ".dist-info/" not in name}
    expected = {
        f"{package.replace('.', '/')}/{name}"
        for package, folder in _package_folders().items()
        for name in _files(folder)
    }
    assert built == expected


def _package_folders() -> dict[str, Path]:
    """Map each package name to its folder in the checkout, as pyproject.toml's package-dir lays them."""
    found: dict[str, Path] = {}
    for name, place in SETUPTOOLS["package-dir"].items():
        root = CHECKOUT / place
        for init in root.rglob("__init__.py"):
            found[".".join((name, *init.parent.relative_to(root).parts))] = init.parent
    return found


def _files(folder: Path) -> frozenset[str]:
    """Names, relative to the folder, of the files below it that belong to no package further down."""
    found: set[str] = set()
    for here, below, names in os.walk(folder):
        below[:] = [name for name in below if name != "__pycache__" and not (Path(here, name) / "__init__.py").exists()]
        found.update(Path(here, name).relative_to(folder).as_posix() for name in names)
    return frozenset(found)


def _listing(folder: Traversable, prefix: str = "") -> dict[str, Traversable]:
    """Find what `_files` finds, with nothing but what importlib.resources offers."""
    found: dict[str, Traversable] = {}
    for entry in folder.iterdir():
        if entry.is_file():
            found[prefix + entry.name] = entry
        elif entry.name != "__pycache__" and not (entry / "__init__.py").is_file():
            found |= _listing(entry, f"{prefix}{entry.name}/")
    return found


def _build_wheel(workplace: Path) -> Path:
    """Build in a copy, because setuptools leaves folders beside what it builds; returns the wheel."""
    copy, out = workplace / "copy", workplace / "out"
    copy.mkdir()
    out.mkdir()
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy2(CHECKOUT / name, copy / name)
    for place in SETUPTOOLS["package-dir"].values():
        shutil.copytree(CHECKOUT / place, copy / place, ignore=shutil.ignore_patterns("__pycache__"))
    build = "import setuptools.build_meta as b, sys; b.build_wheel(sys.argv[1])"
    command = [sys.executable, "-c", build, str(out)]
    subprocess.run(command, cwd=copy, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    (wheel,) = out.glob("*.whl")
    return wheel
