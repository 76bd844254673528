"""A book: what it holds, what its recipes come to, and the catalogue of their figures."""
