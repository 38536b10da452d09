"""``python -m wideberth``: the command line."""

import sys

from wideberth.cli import main

if __name__ == "__main__":
    sys.exit(main())
