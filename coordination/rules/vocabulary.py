"""Hands the options and part fields of loaded packs to the reader of system files."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from coordination.reading.fields import Field
from coordination.reading.limits import ABOVE_ZERO, LIMITS
from coordination.reading.vocabulary import Vocabulary
from coordination.rules.pack import Packs
from coordination.rules.words import Option, PartField


def vocabulary(packs: Packs, asked: Iterable[str]) -> Vocabulary:
    """The words of the packs; those asked for that are not there are to be passed over.

    asked -- packs the file names, each perhaps with its edition
    """
    there = {pack.card.name: pack for pack in packs.packs}
    options = {
        name: {option.name: as_field(option) for option in pack.options}
        for name, pack in there.items()
        if pack.options
    }
    defaults: dict[str, dict[str, Any]] = {
        name: {each.name: each.default for each in pack.options if each.default is not None}
        for name, pack in there.items()
    }
    fields: dict[str, dict[str, Field]] = {}
    for name, pack in there.items():
        for each in pack.part_fields:
            fields.setdefault(each.kind, {})[f"{name}.{each.name}"] = as_field(each)
    skipped = frozenset(name.partition("@")[0] for name in asked) - there.keys()
    return Vocabulary(options, defaults, fields, skipped, frozenset(packs.rule_names()))


def as_field(word: Option | PartField) -> Field:
    """The word as the reader's own kind of field."""
    limits = LIMITS.get(word.dimension) if word.shape == "quantity" else None
    if limits is not None and limits.low == ABOVE_ZERO:
        limits = limits.or_zero()
    return Field(
        shape=word.shape,
        meaning=word.meaning,
        dimension=word.dimension,
        limits=limits,
        choices=word.choices,
    )
