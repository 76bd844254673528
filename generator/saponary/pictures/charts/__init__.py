"""Small charts as inline SVG: drawn in the ink of the page, told apart by pattern and not by colour."""

from saponary.pictures.charts.acids import spectrum
from saponary.pictures.charts.band import Superfat, superfat_band
from saponary.pictures.charts.shares import Share, key, shares
from saponary.pictures.charts.svg import Chart

__all__ = ["Chart", "Share", "Superfat", "key", "shares", "spectrum", "superfat_band"]
