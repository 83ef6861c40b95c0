"""`python -m protodsl.cli`, which does what `protodsl` does."""

import sys

from protodsl.cli.main import main

sys.exit(main())
