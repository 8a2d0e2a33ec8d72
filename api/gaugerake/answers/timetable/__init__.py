"""The job as work for the clock."""
