"""Where a star in prose begins no emphasis and ends none."""

from __future__ import annotations

import re

# `2*10` and `1*5` in one line are a pair of stars that CommonMark takes for emphasis (0.31.2, section 6.2): the stars
# would go, and 210 and 15 would be printed. A star with a blank on either side is printed as it stands.
STAR_IN_WORD = re.compile(
    r"(?<=\w)(?=\\*\*)[*\\]++(?=\w)|(?<=\d)(?=\\*\*)[*\\]++\s+(?=\d)|(?<=\d)\s+(?=\\*\*)[*\\]++(?=\d)"
)
