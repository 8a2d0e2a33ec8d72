"""The operations: what each takes, what it calls and how it replies.

Decisions:

* An unknown, doubled or ill-valued query parameter is a 422 ``bad-parameter``, with ``parameter`` in place of
  ``pointer``.
* Parameters of a media range in ``Accept`` count for nothing: none tells two forms of ours apart, and
  ``application/json; charset=utf-8`` is sent by many a client.
* POST answers are ``no-store``. What has a name is ``no-cache`` with a strong ETag, and a packed form has its own tag.
"""
