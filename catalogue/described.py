"""How a field of a part is described: its shape, its dimension and what it means.

Used by the classes in `parts` only; everybody else reads the metadata of the fields.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any, Final

#: Marks a field that parts of a system file may state, but that no catalogue keeps.
IN_FILES_ONLY: Final = "in_files_only"


def quantity(dimension: str, meaning: str) -> Any:
    return field(
        default=None, metadata={"shape": "quantity", "dimension": dimension, "meaning": meaning}
    )


def of_files(dimension: str, meaning: str) -> Any:
    """A quantity that only a system file's own parts may state."""
    metadata = {"shape": "quantity", "dimension": dimension, "meaning": meaning}
    return field(default=None, metadata=metadata | _in_files_only(True))


def rows(
    shape: str,
    columns: tuple[tuple[str, str], ...],
    meaning: str,
    *,
    in_files_only: bool = False,
) -> Any:
    """A list of rows: `mapping` rows have named columns, `list` rows are [a, b] pairs."""
    metadata = {"shape": shape, "columns": columns, "meaning": meaning}
    return field(default=(), metadata=metadata | _in_files_only(in_files_only))


def _in_files_only(so: bool) -> dict[str, Any]:
    """The mark of a field that a catalogue's tables have no column for."""
    return {IN_FILES_ONLY: True} if so else {}


def record(shape: str, columns: tuple[tuple[str, str], ...], meaning: str) -> Mapping[str, Any]:
    """Metadata of a record; the call of `field` stays in the class, where linters look for it."""
    return {"shape": shape, "columns": columns, "meaning": meaning}


def text(meaning: str) -> Any:
    return field(default=None, metadata={"shape": "text", "meaning": meaning})


def choice(choices: tuple[str, ...], meaning: str) -> Any:
    return field(default=None, metadata={"shape": "choice", "choices": choices, "meaning": meaning})


def flag(meaning: str) -> Any:
    return field(default=None, metadata={"shape": "flag", "meaning": meaning})


def whole(meaning: str) -> Any:
    return field(default=None, metadata={"shape": "whole", "meaning": meaning})
