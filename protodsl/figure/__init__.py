"""From pose to drawing."""
