"""What to load on the truck."""
