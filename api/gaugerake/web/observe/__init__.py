"""Metrics and logs.

Decisions:

* Access logs go to standard output as JSON lines, by route and never by path, which may hold a token; the one line for
  people goes to standard error.
"""
