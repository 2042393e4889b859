"""Plans the timetable: which game at which start, and then on which field."""
