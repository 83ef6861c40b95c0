"""explain, reference, new and completion."""

import subprocess
from pathlib import Path

import pytest

from protodsl.cli.new import starter
from protodsl.diagnostics.registry import codes, page
from protodsl.syntax.keywords import entries
from protodsl.units import UNITS
from tests.unit.cli.conftest import Cli, fill_in


@pytest.mark.parametrize("written", ["P905", "p905", "missing-help-text"])
def test_explain_prints_the_page(cli: Cli, written: str) -> None:
    result = cli("explain", written)
    assert result.status == 0
    assert page("P905") in result.out
    assert "severity: error" in result.out


def test_explain_guesses_and_lists(cli: Cli) -> None:
    assert "did you mean `" in cli("explain", "P995").err
    assert cli("explain", "P995").status == 2
    assert [line.split()[0] for line in cli("explain").out.splitlines()] == list(codes())


@pytest.mark.parametrize("keyword", sorted({one.keyword for one in entries()}))
def test_reference_knows_every_keyword(cli: Cli, keyword: str) -> None:
    result = cli("reference", *keyword.split())
    assert result.status == 0
    wanted = [one for one in entries() if one.keyword == keyword]
    assert all(one.form in result.out and one.meaning in result.out for one in wanted)


@pytest.mark.parametrize("word", ["kg", "positions", "half-kneeling", "resisted", "ankle", "dorsiflexion"])
def test_reference_knows_units_and_closed_lists(cli: Cli, word: str) -> None:
    result = cli("reference", word)
    assert result.status == 0
    assert word in result.out


def test_reference_guesses_a_misspelled_word(cli: Cli) -> None:
    result = cli("reference", "avod", "if")
    assert result.status == 2
    assert "did you mean `avoid if`?" in result.err


def test_the_whole_reference_has_every_statement_unit_and_list(cli: Cli) -> None:
    out = cli("reference", "--all").out
    for one in entries():
        assert f"\n### {one.keyword}\n" in out
        assert one.example in out
    assert all(f"| `{name}` |" in out for name in UNITS)
    assert all(f"  {one.keyword} " in cli("reference").out for one in entries())


def test_new_makes_a_project_that_builds_without_a_word(
    cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With today's clock, and with warnings counted as errors."""
    monkeypatch.chdir(tmp_path)
    made = cli("new", "our clinic")
    assert made.status == 0
    assert (tmp_path / "our clinic/.gitignore").read_text().strip().endswith("/handouts/")
    assert sorted(made.out.splitlines()) == sorted(
        path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()
    )
    monkeypatch.chdir(tmp_path / "our clinic")
    fill_in(tmp_path / "our clinic/clinic.toml")
    checked = cli("check", "--strict")
    assert (checked.status, checked.out) == (0, "")
    built = cli("build", "--strict", "--to", "html")
    assert (built.status, built.err) == (0, "")
    assert built.out.splitlines() == ["handouts/stronger-legs.html", "handouts/stronger-legs-clinician.html"]


@pytest.mark.parametrize("there", ["clinic.toml", ".gitignore", "library/common.protocol"])
def test_new_overwrites_nothing(cli: Cli, tmp_path: Path, there: str) -> None:
    (tmp_path / there).parent.mkdir(exist_ok=True)
    (tmp_path / there).write_text("mine")
    result = cli("new", tmp_path)
    assert result.status == 1
    assert "P911" in result.err
    assert [path.read_text() for path in tmp_path.rglob("*") if path.is_file()] == ["mine"]


def test_new_where_a_file_stands(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "clinic").write_text("mine")
    result = cli("new", tmp_path / "clinic")
    assert result.status == 1
    assert "P911" in result.err


def test_the_starter_is_commented() -> None:
    files = starter()
    assert set(files) == {"clinic.toml", "gitignore.txt", "library/common.protocol", "stronger-legs.protocol"}
    assert all(data.decode().count("#") >= 1 for data in files.values())


def completed(script: str, line: str) -> set[str]:
    """What bash offers at the end of a line, through the completion that the script registers."""
    words = line.split(" ")
    driver = f"""
{script}
COMP_WORDS=({" ".join(f"'{word}'" for word in words)})
COMP_CWORD={len(words) - 1}
COMP_LINE='{line}'
COMP_POINT=${{#COMP_LINE}}
function=$(complete -p protodsl | sed 's/.*-F \\([^ ]*\\).*/\\1/')
"$function" protodsl "${{COMP_WORDS[COMP_CWORD]}}" "${{COMP_WORDS[COMP_CWORD-1]}}"
printf '%s\\n' "${{COMPREPLY[@]}}"
"""
    done = subprocess.run(["bash", "--norc", "-c", driver], capture_output=True, text=True, timeout=30)
    assert done.stderr == ""
    return {word.strip() for word in done.stdout.splitlines()}


def test_bash_completes_commands_options_and_choices(cli: Cli) -> None:
    script = cli("completion", "bash").out
    assert {"check", "completion"} <= completed(script, "protodsl c")
    assert {"--large-print", "--language"} <= completed(script, "protodsl build --la")
    assert completed(script, "protodsl check --format ") >= {"text", "json", "sarif"}


def test_bash_completes_files(cli: Cli, project: Path) -> None:
    assert "stronger-legs.protocol" in completed(cli("completion", "bash").out, "protodsl check str")


def test_zsh_has_a_script_of_its_own(cli: Cli) -> None:
    out = cli("completion", "zsh").out
    assert out.startswith("#compdef protodsl")
    assert "--large-print" in out
