"""From a solved body to its drawing."""
