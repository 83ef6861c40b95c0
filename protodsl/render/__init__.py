"""From page to the formats a person reads: HTML, PDF and plain text."""
