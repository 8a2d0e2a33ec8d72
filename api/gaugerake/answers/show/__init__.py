"""Answers as people and programs read them: units, sentences, JSON and its schema.

Decisions:

* In sentences a figure is written as people say it: ``sq ft`` and ``m²``, days, whole 64ths of an inch as fractions
  (``7/32 in``). It has 4 significant digits, but its whole part is never shortened. Figures beside sentences keep the
  unit codes.
"""
