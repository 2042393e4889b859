"""States the timetable's question and its answer, and checks the one against the other."""
