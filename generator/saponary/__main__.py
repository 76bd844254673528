"""`python -m saponary` is `saponary`."""

import sys

from saponary.cli.main import main

if __name__ == "__main__":
    sys.exit(main())
