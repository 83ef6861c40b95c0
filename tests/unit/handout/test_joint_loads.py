"""The loads of `harder than` on the clinician's page, and nowhere else."""

from __future__ import annotations

from dataclasses import replace

from protodsl.figure.cache import Store
from protodsl.figure.figures import Figures
from protodsl.handout import Options, compose_clinician, compose_sheet
from protodsl.handout.blocks import Handout, Paragraphs, Table
from protodsl.joint_loads import joint_loads_of
from protodsl.localise import localise
from protodsl.model.protocol import Protocol
from protodsl.source import Source
from tests.support import entry
from tests.unit.handout import samples

TEXT = """question chest pain: Do you have chest pain?
question pain: How strong is your pain?
  answer 0 to 10
exercise heel raise both legs
  title Heel raise on both legs
  do
    Rise as high as you can.
  figure
    start standing
    end ankles plantarflexion 30, lift heels, body straight
exercise heel raise one leg
  title Heel raise on one leg
  do
    Rise as high as you can.
  figure
    start standing, lift left foot, left knee 60
    end right ankle plantarflexion 30, lift right heel, right knee 0
exercise loaded heel raise like heel raise one leg
  title Heel raise with a weight
  dose 3 x 8, load 10 kg, daily
exercise hop
  title Hop
  do
    Hop.
progression calf strength
  title Calf strength
  up when pain <= 2
  level heel raise both legs
  level heel raise one leg
    harder than heel raise both legs at ankle
  level loaded heel raise
    harder than heel raise one leg at ankle
  level hop
    harder than heel raise one leg at knee
protocol calf
  title A calf
  version 1.0.0
  review 2026-10-05 by team, next by 2027-10-05
  source common practice, no source
  for adults
  emergency if chest pain
  give calf strength
"""


def page(kind: str) -> tuple[Handout[str], Protocol]:
    found = entry(TEXT)
    (protocol,) = found.protocols
    options = Options(sources={found.path: Source(found.path, TEXT)})
    if kind == "clinician":
        options = replace(options, joint_loads=joint_loads_of(protocol, Figures(Store(None))))
        spoken = localise(
            compose_clinician(protocol, samples.CLINIC, (), options), protocol.scope, samples.CLINIC, "en"
        ).value
    else:
        spoken = localise(compose_sheet(protocol, samples.CLINIC, options), protocol.scope, samples.CLINIC, "en").value
    assert spoken is not None
    return spoken, protocol


def test_every_claim_is_a_row_with_numbers_ranges_and_a_verdict() -> None:
    spoken, _ = page("clinician")
    (chains,) = [section for section in spoken.sections if section.id == "chains"]
    (table,) = [block for block in chains.blocks if isinstance(block, Table)]
    rows = [[cell.text for cell in row] for row in table.rows]
    assert table.caption == "Estimated load at the joint"
    assert rows[0][0].startswith("Heel raise on one leg, against Heel raise on both legs: ")
    assert "ankle plantarflexion" in rows[0][0]
    more, less = (float(one) for one in rows[0][1].split(" against "))
    assert more > 1.8 * less > 60
    assert [row[3] for row in rows] == [
        "harder: the ranges lie apart",
        "not established",
        "not established: there is no figure",
    ]
    assert rows[2][1] == "\N{EN DASH}"
    line = 1 + TEXT.splitlines().index("    harder than heel raise both legs at ankle")
    assert rows[0][4].endswith(f":{line}")
    (note,) = [block for block in chains.blocks if isinstance(block, Paragraphs)]
    words = note.lines[0].text
    assert "no force in a muscle" in words and "how difficult" in words
    assert "The load in the dose is not part of it" in words and "Heel raise with a weight" in words


def test_no_load_stands_on_the_sheet() -> None:
    spoken, _ = page("sheet")
    assert "N m" not in repr(spoken) and "Estimated load" not in repr(spoken)


def test_nothing_is_said_where_nothing_is_claimed() -> None:
    found = entry("\n".join(line for line in TEXT.splitlines() if "harder than" not in line) + "\n")
    assert joint_loads_of(found.protocols[0], Figures(Store(None))) == ()
