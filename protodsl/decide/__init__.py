"""From model and case to plan, with the reason of every choice."""

from __future__ import annotations

from protodsl.decide.decide import decide, decide_twice, latest_date
from protodsl.decide.plan import Plan

__all__ = ["Plan", "decide", "decide_twice", "latest_date"]
