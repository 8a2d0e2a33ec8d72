"""Reading a catalogue file and telling its faults.

Decisions:

* A value that cannot be read is NaN until the file is refused: comparisons with NaN tell no second fault.
* Sealant is counted as liquid. Sundries are counted in pieces only. A body cannot be optional. A body under a broadcast
  has no cure of its own. A cove comes before every coat, but may follow a primer.
* ``{low, likely, high}`` needs all three; only time tables fill missing columns. A recoat is compared with the cure in
  all three columns at every temperature of either table.
* A missing cure and returns that come back sooner than lighter ones are cautions, as both can be meant.
* Prices are kept with the currency's own decimals ("84" in USD is 84.00).
* The lists of ISO 4217 and of Rec 20/21 codes are from memory, and the code says so.
"""
