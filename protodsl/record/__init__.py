"""From the text of a case file to the same text with lines added; nothing goes but an `unknown` that is answered."""

from protodsl.record.add import Recorded, record
from protodsl.record.addition import Addition
from protodsl.record.kept import is_kept

__all__ = ["Addition", "Recorded", "is_kept", "record"]
