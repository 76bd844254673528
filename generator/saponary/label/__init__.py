"""What a label says is in the bar: ingredient lists by jurisdiction, scents and their allergens."""
