"""The checks, by what they look at: each a pure function of the facts, listed in the registry."""
