"""From handout to page in a language: words, numbers, units, plurals and direction."""
