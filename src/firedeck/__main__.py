"""``python -m firedeck``."""

import sys

from firedeck.cli import main

if __name__ == "__main__":
    sys.exit(main())
