"""A file with every feature becomes the model that it describes; figures by hand, in SI."""

from __future__ import annotations

from datetime import date
from math import pi

import pytest

from catalogue.records import Band, BreakingRating, CurrentFor, InterruptRating


@pytest.fixture(scope="module")
def system(good, system_of):
    return system_of(good)


def test_head(system):
    assert (system.name, system.file) == ("Every feature", "boat.yaml")
    assert system.nominal_voltage == 24.0
    assert (system.packs, system.ampacity_basis) == (("fundamentals", "yard"), "heat balance")
    assert system.written["nominal_voltage"] == "24 V"


def test_places(system):
    places = system.places
    assert [place.ambient for place in places.values()] == pytest.approx([35.0, 50.0, 30.0])
    assert [place.stated for place in places.values()] == [True, True, False]
    assert [place.engine_space for place in places.values()] == [False, True, False]
    assert places["engine space"].written == {"ambient": "122 °F"}
    assert [place.line for place in places.values()] == [7, 8, 9]


def test_battery(system):
    source = system.sources["port pack"]
    pack = source.part
    assert (source.line, source.place.name) == (53, "locker")
    assert (pack.id, pack.origin, pack.line) == ("pack-230", "file", 11)
    # 230 Ah × 3600 s/h
    assert (pack.capacity, pack.emf, pack.charge_voltage) == (828_000.0, Band(25.6, 27.2), 28.8)
    assert (pack.resistance.min, pack.resistance.max) == pytest.approx((0.0027, 0.0051))
    assert pack.discharge.continuous == 200.0
    assert pack.discharge.peak == CurrentFor(400.0, 10.0)
    assert (pack.cells, pack.chemistry) == (8, "lfp")
    assert pack.written["resistance.min"] == "2.7 mΩ"
    assert pack.written["discharge.peak.time"] == "10 s"
    assert pack.document is None
    assert pack.short_circuit_current is None


def test_one_resistance_of_a_battery_becomes_a_marked_band(system):
    pack = system.sources["starboard pack"].part
    # 3.2 mΩ − 15 % = 2.72 mΩ; + 60 % = 5.12 mΩ
    assert (pack.resistance.min, pack.resistance.max) == pytest.approx((2.72e-3, 5.12e-3))
    assert pack.written["resistance"] == "3.2 mΩ"
    assert pack.written["resistance.assumed"] == "-15 % / +60 %"
    assert "resistance.min" not in pack.written


def test_a_declared_short_circuit_current_stays_as_declared(good, system_of):
    text = good.replace("part: pack-one-value", "part: pack-declared")
    pack = system_of(text).sources["starboard pack"].part
    assert (pack.short_circuit_current, pack.resistance) == (8500.0, None)


def test_current_limited_source(system):
    source = system.sources["alternator"]
    assert (source.part, source.current_limited, source.voltage) == (None, 80.0, 28.2)
    assert source.place.name == "engine space"


def test_fuse_with_everything(system):
    fuse = system.circuits["port feed"].elements[0].part
    assert (fuse.rated_current, fuse.rated_voltage) == (300.0, 125.0)
    assert fuse.interrupt_ratings == (
        InterruptRating(32.0, 30_000.0),
        InterruptRating(125.0, 20_000.0),
    )
    assert fuse.curve.fastest == ((600.0, 1.0), (3000.0, 0.01))
    assert fuse.curve.slowest == ((600.0, 10.0), (3000.0, 0.03))
    assert (fuse.melting_i2t, fuse.clearing_i2t) == pytest.approx((90e6, 270e3))
    assert fuse.resistance == Band(0.2e-3, 0.2e-3)
    assert fuse.derating == ((25.0, 1.0), (60.0, 0.9))
    assert (fuse.page, fuse.reviewed, fuse.status) == ("12", "2026-03-01", "reviewed")
    assert fuse.written["interrupt_ratings.1.current"] == "20 kA"
    assert fuse.written["curve.min_melt.1.time"] == "10 ms"
    assert fuse.written["derating.1.factor"] == "0.9"


