"""What every room speaks: frozen values, figures, notes, errors, money and local time."""
