"""`python -m saponary` is `saponary`."""

from saponary.cli.start import start

if __name__ == "__main__":
    start()
