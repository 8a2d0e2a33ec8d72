"""Who does the work, and how fast."""
