"""Rules on safety: limits, stops, danger signs, replacements and ranges of motion."""
