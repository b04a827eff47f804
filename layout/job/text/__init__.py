"""The text of a job file: tables, the lines they stand on, and notes of what is wrong there."""
