"""Worked cases: jobs whose figures are known beforehand, in a file that needs no programming, and what differs.

::

    worked_cases: Title
    cases:
      - case: what it is called
        worked: how its figures were come by      units: us | si
        job: {system: …, rooms: [ … ], …}         the job document, in YAML
        gives: [{at: /quantities/totals/gross, is: "7547.25", within: 0.50}, …]

Decisions:

* ``at`` is a JSON Pointer (RFC 6901) into what ``POST /v1/quotes`` answers, its working included. A job that is refused
  answers with its problem, so a case may also say which jobs must be refused (``{at: /code, is: refused-job}``).
* A word in quotes is text, a plain one a number where it reads as one, as in JSON. Money is text in an answer; it is
  compared as a number with a number, so that 84 and "84.00" are one price.
* Without ``within`` a figure is what is written, to the last digit. ``within`` is a number in the figure's own unit, a
  share of the figure in per cent (``1 %``), or for an hour of the calendar a time (``5 min``).
"""
