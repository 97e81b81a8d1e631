"""The seal of a job: what it was checked with and what was found, and what has changed since.

`seal` is its shape, `make` makes one of findings, `stored` reads and words the file beside the
job, `changes` holds two seals apart, `as_text` and `as_data` tell what they found.
"""

from coordination.sealing.changes import Changes, changes_between
from coordination.sealing.make import Signed, make_seal
from coordination.sealing.seal import Seal
from coordination.sealing.stored import read_seal, seal_path, stored_seal, text_of_seal

__all__ = [
    "Changes",
    "Seal",
    "Signed",
    "changes_between",
    "make_seal",
    "read_seal",
    "seal_path",
    "stored_seal",
    "text_of_seal",
]
