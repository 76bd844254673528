"""The topics of the manual, as Markdown."""
