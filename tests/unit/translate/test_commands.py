"""`protodsl translate`, as it is used from the first catalogue to a reviewed one."""

from __future__ import annotations

from pathlib import Path

from protodsl.translate.tags import chain, is_same, locale_of
from tests.unit.cli.conftest import Cli
from tests.unit.translate.catalogues import fill, load
from tests.unit.translate.conftest import CASE

PO = "translations/en/tobillo.po"


def test_from_extract_to_review(cli: Cli, project: Path) -> None:
    made = cli("translate", "extract")
    assert made.out.splitlines() == [
        "translations/en/clinic.toml.po: 2 strings, 0 translated, 0 reviewed",
        f"{PO}: 21 strings, 0 translated, 0 reviewed",
    ]
    assert "G101" in cli("translate", "check").err
    fill(project / PO)
    assert f"{PO}: 21 strings, 21 translated, 0 reviewed" in cli("translate", "update").out
    assert "G103" in cli("translate", "check").err
    assert cli("translate", "review", PO, "--by", "physiotherapist", "--on", "2026-10-05").status == 0
    assert dict(load(project / PO).headers)["X-Reviewed-By"] == "physiotherapist, 2026-10-05"
    left = cli("translate", "check", "tobillo.protocol")
    assert left.status == 0 and "tobillo.po" not in left.err
    assert cli("translate", "check", "--strict").status == 1, "the clinic's own words are still missing"


def test_nothing_changes_when_it_is_done_again(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    fill(project / PO)
    cli("translate", "review", PO, "--by", "team")
    before = (project / PO).read_bytes()
    again = cli("translate", "extract")
    assert "unchanged" in again.out and (project / PO).read_bytes() == before
    cli("translate", "review", PO, "--by", "somebody else", "--on", "2027-01-01")
    assert (project / PO).read_bytes() == before, "who has read these words first stays written down"


def test_a_line_moved_changes_no_byte_but_the_order(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    before = sorted((project / PO).read_text("utf-8").split("\n\n"))
    protocol = project / "tobillo.protocol"
    protocol.write_text("\n\n\n" + protocol.read_text("utf-8"), encoding="utf-8")
    assert "unchanged" in cli("translate", "update").out
    lines = "    Suba despacio.\n    Mantenga 2 segundos.\n"
    turned = "    Mantenga 2 segundos.\n    Suba despacio.\n"
    protocol.write_text(protocol.read_text("utf-8").replace(lines, turned), encoding="utf-8")
    cli("translate", "update")
    assert sorted((project / PO).read_text("utf-8").split("\n\n")) == before


def test_update_makes_no_catalogue(cli: Cli, project: Path) -> None:
    assert cli("translate", "update").out == "" and not (project / "translations").exists()


def test_a_file_with_an_error_loses_nothing(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    fill(project / PO)
    before = (project / PO).read_bytes()
    protocol = project / "tobillo.protocol"
    protocol.write_text(protocol.read_text("utf-8") + "  giv andar\n", encoding="utf-8")
    result = cli("translate", "update")
    assert "passed over" in result.err and (project / PO).read_bytes() == before


def test_the_words_of_a_moved_exercise_come_along(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    fill(project / PO)
    cli("translate", "review", PO, "--by", "team")
    protocol = project / "tobillo.protocol"
    parts = protocol.read_text("utf-8").split("\n\n")
    walk = next(part for part in parts if part.startswith("exercise andar"))
    parts.remove(walk)
    (project / "library").mkdir()
    (project / "library/piernas.protocol").write_text(walk + "\n", encoding="utf-8")
    protocol.write_text("use library/piernas\n\n" + "\n\n".join(parts), encoding="utf-8")
    result = cli("translate", "extract")
    moved = load(project / "translations/en/library/piernas.po")
    assert moved.entries and all(one.is_reviewed for one in moved.entries), result.out


def test_status_counts_what_there_is(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    fill(project / PO)
    lines = {line.split()[0]: line.split()[1:] for line in cli("translate", "status").out.splitlines()[1:]}
    assert lines[PO] == ["21", "0", "0", "21", "0"]
    assert lines["translations/en/clinic.toml.po"] == ["2", "2", "0", "0", "0"]
    assert "protodsl/localise/messages/es.po" in lines and "protodsl/localise/messages/en.po" not in lines


def test_status_of_the_products_words(cli: Cli, project: Path) -> None:
    result = cli("translate", "status", "--language", "fr")
    assert "protodsl/localise/messages/fr.po" in result.out


def test_changes_for_one_person_have_a_catalogue_of_their_own(cli: Cli, project: Path) -> None:
    own = "  from 2026-11-04 change elevar los talones\n    do\n      Suba con las dos piernas.\n    because cansado\n"
    (project / "cases/P-0417.case").write_text(CASE + own, encoding="utf-8")
    assert cli("check").status == 0
    cli("translate", "extract")
    texts = [one.source[0] for one in load(project / "translations/en/cases/P-0417.case.po").entries]
    assert "Suba con las dos piernas." in texts and "Suba despacio." not in texts


def test_wrong_use_is_said(cli: Cli, project: Path) -> None:
    assert cli("translate", "review", PO).status == 2
    assert cli("translate", "extract", "--language", "español").status == 2
    assert cli("translate", "mend").status == 2
    missing = cli("translate", "review", "translations/en/none.po", "--by", "team")
    assert missing.status == 1 and "Traceback" not in missing.err
    assert cli("translate", "review", "tobillo.protocol", "--by", "team").status == 1


def test_language_tags() -> None:
    """BCP 47 (RFC 5646); scripts by CLDR's likely subtags."""
    assert locale_of("zh-Hans") is not None and locale_of("pt-BR") is not None
    assert locale_of("spanish") is None and locale_of("") is None and locale_of("../x") is None
    assert chain("es-MX") == ("es-MX", "es") and chain("zh-Hant") == ("zh-Hant",) and chain("zh-Hans-CN")[-1] == "zh"
    assert is_same("en", "en-GB") and not is_same("zh-Hans", "zh-Hant") and not is_same("zh-TW", "zh")
    assert not is_same("en", "es") and not is_same("sr-Latn", "sr")
