"""Writing: all or nothing, and what stood there before stays whole."""

import os
from pathlib import Path

import pytest

from protodsl.cli.files import write_all


def below(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_files_are_written_with_their_folders(tmp_path: Path) -> None:
    write_all({tmp_path / "a/b/c.html": b"one", tmp_path / "d.pdf": b"two"})
    assert below(tmp_path) == {"a/b/c.html": b"one", "d.pdf": b"two"}


def test_a_folder_in_the_way_stops_everything(tmp_path: Path) -> None:
    (tmp_path / "b.pdf").mkdir()
    (tmp_path / "a.html").write_bytes(b"before")
    with pytest.raises(OSError, match="folder stands"):
        write_all({tmp_path / "a.html": b"after", tmp_path / "b.pdf": b"after"})
    assert below(tmp_path) == {"a.html": b"before"}


@pytest.mark.parametrize("which", [0, 1, 2])
def test_a_rename_that_fails_undoes_the_earlier_ones(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, which: int
) -> None:
    """A file that was there has its old bytes again, a file that was not there is gone."""
    (tmp_path / "a").write_bytes(b"before")
    (tmp_path / "c").write_bytes(b"before")
    rename, calls = os.replace, iter(range(100))

    def failing(source: Path, target: Path) -> None:
        if next(calls) == which:
            raise OSError(28, "No space left on device", str(target))
        rename(source, target)

    monkeypatch.setattr("os.replace", failing)
    with pytest.raises(OSError, match="No space"):
        write_all({tmp_path / name: b"after" for name in "abc"})
    assert below(tmp_path) == {"a": b"before", "c": b"before"}


def test_a_full_disk_leaves_everything(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"before")

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_all({tmp_path / "a": b"after"})
    assert below(tmp_path) == {"a": b"before"}


def test_an_interrupt_leaves_everything(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"before")

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("os.replace", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_all({tmp_path / "a": b"after"})
    monkeypatch.undo()
    assert below(tmp_path) == {"a": b"before"}


def test_rights_are_those_of_the_earlier_file_or_of_any_new_one(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"before")
    (tmp_path / "a").chmod(0o640)
    (tmp_path / "plain").write_bytes(b"")
    write_all({tmp_path / "a": b"after", tmp_path / "b": b"after"})
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "b").stat().st_mode == (tmp_path / "plain").stat().st_mode
