"""Makes invented systems from a seed: radial, looped, parallel strings, islands, conditions.

    python -m tests.oracle.generate SEED      prints the system file

Plain dictionaries with quantities as text, as an electrician would write them. Knows nothing of the
engine. About half of the systems state every resistance; the others leave some out, and use generic
parts, which state few.
"""

from __future__ import annotations

import sys
from random import Random
from typing import Any

import yaml

from tests.oracle.invented import AREAS, GAUGES, RATINGS, Parts

Dict = dict[str, Any]


def make(seed: int, *, small: bool = False) -> Dict:
    """One system; the same seed gives the same system. Small: fewer buses and loads."""
    return _Maker(seed, small).system()


def text_of(system: Dict) -> str:
    """The system file."""
    return yaml.safe_dump(system, sort_keys=False, allow_unicode=True, width=1000)


class _Maker:
    def __init__(self, seed: int, small: bool) -> None:
        self.seed, self.small = seed, small
        self.dice = Random(seed)
        self.gaps = self.dice.random() < 0.35
        self.parts = Parts(self.dice, self.gaps)
        self.places = {
            f"place {n}": {"ambient": f"{self.dice.choice((15, 20, 25, 30, 35, 40, 50, 60))} °C"}
            for n in range(1, 4)
        }
        self.sources: Dict = {}
        self.busbars: Dict = {}
        self.equipment: Dict = {}
        self.converters: Dict = {}
        self.circuits: Dict = {}
        self.switches: list[str] = []
        self.links: list[str] = []
        self.volts: dict[str, int] = {}

    def system(self) -> Dict:
        """Everything in its section."""
        volts = self.dice.choice((12, 24, 24, 48))
        self._bank("house", volts, self.dice.choice((1, 1, 2, 2, 3, 4)))
        self._spread("house", volts)
        if self.dice.random() < 0.5:
            self._second(volts)
        if self.dice.random() < 0.25:
            self._fed_by_converter("house")
        self._rings()
        made = {
            "system": f"invented {self.seed}",
            "nominal_voltage": f"{volts} V",
            "places": self.places,
            "parts": self.parts.made,
            "sources": self.sources,
            "busbars": self.busbars,
            "equipment": self.equipment,
            "converters": self.converters,
            "circuits": self.circuits,
            "conditions": self._conditions(),
        }
        return {key: value for key, value in made.items() if value}

    def _bank(self, side: str, volts: int, strings: int) -> None:
        bus = self._bus(side, volts)
        alike = self.parts.battery(volts)
        mixed = self.dice.random() < 0.3
        for number in range(1, strings + 1):
            name = f"{side} battery {number}"
            self.sources[name] = {"part": self.parts.battery(volts) if mixed else alike,
                                  "place": self._place()}  # fmt: skip
            ampere = self.dice.choice((100, 150, 200, 300, 400))
            self._circuit(f"{side} string {number}", name, bus, self._line(ampere, source=True))

    def _bus(self, side: str, volts: int) -> str:
        name = f"{side} bus {sum(bar.startswith(side) for bar in self.busbars) + 1}"
        self.busbars[name] = {"part": self.parts.busbar(), "place": self._place()}
        self.volts[name] = volts
        return name

    def _spread(self, side: str, volts: int) -> None:
        """Buses behind buses, loads on all of them, perhaps a charger."""
        buses = [name for name in self.busbars if name.startswith(side)]
        for _ in range(self.dice.choice((0, 1, 1) if self.small else (0, 1, 1, 2, 3))):
            new = self._bus(side, volts)
            line = self._line(self.dice.choice((60, 100, 150, 200)))
            self._circuit(f"feed of {new}", self.dice.choice(buses), new, line)
            buses.append(new)
        for _ in range(self.dice.randint(1, 2 if self.small else 6)):
            self._load(side, self.dice.choice(buses), volts)
        for number in range(self.dice.choice((0, 0, 1, 1, 2))):
            name = f"{side} charger {number + 1}"
            self._limited(name, volts)
            self._circuit(f"{name} lead", name, self.dice.choice(buses), self._line(100))

    def _limited(self, name: str, volts: int) -> None:
        self.sources[name] = {
            "current_limited": f"{self.dice.choice((10, 30, 50, 80, 150))} A",
            "voltage": f"{volts * self.dice.choice((1.15, 1.18, 1.2)):.1f} V",
            "place": self._place(),
        }

    def _load(self, side: str, bus: str, volts: int) -> None:
        name = f"{side} load {len(self.equipment) + 1}"
        ampere = self.dice.choice((2, 5, 10, 15, 25, 40, 60, 100))
        entry: Dict = {"place": self._place()}
        if self.dice.random() < 0.3:
            entry |= {"power": f"{ampere * volts} W", "min_voltage": f"{0.9 * volts:.1f} V",
                      "efficiency": f"{self.dice.choice((80, 88, 92, 100))} %"}  # fmt: skip
        else:
            entry["current"] = f"{ampere} A"
        self.equipment[name] = entry
        rating = min(RATINGS, key=lambda size: abs(size - ampere * self.dice.choice((1, 1.3, 2))))
        self._circuit(f"{name} feed", bus, name, self._line(rating))

    def _second(self, house: int) -> None:
        """A start side of its own voltage, with a converter or an open link to the house side."""
        volts = self.dice.choice((12, 24, house, house))
        self._bank("start", volts, self.dice.choice((1, 1, 2)))
        bus = "start bus 1"
        self._limited("alternator", volts)
        self._circuit("alternator lead", "alternator", bus, self._line(150))
        self.equipment["starter"] = {"current": f"{self.dice.choice((0, 200, 300))} A",
                                     "cranking": True, "place": self._place()}  # fmt: skip
        line = [self._cable(300)] if self.dice.random() < 0.7 else self._line(300)
        self._circuit("starter lead", bus, "starter", line)
        if self.dice.random() < 0.6:
            self._converter("dc-dc", house, volts)
            self._circuit("dc-dc input", bus, "dc-dc.input", self._line(60))
            self._circuit("dc-dc output", "dc-dc.output", "house bus 1", self._line(60))
        if volts == house or self.dice.random() < 0.15:
            line = [self._switch(is_open=True), *self._line(200)]
            self._circuit("emergency link", bus, "house bus 1", line)
            self.links.append(line[0]["name"])

    def _fed_by_converter(self, side: str) -> None:
        """A bus that only a converter feeds."""
        bus = self._bus("radio", 12)
        self._converter("radio supply", 12, self.volts[f"{side} bus 1"])
        self._circuit("radio input", f"{side} bus 1", "radio supply.input", self._line(30))
        self._circuit("radio output", "radio supply.output", bus, self._line(30))
        for _ in range(self.dice.randint(1, 2)):
            self._load("radio", bus, 12)

    def _converter(self, name: str, out: int, into: int) -> None:
        self.converters[name] = {
            "output_current": f"{self.dice.choice((20, 30, 40, 200))} A",
            "output_voltage": f"{out * 1.18:.1f} V",
            "efficiency": f"{self.dice.choice((85, 92))} %",
            "min_input_voltage": f"{0.92 * into:.1f} V",
            "isolated": self.dice.random() < 0.5,
            "place": self._place(),
        }

    def _rings(self) -> None:
        """Second ways between buses of one voltage, and to a load."""
        for number in range(self.dice.choice((0, 0, 0, 1, 1, 2))):
            one = self.dice.choice(list(self.busbars))
            others = [b for b, v in self.volts.items() if b != one and v == self.volts[one]
                      and b.split()[0] == one.split()[0]]  # fmt: skip
            loads = [each for each in self.equipment if each.split()[0] == one.split()[0]]
            far = self.dice.choice(others or loads or [one])
            if far != one:
                line = self._line(self.dice.choice((60, 100)))
                self._circuit(f"ring {number + 1}", one, far, line)

    def _line(self, ampere: float, *, source: bool = False) -> list[Dict]:
        """A chain of elements for about so many amperes."""
        rating = min(RATINGS, key=lambda size: abs(size - ampere))
        line = [self._cable(rating)]
        if self.dice.random() < 0.9:
            device = self._device(rating)
            if source:
                device["distance"] = f"{self.dice.choice((50, 120, 170))} mm"
            line.insert(self.dice.choice((0, 0, 0, 1)), device)
        if self.dice.random() < 0.2:
            line.append(self._cable(rating))
        if self.dice.random() < 0.15:
            line.append(self._device(rating))
        if self.dice.random() < 0.3:
            line.insert(self.dice.randint(0, len(line)), self._switch())
        if self.dice.random() < 0.2:
            line.insert(self.dice.randint(0, len(line)), {"joint": self.parts.small_band()})
        if rating <= 30 and self.dice.random() < 0.15:
            line.insert(self.dice.randint(0, len(line)), {"channel": self.parts.channel(rating)})
        return line

    def _device(self, rating: float) -> Dict:
        kind = "fuse" if self.dice.random() < 0.75 else "breaker"
        return {kind: self.parts.device(kind, rating)}

    def _switch(self, is_open: bool = False) -> Dict:
        name = f"switch {len(self.switches) + 1}"
        self.switches.append(name)
        entry: Dict = {"disconnect": self.parts.switch(), "name": name}
        if is_open or self.dice.random() < 0.1:
            entry["normally"] = "open"
            self.links.append(name)
        return entry

    def _cable(self, ampere: float) -> Dict:
        area = min(AREAS, key=lambda size: abs(size - ampere * self.dice.choice((0.2, 0.3, 0.5))))
        entry: Dict = {"cable": self.parts.cable(area), "length": self._length()}
        if self.dice.random() < 0.15:
            entry["runs"] = self.dice.choice((2, 3))
        if self.dice.random() < 0.2:
            entry["bundle"] = self.dice.choice((2, 3, 6))
        if self.dice.random() < 0.2:
            entry["sheathed"] = self.dice.random() < 0.5
        if self.dice.random() < 0.15:
            entry["spacing"] = f"{self.dice.choice((40, 60, 100))} mm"
        roll = self.dice.random()
        if roll < 0.12:
            back: Dict = {"cable": self.parts.cable(self.dice.choice(AREAS))}
            if self.dice.random() < 0.6:
                back["length"] = self._length()
            if self.dice.random() < 0.4:
                back["runs"] = 2
            entry["return"] = back
        elif roll < 0.2:
            entry["return"] = {"resistance": f"{self.dice.choice((0.2, 0.5, 1.5))} mΩ"}
        elif roll < 0.23 and self.gaps:
            entry["return"] = "none"
        return entry

    def _length(self) -> str:
        metres = self.dice.choice((0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.5, 5.0, 8.0))
        unit = self.dice.random()
        if unit < 0.15:
            return f"{metres * 1000:.0f} mm"
        return f"{metres / 0.3048:.2f} ft" if unit < 0.3 else f"{metres} m"

    def _circuit(self, name: str, start: str, end: str, line: list[Dict]) -> None:
        if self.dice.random() < 0.12 and not any("distance" in each for each in line):
            start, end = end, start
            line = line[::-1]
        self.circuits[name] = {"from": start, "to": end, "place": self._place(), "parts": line}

    def _place(self) -> str:
        return self.dice.choice(list(self.places))

    def _conditions(self) -> Dict:
        made: Dict = {}
        if self.links:
            made["links closed"] = {"close": list(dict.fromkeys(self.links))}
        out = [n for n in (*self.sources, *self.converters) if self.dice.random() < 0.25]
        if out and self.dice.random() < 0.6:
            made["some out"] = {"without": out}
        opened = [name for name in self.switches if self.dice.random() < 0.3]
        if opened and self.dice.random() < 0.6:
            made["some open"] = {"open": opened}
        loads = {n: f"{self.dice.choice((0, 25, 50, 75))} %"
                 for n in self.equipment if self.dice.random() < 0.5}  # fmt: skip
        if loads and self.dice.random() < 0.4:
            made["other draw"] = {"draw": loads}
        return made


if __name__ == "__main__":
    sys.stdout.write(text_of(make(int(sys.argv[1]))))

__all__ = ["GAUGES", "make", "text_of"]
