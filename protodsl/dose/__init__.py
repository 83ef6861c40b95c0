"""Dose arithmetic: repetitions, sets, time, load and days of the week, exact and with published sources."""
