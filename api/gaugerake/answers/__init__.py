"""From a job to its answers: what is assumed, which floor functions are called, and what each answer holds.

Decisions:

* A missing field is listed once, with the first reason to ask for it.
* Working tells every figure and every instant of readiness, quantities and return times. An entry explains its figure;
  of a list (``/open_hours``, a remedy's shifts or readings) all that stands in it; below a figure a step on the way to
  it (``/returns/0/latest/steps/3/cured``: the runs of the earliest and the latest returns, of which no answer shows the
  steps). What a search came to (the latest start, remedies) has no formula: its working says when traffic is back with
  it, and with the next less. ``tests/outside/test_every_figure_working.py`` makes each result again from what its entry
  says went in, lists what is exempt, and names what is not explained; ``test_deadline_working.py`` asks again for what
  was searched.
* Working is gathered only when it is asked for, from what the answer was made of (``explain*.py``); an answer says the
  same with it and without.
* Whoever adds a figure to an answer adds its working in an ``explain*.py`` beside it, the rule's words in
  ``show/words/en/``, and the rule once more, from its words alone, in ``tests/outside/working_*.py``.
"""
