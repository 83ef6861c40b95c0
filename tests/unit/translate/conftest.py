"""A small project in two languages, and catalogues by their text."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unit.cli.conftest import cli  # noqa: F401

CLINIC = """format = 1

[clinic]
name = "Alder Quay clinic"
address = "Physiotherapy, 2 Harbour Steps"

[emergency]
text = "Pida ayuda ya"
phone = "112"

[contact]
text = "Deje los ejercicios. Llame hoy"
phone = "01632 960 142"

[sheet]
languages = ["es", "en"]
"""

# Written in Spanish, so that the product's own words in the other language are its source and need no review.
ANKLE = """question dolor: ¿Cuánto le duele, de 0 a 10?
  answer 0 to 10
  fresh for one session
  means su dolor

question dolor en el pecho: ¿Tiene dolor en el pecho?
  yes means tiene dolor en el pecho
  fresh for 4 weeks

question lugar: ¿Dónde le duele?
  answer one of delante, detrás
  fresh for 4 weeks

exercise elevar los talones
  title Elevación de talones
  dose 3 x 12, daily
  do
    Suba despacio.
    Mantenga 2 segundos.
  feel la pantorrilla
  stop un dolor agudo
  caution if lugar is detrás
    Apoye las dos manos.

exercise andar
  title Andar y correr
  dose 5 x (4 min andar + 1 min correr), daily
  do
    Empiece despacio.
  stop un dolor agudo

protocol tobillo
  title    Después de un esguince
  version  1.0.0
  review   2026-10-05 by team, next by 2027-10-05
  source   common practice, no source
  for      adultos
  emergency if dolor en el pecho
  call if dolor > 6
  give     elevar los talones
  give     andar
"""

CASE = """case P-0417
  protocol tobillo, version 1.0.0
  started 2026-11-02
  language en
  side right
  on 2026-11-02
    no: dolor en el pecho
    lugar: delante
"""


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The project as the working folder, with no catalogue yet."""
    folder = tmp_path / "clinic"
    (folder / "cases").mkdir(parents=True)
    (folder / "clinic.toml").write_text(CLINIC, encoding="utf-8")
    (folder / "tobillo.protocol").write_text(ANKLE, encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NO_COLOR", "1")
    return folder
