"""View models: what the templates are handed, in finished strings."""
