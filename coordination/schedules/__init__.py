"""The sheets that are handed over, as columns and rows of text: devices, cables, loads, labels.

Knows what a sheet says, not how it is printed: `cli` writes tables and files, `papers` pages.
"""

from coordination.schedules.kinds import Column, Schedule
from coordination.schedules.make import NAMES, schedule_of, schedules

__all__ = ["NAMES", "Column", "Schedule", "schedule_of", "schedules"]
