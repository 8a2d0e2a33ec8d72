"""From the bytes of a body to a job."""
