"""From page to documents made of running text: plain text, Markdown, EPUB and word processing."""
