"""The OpenAPI description and the documentation made from it.

Decisions:

* The description's bounds for answers (10,000 characters, 1,000,000 items, 32 bits) are ceilings for generators, not
  promises of size.
* By hand, with npm: ``redocly lint``, ``spectral lint -F error -r openapi/rules.yaml openapi/openapi.yaml`` (both
  without errors on 2026-11-25). Clients are generated in ``tests/contract/test_clients.py``, in TypeScript where
  ``npm`` is.
* Each component of the job is called ``Job…`` in the description, so none clashes with an answer's class. Whoever adds
  an operation or changes an answer runs ``gaugerake openapi > openapi/openapi.yaml``.
"""
