"""The trade: pure functions and frozen values in SI. Knows no web, no database, no JSON, no unit library.

Every float with a dimension carries its SI unit in its name (``area_m2``, ``cure_s``, ``spread_k``); ratios end in
``_fraction``, percentages in ``_percent``, counts in ``_count``. Nothing here imports from the rooms above.

Decisions:

* ``job.py``, ``system.py`` and ``product.py`` stand beside the rooms: they hold the values that pass between them.
"""
