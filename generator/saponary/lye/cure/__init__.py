"""Cure: from the weighings of a marked bar to a curve, its errors and what it says of any day."""
