"""Price books: their files and sheets.

Decisions:

* A sheet becomes CSV line by row. Floats have the 15 digits that spreadsheets keep. Only the first sheet is read.
"""
