"""The digest changes with anything a handout is made from, and with nothing else."""

from __future__ import annotations

import hashlib
import re

from protodsl.handout import digest

_SOURCES = {"ankle.protocol": "protocol ankle\n", "library/calf.protocol": "exercise heel raise\n"}
_INPUTS = {"language": "en", "templates": "0123", "version": "1.0"}


def test_it_is_the_start_of_a_sha_256() -> None:
    """Computed again from its description: every name and text behind its length in eight bytes, sorted, two tables."""
    data = b""
    for kind, table in (("source", _SOURCES), ("input", _INPUTS)):
        for name in sorted(table):
            for part in (kind, name, table[name]):
                data += len(part.encode()).to_bytes(8, "big") + part.encode()
    digits = hashlib.sha256(data).hexdigest()
    assert digest(_SOURCES, _INPUTS) == f"{digits[:5]}-{digits[5:10]}"
    assert re.fullmatch(r"[0-9a-f]{5}-[0-9a-f]{5}", digest({}, {}))


def test_everything_in_it_counts() -> None:
    """Another text, another name, another option, or a text that has moved to another file."""
    first = digest(_SOURCES, _INPUTS)
    others = [
        digest(_SOURCES | {"ankle.protocol": "protocol ankle \n"}, _INPUTS),
        digest(_SOURCES | {"more.protocol": ""}, _INPUTS),
        digest(_SOURCES, _INPUTS | {"language": "es"}),
        digest({"ankle.protocol": _SOURCES["library/calf.protocol"]}, _INPUTS),
        digest({"a": "bc"}, {}),
        digest({"ab": "c"}, {}),
        digest({}, {"a": "bc"}),
    ]
    assert len({first, *others}) == len(others) + 1


def test_the_order_does_not_count() -> None:
    """The same inputs in another order are the same inputs."""
    turned = dict(reversed(_SOURCES.items()))
    assert digest(turned, dict(reversed(_INPUTS.items()))) == digest(_SOURCES, _INPUTS)
