"""Price books: their files and sheets."""
