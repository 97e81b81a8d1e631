"""Every value of every accessor: clear answers, no infinity, no crash."""

from __future__ import annotations

import math

from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Value
from tests.coordination.study.hand_made import (
    Builder,
    battery,
)


def everything(found: Study) -> list[Value]:
    """Every value of every accessor; raises if one of them is not finite."""
    values: list[Value] = []
    for element in found.subjects("element"):
        values += [
            found.duty(element),
            found.load(element),
            found.fault_min_through(element),
            found.voltage_max(element),
        ]
        found.crossings(element)
        for end in ("start", "end"):
            values.append(found.protectors(element, end).stub)
        for leg in found.legs(element):
            values += [found.ampacity(element, leg), found.conductor_temperature(element, leg)]
    for point in found.network.points:
        values += [
            found.fault_max(point),
            found.fault_min(point),
            found.time_constant(point),
            found.load_voltage(point),
            found.voltage_max(point),
            found.island_nominal(point),
        ]
    for busbar in found.subjects("busbar"):
        values += [found.section_load(busbar), found.incoming(busbar), found.outgoing(busbar)]
        values.append(found.protectors(busbar).stub)
        found.branch_devices(busbar)
    values += [found.battery_current(source) for source in found.subjects("source")]
    values += [found.drop(each) for each in found.subjects("equipment")]
    values += [found.drop(each) for each in found.subjects("converter")]
    for value in values:
        if isinstance(value, Derived):
            assert math.isfinite(value.value), value
            assert list(value.steps())
        else:
            assert value.missing, value
    return values


def studied(builder: Builder, condition: str = "normal") -> Study:
    found = study(connect(builder.system(), condition))
    everything(found)
    return found


def number(value: Value) -> float:
    assert isinstance(value, Derived), value
    return value.value


PACK = battery("pack", (25.6, 27.2), (3e-3, 5e-3), nominal_voltage=25.6)
