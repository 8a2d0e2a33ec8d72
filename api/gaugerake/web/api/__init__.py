"""The operations: what each takes, what it calls and how it replies."""
