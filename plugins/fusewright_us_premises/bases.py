"""The ampacity bases this pack brings, one a table; made for the newest edition."""

from __future__ import annotations

from coordination.rules import AmpacityBasis, Installation, Value
from fusewright_us_premises.ampacity import corrected
from fusewright_us_premises.editions import Edition

RACEWAY, FREE_AIR = "us-nfpa70-310.16", "us-nfpa70-310.17"


def bases(edition: Edition) -> tuple[AmpacityBasis, ...]:
    """Both bases for an edition; their names stay those of the 2023 tables."""

    def raceway(leg: Installation) -> Value:
        return corrected(leg, edition, in_free_air=False)

    def free_air(leg: Installation) -> Value:
        return corrected(leg, edition, in_free_air=True)

    return (
        AmpacityBasis(
            name=RACEWAY,
            title="copper in raceway or cable, Table 310.16 with its factors",
            source=edition.table(edition.raceway),
            ampacity=raceway,
        ),
        AmpacityBasis(
            name=FREE_AIR,
            title="single copper conductors in free air, Table 310.17 with its factors",
            source=edition.table(edition.free_air),
            ampacity=free_air,
        ),
    )
