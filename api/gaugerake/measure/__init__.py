"""The door for units: the grammar and the closed unit table in, the unit choice out.

Everything behind this door is a float in SI. `grammar` reads what people write, `units` holds what it may be written
in, `choice` shows figures in the units that a reader asked for, and `errors` says what was wrong and what to write.

Decisions:

* Whoever adds a unit adds a row in ``rows.py``. Pint gives its factor at start; a test holds it against an exact
  fraction.
"""
