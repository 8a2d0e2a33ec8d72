"""The chance of running short."""
