"""All answers to one job under one number."""
