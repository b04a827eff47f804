"""How a figure, a name or a place is written and taken, in a job file and by a program alike."""
