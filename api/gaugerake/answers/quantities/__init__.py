"""What to load on the truck.

Decisions:

* ``orderable`` looks at the slab too, whichever answer is asked for: ``/v1/quantities`` reads the slab's verdict
  without repeating what readiness says.
* A layer's ``need`` is unrounded, ``used`` is in whole mixes or batches; an order line's ``need`` adds up ``used``.
* What goes by the mix needs a count for each mix *ordered*, so its need there is exact: low, likely and high alike.
  ``layers[]`` counts it by the mixes needed.
* An uncertain product has a range that is not one value, or makes a body whose thickness sd is above 0; k counts those.
* A product covered by stock has no order line; a caution ``covered-by-stock`` says so, and ``shortage`` still lists it.
* ``curve`` is the order with up to 5 fewer or 5 more of its smallest pack. ``packs`` is the whole count. It is cut to
  the last certain shortage and the first certain sufficiency. Probabilities are rounded to a millionth.
* ``order.colour`` must be one that every coloured product of the job comes in. If they share none, a product not made
  in it takes its first listed, with a caution. A colour, offer or stock with no use in the job is a caution.
* Delivery belongs to the net, so it is taxed. ``per_area`` is ``{value: "3.42", unit: "USD/ft2"}``, rounded to the
  minor unit. ``unit_price`` shows at least the currency's digits; a finer offered price is shown as it came.
* Each hazard is one caution naming its products.
"""
