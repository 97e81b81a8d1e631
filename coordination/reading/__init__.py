"""Reading: a system file to the model, with every spelling, unit and range error told at once."""

from coordination.reading.read import read, read_bytes
from coordination.reading.reader import Catalogue

__all__ = ["Catalogue", "read", "read_bytes"]
