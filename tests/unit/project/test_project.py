"""Where a project begins, which files it has, and that a `use` reaches nothing outside it."""

import os
from pathlib import Path

import pytest

from protodsl.outcome import Outcome
from protodsl.project import LARGEST_FILE, Shelf, find_files, open_project, read_bytes
from protodsl.resolve.library import OUTSIDE
from protodsl.source import Source
from protodsl.syntax import tree

HELP = '[emergency]\ntext = "Call"\nphone = "112"\n[contact]\ntext = "Ask"\nphone = "01632 960 142"\n'


def parse(path: str, data: bytes) -> tuple[Source, Outcome[tree.File]]:
    """A parser that only counts, so that reading is looked at alone."""
    return Source(path, data.decode()), Outcome(tree.File(path, ()))


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A project with a library of its own, one outside, and things beside it that are nobody's business."""
    for name in ("clinic/ankle.protocol", "clinic/library/calf.protocol", "shared/hip.protocol", "secret.protocol"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("use x\n")
    (tmp_path / "clinic/library/deep").mkdir()
    (tmp_path / "clinic/clinic.toml").write_text(HELP + '[folders]\nlibraries = ["library", "../shared"]\n')
    return tmp_path / "clinic"


def shelf(root: Path) -> Shelf:
    return Shelf(open_project(root), parse)


def test_the_root_is_the_nearest_folder_upward_with_a_clinic(root: Path) -> None:
    for path in (root, root / "ankle.protocol", root / "library/deep", root / "library/calf.protocol"):
        assert open_project(path).root == root.resolve()
    (root / "library/clinic.toml").write_text(HELP)
    assert open_project(root / "library/calf.protocol").root == (root / "library").resolve()


def test_a_file_alone_has_a_clinic_that_says_nothing_and_an_error(tmp_path: Path) -> None:
    (tmp_path / "a.protocol").write_text("")
    project = open_project(tmp_path / "a.protocol")
    assert project.root == tmp_path.resolve()
    assert [one.code.id for one in project.diagnostics] == ["P901"]


def test_a_clinic_that_is_not_utf8_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "clinic.toml").write_bytes(b'[clinic]\nname = "caf\xe9"\n')
    assert [one.code.id for one in open_project(tmp_path).diagnostics] == ["P902"]


def test_a_byte_order_mark_and_windows_line_ends_are_read_as_meant(tmp_path: Path) -> None:
    (tmp_path / "clinic.toml").write_bytes(b"\xef\xbb\xbf" + HELP.replace("\n", "\r\n").encode())
    assert open_project(tmp_path).diagnostics == ()


@pytest.mark.parametrize(
    ("use", "found"),
    [
        ("ankle", "ankle.protocol"),
        ("library/calf", "library/calf.protocol"),
        ("calf", "library/calf.protocol"),
        ("library//calf", "library/calf.protocol"),
        ("./ankle", "ankle.protocol"),
        ("hip", "../shared/hip.protocol"),
        ("knee", None),
        ("library", None),
        ("ankle.protocol", None),
        ("../secret", OUTSIDE),
        ("library/../../secret", OUTSIDE),
        ("library/../ankle", OUTSIDE),
        ("..\\secret", OUTSIDE),
        ("/etc/passwd", OUTSIDE),
        ("C:/secret", OUTSIDE),
        ("\\\\server\\secret", OUTSIDE),
        ("", OUTSIDE),
        ("a\0b", OUTSIDE),
        ("x" * 5000, None),
    ],
)
def test_a_use_is_looked_up_below_the_root_and_the_libraries(root: Path, use: str, found: object) -> None:
    assert shelf(root).locate(use, "ankle.protocol") == found


def test_a_link_that_leaves_the_project_is_outside(root: Path) -> None:
    (root / "library/out.protocol").symlink_to(root.parent / "secret.protocol")
    (root / "away").symlink_to(root.parent)
    assert shelf(root).locate("library/out", "") is OUTSIDE
    assert shelf(root).locate("away/secret", "") is OUTSIDE


