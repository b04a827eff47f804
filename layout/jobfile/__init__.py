"""From the text of a job file to a `Job`, or to every problem in it."""

from .job import Reading, look_over, problems, read_job

__all__ = ["Reading", "look_over", "problems", "read_job"]
