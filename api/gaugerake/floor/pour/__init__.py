"""The pour: its pace, its wet edge, its mixes."""
