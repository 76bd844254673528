"""The standard tables, each value with its source, and what a maker's own pantry adds."""
