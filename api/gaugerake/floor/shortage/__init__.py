"""The chance of running short.

Decisions:

* The narrower of yield and thickness is summed by Gauss-Legendre; over the wider the chances are exact. Above 100,000
  cells each number of mixes asked about is worked out alone, with the same result (tested to 1e-9).
"""
