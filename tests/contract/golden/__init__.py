"""Jobs and their answers as each release gave them."""
