"""The pairs of one condition as rows: two devices in series and how far they are selective."""

from __future__ import annotations

from typing import Any, Literal, NamedTuple

from coordination.trace import Value

Verdict = Literal["pass", "fail", "unproven"]
_VERDICTS: dict[str, Verdict] = {"proven": "pass", "broken": "fail", "unproven": "unproven"}


class PairRow(NamedTuple):
    """One pair.

    downstream, upstream -- names of the devices
    towards      -- the point at which the fault lies, or behind which
    share        -- of the fault current through the downstream one that the other carries [1]
    low, high    -- range of fault currents compared [A]
    proven_up_to -- largest current up to which it is proven without a gap [A]; None: nowhere
    first_gap    -- lowest current at which it is not [A]; None: nowhere
    alone        -- nothing else is fed between the two: it is all one which of them opens
    missing      -- what a proof would need
    """

    downstream: str
    upstream: str
    towards: str
    share: Value
    low: Value
    high: Value
    proven_up_to: float | None
    first_gap: float | None
    alone: bool
    verdict: Verdict
    missing: tuple[str, ...]


def pair_rows(study: Any) -> tuple[PairRow, ...]:
    """Every pair of a study, by downstream device in the file's order."""
    return tuple(_row(study, pair) for pair in study.pairs())


def _row(study: Any, pair: Any) -> PairRow:
    compared = study.compared(pair)
    result = compared.result
    verdict: Verdict = "unproven" if result is None else _VERDICTS[result.standing]
    missing = compared.missing if result is None else ()
    if result is not None and verdict == "unproven":
        missing = study.lacking(pair, _open_at(result))
    if pair.alone:
        verdict, missing = "pass", ()
    gap = None if result is None or result.first_gap is None else result.first_gap.current
    return PairRow(
        downstream=pair.down.name,
        upstream=pair.up.name,
        towards=pair.down.end if pair.forward else pair.down.start,
        share=pair.share,
        low=pair.low,
        high=pair.high,
        proven_up_to=None if result is None else result.proven_up_to,
        first_gap=gap,
        alone=pair.alone,
        verdict=verdict,
        missing=missing,
    )


def _open_at(result: Any) -> Any:
    """Where it is least proven."""
    return result.worst if result.worst.standing != "proven" else result.first_gap
