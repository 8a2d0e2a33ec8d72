"""Which whole packs cover a need at the least cost.

Decisions:

* Packs without a price are used only for what priced ones cannot cover; among themselves, least left over, then fewest.
  "Sku order" on a tie means the most of the first sku by name.
* Packs that may be broken up name the marginal size, and with it the price of a unit (``marginal``). Against that price
  each size has a base count. What the others depart from their base counts matters to the marginal size only by its
  remainder, so a table of its residues guides the choice and bounds what a limit bars (``residue``). Sizes bought in a
  price tier away from their base count are searches of their own, cut by what they cost broken up (``search``). Up to
  40 choices are all tried (``trial``). Cost, packs, what is over and the order of skus are one whole number, so there
  are no ties (``size``).
* The choice is exact unless 50,000 counts would have to be weighed (some 40 ms). Only packs that share no unit and cost
  the same by contents come to that, such as gallons beside litres without prices: then the best of those weighed is
  taken, which is never dearer than filling up with one size.
"""
