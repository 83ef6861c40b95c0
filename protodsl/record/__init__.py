"""From the text of a case file to the same text with lines added: nothing that stood there is changed or lost."""

from protodsl.record.add import Addition, Recorded, record
from protodsl.record.kept import is_kept

__all__ = ["Addition", "Recorded", "is_kept", "record"]