def test_other_parts(system):
    elements = {element.name: element for element in system.elements()}
    breaker = elements["inverter feed/1"].part
    assert (breaker.poles, breaker.polarised, breaker.trip_free) == (2, False, True)
    assert breaker.curve.slowest == ((90.0, 100.0),)
    switch = elements["port isolator"].part
    assert switch.intermittent == (CurrentFor(600.0, 300.0),)
    assert switch.breaking == BreakingRating(300.0, 48.0)
    assert switch.withstand == CurrentFor(10_000.0, 1.0)
    assert switch.resistance == Band(0.0, 0.25e-3)
    assert switch.remote is True
    channel = elements["pump feed/1"].part
    assert (channel.trip_current, channel.fails_shorted) == (15.0, False)
    bar = system.busbars["main bus"].part
    assert (bar.width, bar.thickness, bar.short_time) == (0.03, 0.005, CurrentFor(20_000.0, 1.0))


def test_the_area_follows_from_the_gauge(system):
    cable = system.circuits["port feed"].elements[1].part
    # 4/0 AWG is 0.46 in across by definition of the gauge: π/4 × (0.46 × 25.4 mm)² = 107.2 mm²
    assert cable.area == pytest.approx(pi / 4 * (0.46 * 0.0254) ** 2, rel=1e-6)
    assert (cable.awg, cable.written["awg"]) == ("4/0", "4/0")
    stated = system.circuits["port feed"].elements[4].part
    assert stated.area == pytest.approx(33.6e-6)


def test_elements_lie_between_junctions(system):
    circuit = system.circuits["port feed"]
    assert [element.name for element in circuit.elements] == [
        "port feed/1", "port feed/2", "port isolator", "port feed/4", "port feed/5",
    ]
    assert [element.start for element in circuit.elements] == [
        "port pack", "port feed@1", "port feed@2", "port feed@3", "port feed@4",
    ]
    assert [element.end for element in circuit.elements] == [
        "port feed@1", "port feed@2", "port feed@3", "port feed@4", "main bus",
    ]
    assert (circuit.start, circuit.end) == ("port pack", "main bus")
    assert [element.line for element in circuit.elements] == [78, 79, 80, 81, 82]
    assert system.circuits["pump feed"].start == "inverter feed@2"


def test_fields_of_elements(system):
    fuse, cable, switch, joint, thin = system.circuits["port feed"].elements
    assert (fuse.distance, fuse.sheathed, fuse.written["distance"]) == (0.12, False, "120 mm")
    assert (cable.length, cable.bundle, cable.runs, cable.spacing) == (0.6, 2, 2, 0.025)
    assert cable.sheathed is True
    assert (switch.operated_by, switch.normally_open) == ("port pack", False)
    assert (joint.resistance_min, joint.resistance_max) == (0.1e-3, 0.1e-3)
    assert joint.written["resistance.max"] == "0.1 mΩ"
    assert thin.length == pytest.approx(0.9144)
    assert (thin.bundle, thin.runs, thin.spacing, thin.sheathed) == (1, 1, None, None)
    assert system.circuits["cranking"].elements[0].normally_open is True
    assert system.circuits["inverter feed"].elements[0].plus_towards == "start"
    lug = system.circuits["inverter feed"].elements[1]
    assert (lug.name, lug.resistance_min, lug.resistance_max) == ("lug", 0.0, 0.001)


def test_places_of_elements(system):
    assert [element.place.name for element in system.circuits["port feed"].elements] == [
        "locker", "locker", "cabin", "locker", "locker",
    ]
    place = system.circuits["charge"].elements[0].place
    assert (place.ambient, place.stated) == (30.0, False)


