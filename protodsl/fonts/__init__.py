"""The fonts that the handouts are set in, and what they cover."""
