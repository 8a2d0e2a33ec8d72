"""The job as every answer takes it, with what it leaves unsaid filled in."""