def test_return_paths(system):
    elements = {element.name: element for element in system.elements()}
    assert elements["port feed/2"].return_path.kind == "mirror"
    own = elements["port feed/5"].return_path
    assert (own.kind, own.part.id, own.length, own.runs) == ("cable", "cable-own", 2.0, 3)
    as_long = elements["inverter feed/3"].return_path
    assert (as_long.kind, as_long.part.id, as_long.length) == ("cable", "cable-both", 1.0)
    path = elements["starboard feed/2"].return_path
    assert (path.kind, path.resistance, path.written) == ("path", 0.0015, {"resistance": "1.5 mΩ"})
    assert elements["pump feed/2"].return_path.kind == "none"


def test_equipment_and_converters(system):
    inverter = system.equipment["inverter"]
    assert (inverter.power, inverter.efficiency, inverter.min_voltage) == (3000.0, 0.9, 22.0)
    assert inverter.surge == CurrentFor(325.0, 2.0)
    assert (inverter.capacitance, inverter.current, inverter.critical) == (0.02, None, None)
    pump, starter = system.equipment["wash pump"], system.equipment["starter"]
    assert inverter.inrush_resistance == pytest.approx(0.012)
    assert inverter.written["inrush.resistance"] == "12 mΩ"
    assert (pump.current, pump.critical, pump.drop_limit) == (35.0, False, pytest.approx(0.1))
    assert (pump.start, pump.stall) == (CurrentFor(180.0, 0.3), CurrentFor(200.0, 5.0))
    assert (pump.duty, inverter.duty, inverter.start) == (pytest.approx(0.25), None, None)
    assert (starter.current, starter.cranking) == (0.0, True)
    charger = system.converters["dc charger"]
    assert (charger.output_current, charger.output_voltage) == (40.0, 28.4)
    assert (charger.efficiency, charger.min_input_voltage, charger.isolated) == (0.92, 11.0, True)
    assert charger.runs_without_battery is False


def test_busbars(system):
    bar = system.busbars["main bus"]
    assert bar.order == ("port feed", "starboard feed", "inverter feed", "charge", "dc feed")
    assert system.busbars["dc bus"].part.origin == "generic"
    assert system.busbars["dc bus"].order == ()


def test_conditions(system):
    assert list(system.conditions) == ["normal", "engine running", "emergency", "quiet"]
    assert system.conditions["normal"].line == 0
    assert system.conditions["engine running"].draw == {"inverter": 0.0, "dc charger": 0.5}
    emergency = system.conditions["emergency"]
    assert emergency.close == ("parallel switch",)
    assert emergency.open == ("port isolator", "port feed/1")
    assert emergency.without == ("alternator", "dc charger")


def test_normal_may_be_stated(good, system_of):
    text = good.replace("  quiet:\n", "  normal: {open: [port isolator]}\n")
    conditions = system_of(text).conditions
    assert list(conditions) == ["normal", "engine running", "emergency"]
    assert conditions["normal"].open == ("port isolator",)


def test_waivers(system):
    (waiver,) = system.waivers
    assert (waiver.rule, waiver.subject) == ("fundamentals/selectivity", "port feed/1")
    assert (waiver.reason, waiver.by) == ("owner accepts: all goes dark", "yard foreman")
    assert (waiver.date, waiver.line) == (date(2026, 3, 2), 110)


def test_a_part_of_the_file_shadows_the_catalogue(good, system_of):
    text = good.replace("parts:\n", "parts:\n  fuse-t-300: {kind: fuse, rated_current: 300 A}\n", 1)
    fuse = system_of(text).circuits["starboard feed"].elements[0].part
    assert (fuse.origin, fuse.rated_current) == ("file", 300.0)


@pytest.mark.parametrize("change", ["\r\n", "\ufeff", "---"])
def test_line_ends_byte_order_mark_and_start_mark_do_not_matter(change, good, system_of, system):
    text = {
        "\r\n": good.replace("\n", "\r\n"), "\ufeff": "\ufeff" + good, "---": "---\n" + good,
    }[change]
    assert [e.name for e in system_of(text).elements()] == [e.name for e in system.elements()]
    assert system_of(text).elements()[1].length == 0.6
