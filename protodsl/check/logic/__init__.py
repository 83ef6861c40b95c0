"""Whether conditions can hold: read as formulas over thresholds, decided by a small search of the project's own."""

from protodsl.check.logic.possible import example_of, possible

__all__ = ["example_of", "possible"]
