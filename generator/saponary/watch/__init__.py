"""Shows a book while it is written: proofed after each save, its pages made when a browser asks for them."""
