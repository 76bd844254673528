"""What a maker may write: one typed model a kind of file, and the reader that runs it over a tree."""
