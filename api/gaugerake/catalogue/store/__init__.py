"""The database of catalogue revisions, and the snapshot that a worker holds.

Decisions:

* A revision is a text: its id is the SHA-256 of the file with Unix line ends. What ``export`` writes loads as the same
  revision; a changed comment makes a new one.
* Branch books are kept by content too (branch, currency, text), so a quote can be made again from prices no longer in
  use.
* One row, ``current``, names the revision and all books in use: one read, never a mixture.
* A catalogue whose currency differs from a kept branch book's is refused until the book is dropped.
* SQLite keeps its rollback journal (one file, read-only readers, ``BEGIN IMMEDIATE`` writers). PostgreSQL writers take
  an advisory lock. No connection is pooled, so none crosses a fork.
* Without ``GAUGERAKE_DATABASE``, a checkout keeps its database in ``api/state``, an installed package in the user's
  state directory. In-memory SQLite is refused.
* Migration steps are written by hand and only add. A database of a later step is used as it is, so a release can be
  taken back. ``downgrade 0001`` forgets all keys; no step below it is taken from the command line, as that would drop
  every table. Alembic is imported only when something is to be done.
"""
