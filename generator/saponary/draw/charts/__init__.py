"""Small charts as inline SVG: drawn in the ink of the page, told apart by pattern and not by colour."""

from saponary.draw.charts.acids import spectrum
from saponary.draw.charts.band import Superfat, superfat_band
from saponary.draw.charts.shares import Share, key, shares
from saponary.draw.charts.svg import Chart

__all__ = ["Chart", "Share", "Superfat", "key", "shares", "spectrum", "superfat_band"]
