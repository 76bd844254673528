"""What goes onto paper: view models of the sheets, each value a finished string."""
