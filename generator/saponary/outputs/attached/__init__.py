"""Sources that travel inside a PDF, written out again from what its edition shows."""
