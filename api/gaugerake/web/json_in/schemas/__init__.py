"""The job document, by topic: what each object of it loads into, and what its figures may be."""
