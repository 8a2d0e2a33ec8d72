"""How to pour the body."""
