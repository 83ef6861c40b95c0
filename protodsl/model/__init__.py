"""What a protocol means, as frozen types; nothing here knows of text files or parsers."""
