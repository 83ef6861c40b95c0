"""How much of an exercise is done: sets, repetitions, load, time and their sums."""
