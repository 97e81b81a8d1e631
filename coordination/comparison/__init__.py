"""What a change does: two files, or one under two catalogues, editions or its seal, held apart.

`side` is what is compared, wherever it was kept; `compare` finds what differs; `as_text` and
`answer` tell it. Judges nothing itself.
"""

from coordination.comparison.compare import Comparison, compared
from coordination.comparison.side import Side, side_of_answer, side_of_run, side_of_seal

__all__ = ["Comparison", "Side", "compared", "side_of_answer", "side_of_run", "side_of_seal"]
