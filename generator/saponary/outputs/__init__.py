"""Files of the site: one kind of page, PDF, data file or calendar a module."""
