"""JSON Schemas made from types, as of the machine-readable answer."""

from __future__ import annotations

from typing import Any

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def answer_schema() -> dict[str, Any]:
    """JSON Schema of what `check --format json` prints.

    Later versions may add keys, so the schema lets them pass.
    """
    from coordination.report.answer_types import Answer

    return schema_of(Answer, "Fusewright answer")


def schema_of(shape: Any, title: str) -> dict[str, Any]:
    """JSON Schema of a type that msgspec knows, under that title."""
    import msgspec.json

    schema = msgspec.json.schema(shape)
    for definition in schema["$defs"].values():
        if "description" in definition:
            definition["description"] = " ".join(definition["description"].split())
    return {"$schema": _DIALECT, "title": title, **schema}
