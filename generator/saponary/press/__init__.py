"""PDFs, made by WeasyPrint from the same pages and figures as the site."""
