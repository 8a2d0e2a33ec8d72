"""The database of catalogue revisions, and the snapshot that a worker holds."""
