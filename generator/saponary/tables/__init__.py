"""The standard tables: data only, each value with its source."""
