"""Amounts, units and rounding: one home for how a number is read and written."""
