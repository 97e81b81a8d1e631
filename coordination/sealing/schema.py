"""The JSON Schema of a seal, made from its types."""

from __future__ import annotations

from typing import Any

from coordination.report.schema import schema_of
from coordination.sealing.seal import Seal


def seal_schema() -> dict[str, Any]:
    """JSON Schema of FILE.seal.json; later versions may add keys, so it lets them pass."""
    return schema_of(Seal, "Fusewright seal")
