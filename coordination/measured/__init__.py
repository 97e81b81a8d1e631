"""Commissioning comes back: measured values against predicted ones, and rules judged anew.

A measured resistance takes the place of the file's in memory only; the file is never written.
"""

from coordination.measured.blank import blank_record
from coordination.measured.reading import read_measured
from coordination.measured.record import Record
from coordination.measured.rejudge import Outcome, with_measured

__all__ = ["Outcome", "Record", "blank_record", "read_measured", "with_measured"]
