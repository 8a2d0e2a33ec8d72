"""All answers to one job under one number.

Decisions:

* In a quote, working pointers begin with the part they are in (``/quantities/layers/0/need/likely``).
* The fingerprint names a branch's prices by their content: other prices under the same name are another quote.
"""
