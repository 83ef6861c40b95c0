"""The templates and style sheets of the handouts, read by the renderer as package data."""
