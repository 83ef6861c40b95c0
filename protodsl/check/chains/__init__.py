"""Rules on what leads to what: levels, phases, replacements, and conditions that never or always hold."""
