"""Failure cases and traps of the trade that conductors, switches and batteries decide.

Every system is invented; every expected figure is worked out by hand in the test that holds it.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from coordination.rules.finding import Finding
from coordination.testing.run import findings_of
from coordination.trace import Derived

DEMOS = Path(__file__).parents[2] / "fixtures" / "systems"

CABLE = """{{kind: cable, area: {0} mm², stranding: class 5, insulation_temperature: {1} °C,
    outside_diameter: {2} mm, resistance_20c: {{min: {3} mΩ/m, max: {3} mΩ/m}}}}"""
FUSE = "{{kind: fuse, rated_current: {0} A, resistance: {{min: 0 mΩ, max: 0 mΩ}}}}"

PARTS = f"""
parts:
  cable-16: {CABLE.format(16, 105, 7.1, 1.21)}
  cable-50: {CABLE.format(50, 105, 11.4, 0.386)}
  cable-70: {CABLE.format(70, 105, 13.5, 0.272)}
  cable-95: {CABLE.format(95, 105, 15.2, 0.206)}
  fuse-125: {FUSE.format(125)}
  fuse-150: {FUSE.format(150)}
  fuse-200: {FUSE.format(200)}
  fuse-250: {FUSE.format(250)}
  fuse-300: {FUSE.format(300)}
  pack: {{kind: battery, emf: {{min: 12.8 V, max: 13.6 V}}, charge_voltage: 14.4 V,
    resistance: {{min: 2 mΩ, max: 2 mΩ}}, discharge: {{continuous: 125 A}}}}
  stiff: {{kind: battery, emf: {{min: 12.8 V, max: 13.6 V}}, charge_voltage: 14.4 V,
    resistance: {{min: 1 mΩ, max: 1 mΩ}}, discharge: {{continuous: 125 A}}}}
"""


def judged(text: str, rule: str) -> Mapping[str, Finding]:
    """The rule's findings by subject."""
    answer = findings_of(text, packs=("fundamentals",), only=(f"fundamentals/{rule}",))
    assert not [problem for problem in answer.problems if problem.kind in ("rule", "pack")]
    return {finding.subject: finding for finding in answer.findings}


def demo(name: str, rule: str) -> Mapping[str, Finding]:
    return judged((DEMOS / name).read_text("utf-8"), rule)


def found(finding: Finding) -> float:
    assert isinstance(finding.found, Derived)
    return finding.found.value


def inverter(fuse: str, cable: str, back: str = "") -> str:
    """12 V, 2000 W at 88 % down to 11.0 V: 2000 / 0.88 / 11.0 = 206.6 A."""
    return f"""
system: inverter
nominal_voltage: 12 V
sources: {{bank: {{part: pack}}}}
equipment:
  inverter: {{power: 2000 W, efficiency: 88 %, min_voltage: 11.0 V, critical: no}}
circuits:
  feed:
    from: bank
    to: inverter
    parts: [{{fuse: {fuse}, name: fuse}}, {{cable: {cable}, length: 1.5 m, name: lead{back}}}]
{PARTS}"""


def test_f7_thin_negative_beside_a_thick_positive() -> None:
    """16 mm² bear 125 A (balance in cases/cable-overload.yaml) behind a 250 A fuse, at 207 A."""
    text = inverter("fuse-250", "cable-70", ", return: {cable: cable-16, length: 1.5 m}")
    lead = judged(text, "return-conductor")["lead"]
    assert (lead.verdict, lead.severity) == ("fail", "fire")
    assert found(lead) == 250
    assert isinstance(lead.required, Derived)
    assert lead.required.value == pytest.approx(125.4, abs=0.05)
    assert judged(text, "cable-overload")["lead"].verdict == "pass"


def test_f7_equal_legs_cure_it() -> None:
    assert judged(inverter("fuse-250", "cable-70"), "return-conductor")["lead"].verdict == "pass"


def test_f10_current_counts_at_the_lowest_voltage() -> None:
    """2000 W / 0.88 is 178 A at 12.8 V, yet 206.6 A at 11.0 V: a 200 A fuse is too small."""
    fuse = judged(inverter("fuse-200", "cable-95"), "device-load")["fuse"]
    assert fuse.verdict == "fail"
    assert found(fuse) == pytest.approx(206.6, abs=0.05)


