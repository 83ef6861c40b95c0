"""Where a star opens or closes emphasis, also in scripts that put no spaces between words.

CommonMark lets `**` close after a full stop only before a blank or another sign (0.31, "right-flanking"), so that
`**停止：**站好` would print its stars. Here a wide character or sign (UAX #11) beside them is as good as a blank.
"""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.rules_inline import StateInline


def reads_wide_scripts(parser: MarkdownIt) -> None:
    """Put this rule in the place of the parser's own."""
    parser.inline.ruler.at("emphasis", _emphasis)


def _emphasis(state: StateInline, silent: bool) -> bool:
    from markdown_it.rules_inline.state_inline import Delimiter

    marker = state.src[state.pos]
    if silent or marker not in "_*":
        return False
    scanned = state.scanDelims(state.pos, marker == "*")
    opens, closes, length = scanned.can_open, scanned.can_close, scanned.length
    if marker == "*":
        before = state.src[state.pos - 1] if state.pos else " "
        end = state.pos + length
        after = state.src[end] if end < state.posMax else " "
        opens = opens or (not after.isspace() and (_is_wide(before) or _is_wide(after)))
        closes = closes or (not before.isspace() and (_is_wide(before) or _is_wide(after)))
    for _ in range(length):
        state.push("text", "", 0).content = marker
        state.delimiters.append(Delimiter(ord(marker), length, len(state.tokens) - 1, -1, opens, closes))
    state.pos += length
    return True


def _is_wide(sign: str) -> bool:
    return unicodedata.east_asian_width(sign) in ("W", "F")
