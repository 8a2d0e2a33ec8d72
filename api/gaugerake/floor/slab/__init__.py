"""The arithmetic of the slab's checks, and of the air above it."""
