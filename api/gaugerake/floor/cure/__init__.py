"""How long a cure takes, and where it stands, on a floor whose temperature changes."""
