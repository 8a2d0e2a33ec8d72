"""Refusals, and the problems that they become.

Decisions:

* Top-level codes for jobs are ``invalid-job`` (form) and ``refused-job`` (meaning); the exact code stands in
  ``errors[]``.
* The 500 problem uses no sentence file, since what went wrong may be in one.
"""
