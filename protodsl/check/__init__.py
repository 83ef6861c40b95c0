"""What can be said of a protocol by looking at it alone: one rule a file, all of them listed in `rules.py`."""

from protodsl.check.check import check
from protodsl.check.translated import check_translated

__all__ = ["check", "check_translated"]
