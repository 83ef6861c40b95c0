"""`python -m tests.accessibility`: every page of the demo, held against the validators (see `everything.py`)."""

import sys

from tests.accessibility.everything import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
