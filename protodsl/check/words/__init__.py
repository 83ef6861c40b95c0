"""Rules on the words that a patient reads."""
