"""A made-up language in place of every other: what is not put into words shows, and what is too long does not fit."""
