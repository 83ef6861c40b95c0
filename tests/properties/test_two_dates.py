"""One replay for two dates comes to the same plans as a replay for each."""

from __future__ import annotations

import datetime
from random import Random

from protodsl.decide import decide, decide_twice, latest_date
from tests.properties.random_cases import history
from tests.properties.test_decide import CLINIC, changed_of, protocol_of, versions_of

PROTOCOLS = 40
HISTORIES = 5


def test_two_dates_by_one_replay() -> None:
    """Random protocols and histories: the sheet of today and the one before, whole, with all that is told."""
    for seed in range(PROTOCOLS):
        random = Random(seed)
        protocol, text = protocol_of(random)
        changed = changed_of(text, random)
        for _ in range(HISTORIES):
            case = history(protocol, random)
            versions = versions_of(protocol, changed, case, random)
            today = latest_date(case) + datetime.timedelta(days=random.randint(0, 3))
            before = today - datetime.timedelta(days=random.randint(1, 30))
            now, earlier = decide_twice(versions, case, CLINIC, today, before)
            assert now == decide(versions, case, CLINIC, today), (seed, today)
            assert earlier == decide(versions, case, CLINIC, before), (seed, before)
