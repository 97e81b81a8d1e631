"""One-line diagrams: a whole system as symbols and lines, on as many sheets as stay legible.

`one_line` is the stage from findings to sheets of SVG.
"""

from coordination.diagram.one_line import one_line
from coordination.diagram.sheet import Sheet

__all__ = ["Sheet", "one_line"]
