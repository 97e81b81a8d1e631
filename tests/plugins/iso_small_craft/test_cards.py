"""What the pack's cards say of their clauses: which were read, in which edition."""

from __future__ import annotations

import pytest

from coordination.testing import installed_pack

#: Rules whose clause was read in an edition; every other rests on memory.
READ = {
    "2012": {"conductor-size", "lithium-cells", "lithium-scope", "lithium-venting",
             "voltage-drop", "voltage-scope"},
    "2020": {"charging-source", "lithium-cells", "lithium-scope", "lithium-venting",
             "voltage-scope"},
}  # fmt: skip


@pytest.mark.parametrize("edition", ["2012", "2020"])
def test_a_rule_that_rests_on_memory_is_paperwork(edition):
    cards = [rule.card for rule in installed_pack(f"iso_small_craft@{edition}").rules]
    assert {card.basis for card in cards} == {"standard"}
    assert {card.name for card in cards if card.source.read} == READ[edition]
    assert {card.severity for card in cards if not card.source.read} == {"paperwork"}
