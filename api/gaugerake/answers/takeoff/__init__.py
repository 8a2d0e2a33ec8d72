"""The job measured: its rooms, and what each layer needs."""
