"""From a job to its answers: what is assumed, which floor functions are called, and what each answer holds."""
