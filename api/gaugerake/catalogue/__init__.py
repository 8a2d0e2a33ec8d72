"""The catalogue: systems, products, packs and price books; their file, their revisions, and what the workers hold."""
