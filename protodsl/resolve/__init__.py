"""From tree to model: names, `use`, `like`, `change`, kinds and units."""

from __future__ import annotations

from protodsl.resolve.entry import resolve
from protodsl.resolve.index import Cache
from protodsl.resolve.library import OUTSIDE, Library, Outside
from protodsl.resolve.unused import unused, used_names

__all__ = ["OUTSIDE", "Cache", "Library", "Outside", "resolve", "unused", "used_names"]
