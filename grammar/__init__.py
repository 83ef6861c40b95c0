"""The grammar of the language, read by the parser as package data."""
