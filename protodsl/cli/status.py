"""The exit statuses of every command."""

CLEAN = 0
ERRORS = 1
WRONG_USE = 2
FAULT = 70
INTERRUPTED = 130
