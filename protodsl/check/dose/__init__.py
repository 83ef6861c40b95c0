"""Rules on dose: minutes, days, jumps, and what is not said."""
