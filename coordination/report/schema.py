"""The JSON Schema of the machine-readable answer, made from its types."""

from __future__ import annotations

from typing import Any

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def answer_schema() -> dict[str, Any]:
    """JSON Schema of what `check --format json` prints.

    Later versions may add keys, so the schema lets them pass.
    """
    import msgspec.json

    from coordination.report.answer_types import Answer

    schema = msgspec.json.schema(Answer)
    for definition in schema["$defs"].values():
        if "description" in definition:
            definition["description"] = " ".join(definition["description"].split())
    return {"$schema": _DIALECT, "title": "Fusewright answer", **schema}
