"""Is the slab ready?"""
