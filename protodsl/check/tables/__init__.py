"""Rules on tables and thresholds: no gap, no overlap, nothing left undecided."""
