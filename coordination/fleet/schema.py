"""The JSON Schema of a line of `recheck --format jsonl`, made from its types."""

from __future__ import annotations

from typing import Any

from coordination.fleet.line_types import Line
from coordination.report.schema import schema_of


def line_schema() -> dict[str, Any]:
    """JSON Schema of one line; later versions may add keys, so it lets them pass."""
    one = [{"required": ["job"]}, {"required": ["summary"]}]
    return schema_of(Line, "Fusewright recheck, one line") | {"oneOf": one}
