"""Refusals, and the problems that they become."""
