"""Ways to a cure's end that are quicker than adding up, for the courses that have one."""
