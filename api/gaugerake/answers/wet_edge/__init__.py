"""Whether the wet edge of a pour holds in the hours of a timetable: the plan tells it, and remedies must keep it."""
