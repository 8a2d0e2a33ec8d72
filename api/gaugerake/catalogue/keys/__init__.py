"""API keys."""
