"""From the text of a job file to a `Job`, or to every problem in it."""

from .job import Reading as Reading
from .job import look_over as look_over
from .job import read_job as read_job
