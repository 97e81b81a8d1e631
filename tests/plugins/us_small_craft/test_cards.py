"""What the pack's cards say of law, practice and memory."""

from __future__ import annotations

import pytest

from coordination.testing import installed_pack


@pytest.fixture(scope="module")
def pack():
    return installed_pack("us_small_craft")


def test_every_rule_says_in_its_title_whether_it_is_law_or_practice(pack):
    for rule in pack.rules:
        law = rule.card.basis == "law"
        assert rule.card.title.startswith("Law: " if law else "Practice: "), rule.card.name


def test_a_rule_that_rests_on_memory_is_paperwork(pack):
    unread = [rule.card for rule in pack.rules if not rule.card.source.read]
    assert {card.name for card in unread} == {
        "panel-feed", "practice-charging-device", "practice-device-rating",
    }  # fmt: skip
    assert {card.severity for card in unread} == {"paperwork"}
