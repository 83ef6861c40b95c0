"""A catalogue follows its texts: nothing is lost, nothing that changed stays as if it had not."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from protodsl.source import NOWHERE
from protodsl.translate.entries import Catalogue
from protodsl.translate.mark import reviewed
from protodsl.translate.merge import merged
from protodsl.translate.po import write_po
from protodsl.translate.review import Review
from protodsl.translate.texts import Text
from tests.unit.translate.catalogues import filled, read, turned

DO = "exercise/heel raise/do"
BY = Review(date(2026, 10, 5), "physiotherapist", "")


def texts(*words: str, key: str = DO, path: str = "a.protocol") -> tuple[Text, ...]:
    return tuple(Text(key, (word,), path, NOWHERE) for word in words)


def translated(*found: Text) -> Catalogue:
    """A catalogue of these texts, translated and reviewed."""
    done = reviewed(filled(merged(found, Catalogue("translations/es/a.po", "es"))), BY, "en").value
    assert done is not None and all(entry.is_reviewed for entry in done.entries)
    return done


def test_moving_lines_changes_nothing_of_an_entry() -> None:
    old = translated(*texts("Stand tall.", "Rise.", "Come down."))
    new = merged(texts("Come down.", "Stand tall.", "Rise."), old)
    assert [entry.source[0] for entry in new.entries] == ["Come down.", "Stand tall.", "Rise."]
    assert {entry.id: entry for entry in new.entries} == {entry.id: entry for entry in old.entries}
    assert new.obsolete == ()


def test_a_changed_text_is_fuzzy_with_the_old_one_and_loses_its_review() -> None:
    old = translated(*texts("Stand tall.", "Rise slowly."))
    new = merged(texts("Stand tall.", "Rise very slowly."), old)
    kept, changed = new.entries
    assert kept.is_reviewed
    assert (changed.fuzzy, changed.previous, changed.target) == (True, ("Rise slowly.",), (turned("Rise slowly."),))
    assert changed.review is None and not changed.is_translated
    assert new.obsolete == ()
    assert dict(new.headers)["X-Reviewed"] == "no"
    # Changed again before anybody looked: the text that the words were made for is still the first one.
    again = merged(texts("Stand tall.", "Rise very very slowly."), new)
    assert again.entries[1].previous == ("Rise slowly.",)
    # And changed back.
    back = merged(texts("Stand tall.", "Rise slowly."), old)
    assert back.entries == old.entries


def test_the_only_text_of_a_key_is_known_however_unlike() -> None:
    old = translated(*texts("Heel raise", key="exercise/heel raise/title"))
    new = merged(texts("Up on your toes", key="exercise/heel raise/title"), old)
    assert new.entries[0].previous == ("Heel raise",)


def test_what_is_removed_becomes_obsolete_and_comes_back_as_it_was() -> None:
    old = translated(*texts("Stand tall.", "Rise."))
    without = read(write_po(merged(texts("Stand tall."), old)), "es", old.path)
    assert [entry.source[0] for entry in without.obsolete] == ["Rise."]
    back = merged(texts("Stand tall.", "Rise."), without)
    assert back.entries == old.entries and back.entries[1].is_reviewed
    assert back.obsolete == ()


def test_a_fuzzy_entry_that_comes_back_is_still_fuzzy() -> None:
    changed = merged(texts("Rise very slowly."), translated(*texts("Rise slowly.")))
    gone = read(write_po(merged(texts("Something else entirely"), changed)), "es")
    # It is the nearest there is for the new text of the key, so it is taken for it; brought back, it is outdated still.
    back = merged(texts("Rise very slowly."), gone)
    assert back.entries[0].fuzzy and not back.entries[0].is_translated


def test_a_text_that_moves_to_another_file_takes_its_review_along() -> None:
    old = translated(*texts("Rise.", path="a.protocol"))
    new = merged(texts("Rise.", path="b.protocol"), Catalogue("translations/es/b.po", "es"), old.entries)
    assert new.entries[0].is_reviewed and new.entries[0].places == ("b.protocol",)


def test_words_for_the_same_text_elsewhere_are_offered_and_not_used() -> None:
    old = translated(*texts("Rise."))
    new = merged(texts("Rise.", key="exercise/other/do"), Catalogue("translations/es/b.po", "es"), old.entries)
    assert new.entries[0].fuzzy and new.entries[0].target == old.entries[0].target
    assert not new.entries[0].is_translated


def test_comments_of_translators_are_kept() -> None:
    old = translated(*texts("Rise."))
    noted = replace(old, entries=(replace(old.entries[0], comments=("ask the lead",)),))
    assert merged(texts("Rise."), noted).entries[0].comments == ("ask the lead",)
    changed = merged(texts("Rise now."), noted)
    assert changed.entries[0].comments == ("ask the lead",)


def test_headers_of_an_editor_are_kept() -> None:
    old = replace(translated(*texts("Rise.")), headers=(("Last-Translator", "the team"), ("Language", "es")))
    headers = dict(merged(texts("Rise."), old).headers)
    assert headers["Last-Translator"] == "the team" and headers["X-Reviewed-By"] == "physiotherapist, 2026-10-05"


@pytest.mark.skipif(shutil.which("msgmerge") is None, reason="GNU gettext is not installed")
def test_msgmerge_comes_to_the_same(tmp_path: Path) -> None:
    """GNU msgmerge --previous, given the same catalogue and texts, keeps, doubts, adds and drops the same entries."""
    old = translated(*texts("Stand on the step with your heels over its edge.", "Rise as high as you can.", "Rest."))
    now = texts(
        "Rise as high as you can.", "Stand on the bottom step with your heels over its edge.", "Breathe out slowly now."
    )
    (tmp_path / "old.po").write_text(write_po(old), encoding="utf-8")
    (tmp_path / "new.pot").write_text(write_po(merged(now, Catalogue("x.pot", "es"))), encoding="utf-8")
    done = subprocess.run(
        ["msgmerge", "--quiet", "--previous", "--no-wrap", tmp_path / "old.po", tmp_path / "new.pot"],
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    theirs, ours = read(done.stdout, "es", old.path), merged(now, old)

    def state(catalogue: Catalogue) -> list[tuple[object, ...]]:
        return [(entry.id, entry.target or ("",), entry.fuzzy, entry.previous) for entry in catalogue.entries]

    assert state(ours) == state(theirs)
    assert [entry.source for entry in ours.obsolete] == [entry.source for entry in theirs.obsolete] == [("Rest.",)]
