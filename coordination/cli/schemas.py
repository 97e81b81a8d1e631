"""`fusewright schema`: the JSON Schemas that editors and scripts use."""

from __future__ import annotations

import json
from typing import Any

from coordination.cli.output import emit, speaks_unicode


def print_schema(of: str) -> int:
    """Print the schema asked for; gives 0."""
    emit(json.dumps(_schema(of), indent=2, ensure_ascii=not speaks_unicode()) + "\n")
    return 0


def _schema(of: str) -> dict[str, Any]:
    if of == "answer":
        from coordination.report.schema import answer_schema

        return answer_schema()
    if of == "outage":
        from coordination.report.outage_answer import outages_schema

        return outages_schema()
    if of == "seal":
        from coordination.sealing.schema import seal_schema

        return seal_schema()
    if of == "margins":
        from coordination.margins.answer_types import MarginsAnswer
        from coordination.report.schema import schema_of

        return schema_of(MarginsAnswer, "Fusewright margins")
    if of == "comparison":
        from coordination.comparison.answer_types import ComparisonAnswer
        from coordination.report.schema import schema_of

        return schema_of(ComparisonAnswer, "Fusewright comparison")
    if of == "measured":
        from coordination.measured.answer_types import MeasuredAnswer
        from coordination.report.schema import schema_of

        return schema_of(MeasuredAnswer, "Fusewright measured")
    if of == "energy":
        from coordination.report.energy_types import EnergyAnswer
        from coordination.report.schema import schema_of

        return schema_of(EnergyAnswer, "Fusewright energy")
    if of == "shore":
        from coordination.report.schema import schema_of
        from coordination.report.shore_types import ShoreAnswer

        return schema_of(ShoreAnswer, "Fusewright shore")
    if of == "recheck":
        from coordination.fleet.schema import line_schema

        return line_schema()
    if of == "history":
        from coordination.report.history_types import HistoryAnswer
        from coordination.report.schema import schema_of

        return schema_of(HistoryAnswer, "Fusewright parts: log, as-of")
    if of in ("parts", "uses", "doubts", "import"):
        return _of_parts(of)
    if of == "suggest":
        return _of_suggest()
    from coordination.reading.schema import system_schema

    return system_schema()


def _of_suggest() -> dict[str, Any]:
    from coordination.report.schema import schema_of
    from coordination.suggest.answer_types import SuggestAnswer

    return schema_of(SuggestAnswer, "Fusewright suggestions")


def _of_parts(of: str) -> dict[str, Any]:
    from coordination.report import parts_types
    from coordination.report.schema import schema_of

    shapes: dict[str, Any] = {
        "parts": parts_types.PartsFile,
        "uses": parts_types.UsesAnswer,
        "doubts": parts_types.DoubtsAnswer,
        "import": parts_types.ImportAnswer,
    }
    return schema_of(shapes[of], f"Fusewright parts: {of}")
