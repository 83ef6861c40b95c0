"""A plain-text language for exercise protocols, and the compiler that turns them into safe handouts."""

__version__ = "0.1.0"
