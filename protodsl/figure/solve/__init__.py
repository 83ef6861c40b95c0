"""From what a figure says to a body that does it, or to what stands in the way."""
