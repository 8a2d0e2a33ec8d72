"""Which whole packs cover a need at the least cost.

Decisions:

* Packs without a price are used only for what priced ones cannot cover; among themselves, least left over, then fewest.
  "Sku order" on a tie means the most of the first sku by name.
* The search is a branch and bound over price tiers (``search``), with the linear relaxation for its prices
  (``marginal``) and the group relaxation of the knapsack for its counts (``residue``, ``tables``). Up to 40 choices are
  all tried instead (``trial``). Cost, count of packs, surplus and order of skus are one whole number, so there are no
  ties (``size``).
* The choice is exact unless 50,000 counts would have to be compared (some 40 ms). Only packs that share no unit and
  cost the same by contents come to that, such as gallons beside litres without prices: then the best of those compared
  is taken, which never costs more than filling up with one size.
"""
