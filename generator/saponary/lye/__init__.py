"""The engine: a formula in, figures out. Pure: no file, clock, network or template."""
