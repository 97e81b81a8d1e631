"""Reads a side that was kept: a seal, or what `check --format json` printed."""

from __future__ import annotations

import json
from typing import Any, Final, NoReturn

from coordination.comparison.side import Side, side_of_answer, side_of_seal
from coordination.errors import BadInput, Problem

#: Largest answer [bytes] that is read; one of 2,000 lines of system file is about 20 MB.
LARGEST: Final = 200_000_000


def kept_side(path: str) -> Side | None:
    """The side in a `.json` file; None for any other name. Raises BadInput: it cannot be used."""
    from coordination.sealing.stored import ENDING, read_seal

    if path.endswith(ENDING):
        return side_of_seal(read_seal(path), path)
    if not path.lower().endswith(".json"):
        return None
    answer = _read(path)
    if answer.get("restricted"):
        _refuse(path, f"the answer is of a part of the job: {'; '.join(answer['restricted'])}")
    if sum(answer["counts"].values()) != len(answer["findings"]):
        _refuse(path, "the answer does not show all its findings", "one made without --only")
    return side_of_answer(answer, path)


def _read(path: str) -> Any:
    import msgspec

    from coordination.report.answer_types import Answer

    try:
        with open(path, "rb") as stream:
            data = stream.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        _refuse(path, f"the answer cannot be read: {reason.lower()}")
    if len(data) > LARGEST:
        _refuse(path, f"the answer is larger than {LARGEST // 1_000_000} MB")
    try:
        return msgspec.convert(json.loads(data), Answer)
    except (ValueError, RecursionError) as error:
        what = f"this is no answer of check --format json, nor a seal: {error}"
        _refuse(path, what, "a system file, FILE.seal.json, or such an answer")


def _refuse(path: str, what: str, allowed: str = "") -> NoReturn:
    raise BadInput((Problem(path, 0, 0, what, allowed),))
