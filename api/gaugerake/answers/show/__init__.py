"""Answers as people and programs read them: units, sentences, JSON and its schema.

Decisions:

* In sentences a figure is written as people say it: ``sq ft`` and ``m²``, feet and inches, hours and minutes, days,
  whole 64ths of an inch as fractions (``7/32 in``). Other figures have 4 significant digits, but a whole part is never
  shortened. Figures beside sentences keep the unit codes.
* A rule's words in the working have every figure in decimals, to 4 digits: ``143.6 ft`` divided by ``60 ft/h`` can be
  worked out again, and the exact figure stays one tap away.
"""