def test_a_link_that_stays_leads_to_one_file_under_one_name(root: Path) -> None:
    (root / "other.protocol").symlink_to(root / "library/calf.protocol")
    one = shelf(root)
    assert one.locate("other", "") == one.locate("library/calf", "") == "library/calf.protocol"
    assert one.tree("library/calf.protocol") is one.tree("library/calf.protocol")


def test_every_use_that_is_offered_can_be_found(root: Path) -> None:
    (root / "library/out.protocol").symlink_to(root.parent / "secret.protocol")
    one = shelf(root)
    offered = set(one.use_paths())
    assert offered == {"ankle", "library/calf", "calf", "hip"}
    assert all(isinstance(one.locate(path, ""), str) for path in offered)


def test_a_file_that_cannot_be_read_has_no_tree_and_a_diagnostic(root: Path) -> None:
    one = shelf(root)
    assert one.tree("gone.protocol") is None
    assert [each.code.id for each in one.said("gone.protocol")] == ["P909"]


def test_files_are_found_once_in_the_order_of_their_names(root: Path) -> None:
    (root / ".hidden.protocol").write_text("")
    (root / "p.case").write_text("")
    (root / "note.txt").write_text("")
    outcome = find_files(open_project(root), [root, root / "ankle.protocol", root / "library"])
    assert outcome.diagnostics == ()
    assert outcome.value is not None
    assert [path.name for path in outcome.value] == ["ankle.protocol", "calf.protocol", "p.case"]


@pytest.mark.parametrize(("name", "code"), [("gone", "P909"), ("clinic.toml", "P910"), ("library/deep", "P910")])
def test_nothing_to_look_at_is_said(root: Path, name: str, code: str) -> None:
    assert [one.code.id for one in find_files(open_project(root), [root / name]).diagnostics] == [code]


def test_a_folder_that_may_not_be_looked_into_is_said(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Silence would say that all is well there; as root no folder is closed, so the answer is made up."""
    scan = os.scandir

    def refused(path: str) -> object:
        if Path(path).name == "library":
            raise PermissionError(13, "Permission denied", path)
        return scan(path)

    monkeypatch.setattr("os.scandir", refused)
    outcome = find_files(open_project(root), [root])
    assert outcome.value
    assert [one.code.id for one in outcome.diagnostics] == ["P918"]
    assert "library" in outcome.diagnostics[0].message


def test_a_path_below_a_closed_folder_is_said(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> object:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("os.stat", refused)
    project = open_project(root / "ankle.protocol")
    outcome = find_files(project, [root / "ankle.protocol"])
    monkeypatch.undo()
    assert [one.code.id for one in outcome.diagnostics] == ["P909"]


def test_a_named_link_out_of_the_project_is_refused(root: Path) -> None:
    (root / "out.protocol").symlink_to(root.parent / "secret.protocol")
    outcome = find_files(open_project(root), [root])
    assert [one.code.id for one in outcome.diagnostics] == ["P909"]
    assert outcome.value is not None
    assert "out.protocol" not in [path.name for path in outcome.value]


def test_devices_folders_and_huge_files_are_not_read(tmp_path: Path) -> None:
    huge = tmp_path / "huge.protocol"
    with huge.open("wb") as out:
        out.truncate(LARGEST_FILE + 1)
    for path in (Path("/dev/zero"), tmp_path, huge, tmp_path / "gone"):
        assert not isinstance(read_bytes(path), bytes)


@pytest.mark.parametrize(
    ("line", "codes"),
    [
        ('output = "../x"', ["P908"]),
        ('output = "/tmp"', ["P908"]),
        ('templates = "../shared"', ["P908"]),
        ('templates = "gone"', ["P907"]),
        ('libraries = ["gone"]', ["P907"]),
        ('libraries = ["../shared"]', []),
        ('output = "new"', []),
    ],
)
def test_folders_of_the_clinic_are_looked_at(root: Path, line: str, codes: list[str]) -> None:
    (root / "clinic.toml").write_text(f"{HELP}[folders]\n{line}\n")
    assert [one.code.id for one in open_project(root).diagnostics] == codes


def test_an_output_folder_that_is_a_link_out_is_outside(root: Path) -> None:
    (root / "handouts").symlink_to(root.parent)
    assert [one.code.id for one in open_project(root).diagnostics] == ["P908"]
