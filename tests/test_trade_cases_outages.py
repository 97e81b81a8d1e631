"""The trade's cases of single events: F12 (load dump), F13 (what must run), on the demo tender.

Expected verdicts follow from the drawing; sums are in the comments.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from coordination.checking import Request, findings_of, prepare, studies_of

TENDER = "tender-cured.yaml"
Variant = Callable[..., Path]

#: The alternator on the house bus, where its leads are no other than before.
HOUSE_ALTERNATOR = (
    "  alternator lead:\n    from: start battery\n",
    "  alternator lead:\n    from: main bus\n",
)
#: The DC-DC's output taken away, so that nothing but the packs feeds the house.
NO_CONVERTER = ("normal: {without: [shore charger]", "normal: {without: [shore charger, dc-dc]")


def judged(path: Path, rule: str) -> dict[str, Any]:
    """Findings of a rule of the pack, in the condition normal, by subject."""
    request = Request(str(path), packs=("continuity",), rules=(f"continuity/{rule}",))
    found = findings_of(request._replace(condition="normal"))
    return {each.subject: each for each in found.findings}


def outcomes(path: Path, condition: str = "normal") -> Mapping[str, Any]:
    request = Request(str(path), condition=condition)
    study = studies_of(request, *prepare(request))[condition]
    return {each.event.told: each for each in study.outages}


def test_f12_an_alternator_on_the_house_bus_fails(variant: Variant) -> None:
    """Both packs open together: no battery is left on the main bus, and the alternator runs on."""
    found = judged(variant(TENDER, HOUSE_ALTERNATOR), "load-dump")["alternator"]
    assert (found.verdict, found.severity) == ("fail", "damage")
    assert "port pack + starboard pack trip together" in found.reason
    told = outcomes(variant(TENDER, HOUSE_ALTERNATOR))["port pack + starboard pack trip together"]
    assert "alternator" in [left.source for left in told.left]


def test_f12_stated_to_run_alone_it_passes(variant: Variant) -> None:
    stated = ("{current_limited: 80 A, voltage: 28.2 V,",
              "{current_limited: 80 A, voltage: 28.2 V, runs_without_battery: yes,")  # fmt: skip
    found = judged(variant(TENDER, HOUSE_ALTERNATOR, stated), "load-dump")["alternator"]
    assert found.verdict == "pass"


def test_f12_a_lead_acid_battery_on_the_house_bus_cures_it(variant: Variant) -> None:
    """The start battery linked to the main bus, as in emergencies, keeps the alternator company."""
    linked = ("name: parallel switch, normally: open", "name: parallel switch")
    told = outcomes(variant(TENDER, HOUSE_ALTERNATOR, linked))
    assert told["port pack + starboard pack trip together"].left == ()


def test_an_alternator_on_the_start_battery_is_left_alone_by_its_own_fuse_only() -> None:
    """As the tender is drawn: no pack's trip leaves it without a battery."""
    path = Path(__file__).parent.parent / "fixtures" / "systems" / TENDER
    alone = {
        words
        for words, outcome in outcomes(path).items()
        if "alternator" in [left.source for left in outcome.left]
    }
    assert alone == {"alternator fuse opens", "start battery is lost"}
    found = judged(path, "load-dump")["alternator"]
    assert (found.verdict, found.missing) == ("unproven", ("alternator: runs_without_battery",))


def test_f13_bilge_pumps_behind_the_house_switch_fail(variant: Variant) -> None:
    """On the switched bus, behind both contactors: the switch and the packs' trip darken them."""
    moved = ("  bilge 1:\n    from: always-on bus\n", "  bilge 1:\n    from: main bus\n")
    found = judged(variant(TENDER, moved, NO_CONVERTER), "critical-supply")
    assert found["bilge pump 1"].verdict == "fail"
    assert found["bilge pump 1"].reason == (
        "dark when main fuse opens, when house switch is opened, when port pack + starboard pack "
        "trip together"
    )
    # The other one is always on, and yet behind the packs' contactors.
    assert found["bilge pump 2"].verdict == "fail"
    assert "house switch" not in found["bilge pump 2"].reason


def test_f13_a_fused_circuit_of_its_own_from_the_start_battery_cures_it(variant: Variant) -> None:
    moved = ("  bilge 1:\n    from: always-on bus\n", "  bilge 1:\n    from: start battery\n")
    found = judged(variant(TENDER, moved), "critical-supply")["bilge pump 1"]
    assert (found.verdict, found.reason) == (
        "note", "bilge 1 fuse: of its own branch, which is exempt",
    )  # fmt: skip


def test_f13_dark_in_two_of_five_modes(variant: Variant) -> None:
    """On the switched bus without the DC-DC: dark with both packs tripped; with the switch open."""
    moved = ("  bilge 1:\n    from: always-on bus\n", "  bilge 1:\n    from: main bus\n")
    idle = "draw: {inverter: 0 %, crane winch: 0 %, wash pump: 0 %}"
    tripped = (f"    without: [shore charger]\n    {idle}", "    without: [shore charger, dc-dc]")
    mode = "  service: {open: [house switch], without: [dc-dc, shore charger]}\n"
    service = ("conditions:\n", f"conditions:\n{mode}")
    path = variant(TENDER, moved, tripped, service)
    request = Request(str(path))
    dark = [
        name
        for name, study in studies_of(request, *prepare(request)).items()
        if "bilge pump 1" in study.before_any_event.dark
    ]
    assert dark == ["service", "both packs tripped"]