@pytest.mark.parametrize(("cable", "verdict"), [("cable-50", "fail"), ("cable-95", "pass")])
def test_f10_the_larger_fuse_needs_the_larger_cable(cable: str, verdict: str) -> None:
    """A 300 A fuse is too large for 50 mm² (published in free air: 242 A at 90 °C) but not for 95.

    Source: IEC 60364-5-52, Table B.52.12, method F: 242 A and 377 A, read in a secondary copy.
    """
    assert judged(inverter("fuse-300", cable), "cable-overload")["lead"].verdict == verdict


def three_packs(part: str, circuits: str) -> str:
    return f"""
system: three packs
nominal_voltage: 12 V
sources: {{one: {{part: {part}}}, two: {{part: {part}}}, three: {{part: {part}}}}}
busbars: {{bar: {{part: bar}}}}
equipment: {{machine: {{current: 300 A, critical: no}}}}
circuits:
{circuits}
  load: {{from: bar, to: machine, parts: [{{fuse: fuse-300}}, {{cable: cable-95, length: 1 m}}]}}
{PARTS}
  bar: {{kind: busbar, rated_current: 1000 A}}
"""


def lead(number: str, metres: float, to: str = "bar") -> str:
    parts = f"[{{fuse: fuse-125, name: fuse {number}}}, {{cable: cable-70, length: {metres} m}}]"
    return f"  lead {number}: {{from: {number}, to: {to}, parts: {parts}}}"


def test_f15_longer_leads_carry_less() -> None:
    """Loops of 0.6, 1.4 and 2.2 m of hot 70 mm² (0.3628 mΩ/m) beside 2 mΩ in each pack.

    2.2177, 2.5080 and 2.7983 mΩ share 300 A as 1 / R: 112.1, 99.1 and 88.8 A.
    """
    circuits = "\n".join([lead("one", 0.3), lead("two", 0.7), lead("three", 1.1)])
    packs = judged(three_packs("pack", circuits), "battery-discharge")
    currents = [found(packs[name]) for name in ("one", "two", "three")]
    assert currents == pytest.approx([112.1, 99.1, 88.8], abs=0.05)
    assert {finding.verdict for finding in packs.values()} == {"pass"}


def test_f15_stiff_packs_in_a_daisy_chain_overload_the_first() -> None:
    """1 mΩ in each pack, links of 0.455 m of hot 70 mm²: l = 0.3302 mΩ; pack one sits on the bar.

    I_2 = (1 + l) I_3 = 1.3302 I_3; I_1 = I_2 + l (I_2 + I_3) = 2.0996 I_3; the sum is 300 A:
    I_3 = 67.7, I_2 = 90.1, I_1 = 142.2 A against 125 A of the maker and of the fuse.
    """
    circuits = """
  lead one: {from: one, to: bar, parts: [{fuse: fuse-125, name: fuse one}]}
  lead two: {from: two, to: second, parts: [{fuse: fuse-125, name: fuse two}]}
  lead three: {from: three, to: third, parts: [{fuse: fuse-125, name: fuse three}]}
  link one: {from: second, to: bar, parts: [{cable: cable-70, length: 0.455 m}]}
  link two: {from: third, to: second, parts: [{cable: cable-70, length: 0.455 m}]}
"""
    text = three_packs("stiff", circuits).replace(
        "busbars: {bar: {part: bar}}",
        "busbars: {bar: {part: bar}, second: {part: bar}, third: {part: bar}}",
    )
    packs = judged(text, "battery-discharge")
    currents = [found(packs[name]) for name in ("one", "two", "three")]
    assert currents == pytest.approx([142.2, 90.1, 67.7], abs=0.05)
    assert [packs[name].verdict for name in ("one", "two", "three")] == ["fail", "pass", "pass"]
    assert judged(text, "device-load")["fuse one"].verdict == "fail"


def test_p4_bundle_and_heat_derate_the_cable_not_the_fuse() -> None:
    """A 300 A fuse below 331 A of 70 mm² alone at 30 °C; three in a bundle bear 229.6 A.

    331.18 × 3^(-1/3) = 229.6 A; in 50 °C air one alone bears 274.1 A.
    """
    text = inverter("fuse-300", "cable-70")
    alone = judged(text, "cable-overload")["lead"]
    bundled = judged(text.replace("name: lead", "name: lead, bundle: 3"), "cable-overload")["lead"]
    hot = text.replace("name: lead", "name: lead, place: hot") + "places: {hot: {ambient: 50 °C}}\n"
    limits = [each.required for each in (alone, bundled, judged(hot, "cable-overload")["lead"])]
    values = [limit.value for limit in limits if isinstance(limit, Derived)]
    assert values == pytest.approx([331.2, 229.6, 274.1], abs=0.06)
    assert (alone.verdict, bundled.verdict) == ("pass", "fail")
    assert "1.45" in alone.card.why


