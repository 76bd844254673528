"""The two ends: proof, site, records and the changes written to a maker's files."""
