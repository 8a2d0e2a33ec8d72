"""The catalogue as an integrator reads it: systems, products, units."""