STARTER = f"""
system: starter
nominal_voltage: 12 V
sources:
  start: {{part: pack}}
  house: {{part: pack}}
  charger: {{current_limited: 40 A, voltage: 14.4 V}}
busbars: {{bar: {{part: bar}}}}
equipment:
  starter: {{current: 0 A, surge: {{current: 350 A, time: 5 s}}, cranking: yes}}
  pump: {{current: 20 A, critical: no}}
circuits:
  starter lead:
    from: start
    to: starter
    parts: [{{cable: cable-70, name: starter cable, length: 1 m}}]
  charger lead:
    from: bar
    to: charger
    parts: [{{fuse: fuse-125}}, {{cable: cable-16, name: charger cable, length: 2 m}}]
  house lead:
    from: house
    to: bar
    parts: [{{fuse: fuse-200, distance: 50 mm}}, {{cable: cable-70, length: 1 m}}]
  pump lead: {{from: bar, to: pump, parts: [{{fuse: fuse-125}}, {{cable: cable-16, length: 2 m}}]}}
  link:
    from: start
    to: bar
    parts:
      - {{disconnect: switch, name: parallel switch, normally: open}}
      - {{cable: cable-70, name: link cable, length: 2 m}}
conditions: {{emergency: {{close: [parallel switch]}}}}
{PARTS}
  bar: {{kind: busbar, rated_current: 1000 A}}
  switch: {{kind: disconnect, rated_current: 300 A, resistance: {{min: 0 mΩ, max: 0 mΩ}}}}
"""


def test_p10_a_starter_cable_is_noted_not_failed() -> None:
    for rule in ("cable-overload", "return-conductor", "cable-ampacity"):
        cable = judged(STARTER, rule)["starter cable"]
        assert (rule, cable.verdict) == (rule, "note")
        assert "cranking" in cable.reason


def test_p10_a_charger_lead_fused_at_the_battery_side_passes() -> None:
    """125 A of fuse against 125.4 A of 16 mm² alone at 30 °C."""
    cable = judged(STARTER, "cable-overload")["charger cable"]
    assert (cable.verdict, found(cable)) == ("pass", 125)


def test_p10_the_parallel_link_is_judged_when_it_is_closed() -> None:
    """Its own exemption it has not: the start battery reaches it bare."""
    cable = judged(STARTER, "cable-overload")["link cable"]
    assert (cable.verdict, cable.condition) == ("fail", "emergency")
    assert "start" in cable.reason


def test_a4_inverter_return_of_the_tender() -> None:
    """250 A fuse over a 35 mm² return; 95 mm² there and back after the cure."""
    assert found(demo("tender-planted.yaml", "return-conductor")["inverter cable"]) == 250
    assert demo("tender-planted.yaml", "return-conductor")["inverter cable"].verdict == "fail"
    assert demo("tender-cured.yaml", "return-conductor")["inverter cable"].verdict == "pass"


def test_a7_module_outputs_of_the_tender() -> None:
    """A channel that may fail shorted leaves the 60 A feed fuse before 1.5 mm²."""
    wires = demo("tender-planted.yaml", "cable-overload")
    cured = demo("tender-cured.yaml", "cable-overload")
    for name in ("radar wire", "sounder wire", "lights wire"):
        assert (wires[name].verdict, found(wires[name])) == ("fail", 60)
        assert cured[name].verdict == "pass"


def test_a9_one_contactor_carries_the_tender() -> None:
    """151.5 + 35 + 12 + 22 = 220.5 A through a 200 A contactor with one pack out."""
    contactor = demo("tender-planted.yaml", "disconnect-rating")["starboard contactor"]
    assert (contactor.verdict, contactor.condition) == ("fail", "one pack out")
    assert found(contactor) == pytest.approx(220.5, abs=0.05)
    cured = demo("tender-cured.yaml", "disconnect-rating")
    assert cured["starboard contactor"].verdict == "pass"


def test_b2_inverter_fuse_of_the_van() -> None:
    """2000 W / 0.88 / 11.0 V = 206.6 A on a 200 A fuse."""
    fuse = demo("van-planted.yaml", "device-load")["inverter fuse"]
    assert fuse.verdict == "fail"
    assert found(fuse) == pytest.approx(206.6, abs=0.05)
    cured = demo("van-cured.yaml", "device-load")["inverter fuse"]
    assert cured.verdict == "pass"
    assert demo("van-cured.yaml", "cable-overload")["inverter cable"].verdict == "pass"
