"""From the bytes of a body to a job.

Decisions:

* A null says as much as leaving the field out; a required field sent as null is missing, and a null in a list is
  refused.
* ``rooms`` may be left out for readiness alone (``SlabJob``); everywhere else there is at least one.
* Schemas are marshmallow's, but ``Document.load`` loads by itself at less than half the cost. New fields extend
  ``Strict`` with ``read``, ``write`` and ``form``.
* Werkzeug silently cuts a chunked body at ``MAX_CONTENT_LENGTH``, so the limit is set one byte over ours and we refuse
  the rest.
* The job that ``?echo=true`` gives back has six digits where those are read as the same figure again, else 15: sent
  again, it has the same fingerprint and gets the same order. (At six, a limit such as 11 mm came back as 0.433071 in,
  which is over it.)
* A body that ends before it is whole, or whose chunks are broken, is a 400: half of a job may be a job.
"""
