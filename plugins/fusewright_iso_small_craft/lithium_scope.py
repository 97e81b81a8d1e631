"""Says of each lithium bank whether ISO 23625 concerns it, by its energy and the edition."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coordination.rules import Card, Judgement, Rule, Source, Unknown, note, passed, unproven
from fusewright_iso_small_craft import lithium
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.scope import iso_rule

CARD = Card(
    name="lithium-scope",
    title="ISO 23625 by the bank's energy",
    why="The Technical Specification of 2021 concerns lithium banks above 600 Wh, the standard of "
    "2025 those above 500 Wh; then its documents are asked for.",
    wrong="Two batteries of 300 Wh in parallel, each looked at alone.",
    right="Capacity times nominal voltage, summed over the bank; options: iso_23625 chooses the "
    "edition.",
    severity="paperwork",
    source=Source("ISO 23625:2025", "clause 1"),
    basis="standard",
)


def of(edition: Edition) -> Rule:  # noqa: ARG001
    """The rule, the same beside either edition of the pack."""

    @iso_rule(CARD, each="source")
    def lithium_scope(battery: Any, study: Any) -> Judgement | None:
        """A note where the bank lies outside; its energy is shown either way."""
        if battery.part is None:
            return None
        energy = lithium.energy(battery, study)
        if energy is None:
            return None
        if isinstance(energy, Unknown):
            return unproven(*energy.missing)
        limit = lithium.begins(study)
        assert limit.source is not None
        words = f"bank of {energy.value / 3600:.6g} Wh"
        if lithium.concerned(battery, study):
            made = passed(f"{words}, above {limit.written}: {limit.source.document} applies",
                          source=limit.source)  # fmt: skip
        else:
            made = note(f"{words}, not above {limit.written}: outside {limit.source.document}",
                        source=limit.source)  # fmt: skip
        return replace(made, found=energy)

    return lithium_scope
