"""Saponary: a soap maker's recipe book whose numbers are recomputed at every build."""

__version__ = "0.1.0"
