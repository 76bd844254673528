"""What travels with the program: templates, starter recipes, fonts."""
