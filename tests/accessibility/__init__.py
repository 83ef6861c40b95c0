"""Whether everybody can use the handouts: validators of others, a real browser, and the published formulas."""
