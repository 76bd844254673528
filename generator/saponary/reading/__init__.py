"""From bytes to a tree that knows where everything stands, and findings that say so."""
