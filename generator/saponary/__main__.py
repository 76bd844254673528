"""`python -m saponary` is `saponary`."""

import sys

from saponary.cli.start import start

if __name__ == "__main__":
    sys.exit(start())
