"""Every key of a job file, in one table: what reads it and what documents it."""
