"""The command line: the only rooms that open files or print."""
