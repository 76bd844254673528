"""Jars and bottles: a soap that is not cut is drawn in what it is filled into."""
