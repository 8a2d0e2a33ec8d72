"""When each step of the work is done and when traffic returns.

Decisions:

* A broadcast joins the layer it is cast into. Its cure and window win over that layer's own. Its wait runs at the high
  time in every run, goes on under the product's low limit (a body sets there too, and the clock of the mixes goes on as
  well: once a cold night made the crew stay until noon), and may run past the shift (``broadcast-past-shift``); of a
  body that is split over shifts it has a part for each, and the caution tells the most by which any outlasts its shift,
  from a minute on.
* Recoat windows are read at their lowest time in all three runs. After abrading, the window is not asked again.
* A layer that would be abraded is laid later where that spares it: the last whole minute with which no return of that
  run is later, each run for itself. No return is later than with the abrading, nor, where that can be had, than it
  would be if that window never closed. Where it would be abraded after that minute too, the last minutes are tried
  from which the next layer, where it waits, begins in one of the four shifts before. A run has 4,000 steps for it;
  where they end, the layer is laid at once and abraded, and a caution (``laying-late-search-ended``) says so.
* Traffic never returns before loose aggregate is cleared. A layer that froze gives no return at all.
* Sealing joints is a step of its own, after the cure of the layer before: neither bonded to nor counted from.
* Preparing, clearing and abrading have no temperature limits. Work that would end after 365 days has no hours.
* A shift that starts or ends in a skipped hour does so at the change of the clocks. A shift's date is that of its
  start. Closed dates hold round the clock too.
* The three runs may overtake each other: one that is ahead may wait for a shift until a recoat window has closed, and
  then abrade. So ``earliest`` is the soonest of the three, ``latest`` the last, and deadlines, remedies and
  ``latest_start`` are held against all three.
"""
