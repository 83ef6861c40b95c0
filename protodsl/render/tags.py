"""What the tags of a PDF still lack when the library has written them."""

from __future__ import annotations

from typing import Any


def give_heads_a_scope(document: Any, pdf: Any) -> None:
    """Say of every head of a table whether it heads its row or its column (PDF/UA-1, ISO 14289-1:2014, 7.5).

    The library names the heads of each cell, but not those of a cell under a head that spans several columns.
    """
    for head in pdf.objects:
        if isinstance(head, dict) and head.get("S") == "/TH":
            row = _referred(pdf, head["P"])
            alone = len(row["K"]) == 1
            in_head = _referred(pdf, row["P"])["S"] == "/THead"
            head["A"]["Scope"] = "/Column" if in_head or alone else "/Row"
        elif isinstance(head, dict) and head.get("S") == "/TD" and not head["A"].get("Headers"):
            head["A"].pop("Headers", None)


def _referred(pdf: Any, reference: Any) -> Any:
    number = bytes(reference).split()[0] if isinstance(reference, bytes) else str(reference).split()[0]
    return pdf.objects[int(number)]
