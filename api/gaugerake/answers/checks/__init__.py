"""The checks of a slab and the air over it: each module looks at one side of the job and says what it finds."""
