"""Parts for generated systems: invented in-file ones, or generic ones by their id."""

from __future__ import annotations

from random import Random
from typing import Any

Dict = dict[str, Any]

AREAS = (1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120)
GAUGES = ("16", "14", "12", "10", "8", "6", "4", "2", "1", "1/0", "2/0", "4/0")
RATINGS = (5, 10, 15, 20, 30, 40, 60, 80, 100, 125, 150, 200, 250, 300, 400)
#: Volts of a side to generic batteries of it.
GENERIC_BATTERIES = {
    12: ("battery-agm-12v-100", "battery-lfp-12v-100", "battery-lfp-12v-280"),
    24: ("battery-lfp-24v-100", "battery-lfp-24v-230"),
    48: ("battery-lfp-48v-100", "battery-lfp-48v-280"),
}
GENERIC_FUSES = {
    10: "fuse-blade-c-10", 20: "fuse-t-20-dc", 30: "fuse-blade-c-30", 60: "fuse-t-60-dc",
    100: "fuse-t-100-dc", 125: "fuse-gg-125-dc", 150: "fuse-rk5-150-dc", 200: "fuse-t-200-dc",
    250: "fuse-gg-250-dc", 300: "fuse-t-300-dc", 400: "fuse-t-400-dc",
}  # fmt: skip
GENERIC_BREAKERS = {
    10: "breaker-c-dc-polarised-10", 15: "breaker-thermal-15", 60: "breaker-ul489-60",
    100: "breaker-mccb-100", 20: "breaker-b-dc-20",
}  # fmt: skip


class Parts:
    """Makes parts and remembers them by id."""

    def __init__(self, dice: Random, gaps: bool) -> None:
        self.dice, self.gaps = dice, gaps
        self.made: Dict = {}

    def _keep(self, kind: str, fields: Dict) -> str:
        name = f"own-{kind}-{len(self.made) + 1}"
        kept = {key: value for key, value in fields.items() if not self._left_out(key)}
        self.made[name] = {"kind": kind, **kept, "status": "reviewed"}
        return name

    def _left_out(self, field: str) -> bool:
        """In a system with gaps, any rating may not be stated."""
        always = ("area", "awg", "emf", "nominal_voltage", "poles", "fails_shorted")
        return self.gaps and field not in always and self.dice.random() < 0.03

    def battery(self, volts: int) -> str:
        """A battery: own band, one resistance, a declared current, or generic."""
        roll = self.dice.random()
        if roll < 0.25:
            return self.dice.choice(GENERIC_BATTERIES[volts])
        low = self.dice.choice((0.8, 1.2, 2.5, 4.0)) * volts / 12
        fields: Dict = {
            "chemistry": "lfp",
            "nominal_voltage": f"{volts * 1.0667:.1f} V",
            "capacity": "200 Ah",
            "emf": {"min": f"{volts * 1.04:.2f} V", "max": f"{volts * self._of(1.1, 1.13):.2f} V"},
            "charge_voltage": f"{volts * self._of(1.18, 1.2, 1.217):.1f} V",
        }
        if roll < 0.5:
            fields["resistance"] = f"{low:g} mΩ"
        else:
            fields["resistance"] = {"min": f"{low:g} mΩ", "max": f"{low * self._of(1, 2, 3):g} mΩ"}
        if roll > 0.8:
            fields["short_circuit_current"] = f"{volts * self._of(0.5, 1.0, 1.6) / low:.2f} kA"
            if roll > 0.95 and self.gaps:
                del fields["resistance"]
        fields["discharge"] = {"continuous": f"{self._of(100, 200, 500)} A"}
        return self._keep("battery", fields)

    def busbar(self) -> str:
        """A bar."""
        if self.dice.random() < 0.3:
            return self._of("bar-20x5", "bar-30x10")
        return self._keep("busbar", {"rated_current": f"{self._of(100, 250, 600)} A",
                                     "voltage": f"{self._of(32, 60)} V"})  # fmt: skip

    def switch(self) -> str:
        """A switch."""
        if self.gaps and self.dice.random() < 0.15:
            return self._of("switch-600", "contactor-dc1-100", "switch-32v-150")
        return self._keep("disconnect", {"rated_current": f"{self._of(100, 200, 400)} A",
                                         "voltage": f"{self._of(24, 32, 60)} V",
                                         "resistance": self.small_band()})  # fmt: skip

    def channel(self, rating: float) -> str:
        """A transistor's output."""
        fields: Dict = {
            "rated_current": f"{rating} A", "voltage": "60 V", "trip_current": f"{rating * 1.5} A",
            "resistance": {"min": "2 mΩ", "max": "5 mΩ"}, "derating": self._derating(),
            "interrupt_ratings": self._ratings(),
        }  # fmt: skip
        if self.dice.random() < 0.6:
            fields["fails_shorted"] = self.dice.random() < 0.5
        return self._keep("channel", fields)

    def small_band(self) -> Any:
        """A resistance below a milliohm, as a band or one figure."""
        low = self._of(0.02, 0.05, 0.1, 0.25)
        if self.dice.random() < 0.4:
            return f"{low * 1000:g} µΩ"
        return {"min": f"{low:g} mΩ", "max": f"{low * self._of(1, 2, 4):g} mΩ"}

    def cable(self, area: float) -> str:
        """About that many mm²: generic, by area and class, by gauge, or with its resistance."""
        roll = self.dice.random()
        heat = self._of(60, 70, 75, 90, 105, 125)
        if roll < 0.3:
            return f"cable-{area:g}mm2-{self._of(70, 90)}c"
        fields: Dict = {"insulation_temperature": f"{heat} °C",
                        "voltage": f"{self._of(60, 600)} V"}  # fmt: skip
        if roll < 0.5:
            fields["awg"] = GAUGES[AREAS.index(area)]
        else:
            fields["area"] = f"{area:g} mm²"
        if roll > 0.85:
            low = 17.241 / area * self._of(0.97, 1.0, 1.02)
            fields["resistance_20c"] = {"min": f"{low:.4f} Ω/km", "max": f"{low * 1.05:.4f} mΩ/m"}
        elif self.dice.random() < 0.7:
            fields["stranding"] = self._of("class 2", "class 5", "class 5 tinned", "class k")
        if self.dice.random() < 0.4:
            fields["outside_diameter"] = f"{1.3 * area**0.5 + self._of(1.8, 2.6, 4.0):.2f} mm"
        if self.dice.random() < 0.3:
            fields["short_circuit_temperature"] = f"{max(heat + 20, self._of(150, 160, 250))} °C"
        return self._keep("cable", fields)

    def device(self, kind: str, rating: float) -> str:
        """A fuse or a breaker of a rating."""
        generic = GENERIC_FUSES if kind == "fuse" else GENERIC_BREAKERS
        if self.gaps and rating in generic and self.dice.random() < 0.25:
            return generic[int(rating)]
        low = self.dice.choice((10, 20, 40)) / rating
        fields: Dict = {
            "rated_current": f"{rating} A",
            "rated_voltage": f"{self._of(32, 60, 125)} V",
            "interrupt_ratings": self._ratings(),
            "resistance": {"min": f"{low:.4f} mΩ", "max": f"{low * self._of(1, 1.5):.4f} mΩ"},
        }
        if self.dice.random() < 0.6:
            fields["derating"] = self._derating()
        if self.dice.random() < 0.85:
            fields["curve"] = (_fuse if kind == "fuse" else _trip)(self.dice, rating)
        if kind == "fuse" and self.dice.random() < 0.3:
            melting = rating**2 * self._of(0.5, 2.0, 8.0)
            fields["melting_i2t"] = f"{melting:.0f} A²s"
            fields["clearing_i2t"] = f"{melting * self._of(1.5, 3.0):.0f} A²s"
        if kind == "breaker":
            fields |= {"poles": 1, "polarised": self.dice.random() < 0.3}
        return self._keep(kind, fields)

    def _ratings(self) -> list[Dict]:
        rows = [(14, 10), (16, 8), (32, 5), (58, 2)] if self.dice.random() < 0.4 else [
            (self._of(32, 60, 125), self._of(1, 3, 10, 20))]  # fmt: skip
        return [{"voltage": f"{volts} V", "current": f"{ka} kA"} for volts, ka in rows]

    def _derating(self) -> list[list[str]]:
        return [["20 °C", "100 %"], ["40 °C", f"{self._of(90, 95)} %"], ["60 °C", "80 %"]]

    def _of(self, *choices: Any) -> Any:
        return self.dice.choice(choices)


def _points(rating: float, rows: list[tuple[float, float]], slow: float) -> list[list[str]]:
    return [[f"{rating * times:.4g} A", f"{seconds * slow:.4g} s"] for times, seconds in rows]


def _fuse(dice: Random, rating: float) -> Dict:
    slow = dice.choice((0.2, 1.0, 4.0))
    wide = dice.choice((1.5, 3.0, 8.0))
    least = [(1.2, 900.0), (2.0, 20.0), (5.0, 0.4), (10.0, 0.05), (25.0, 0.004)]
    most = [(1.35 + 0.1 * wide, 900.0 * wide), (2.5, 20.0 * wide), (5.5, 0.4 * wide),
            (11.0, 0.05 * wide), (27.0, 0.004 * wide)]  # fmt: skip
    cut = dice.choice((5, 5, 4, 3))
    return {"min_melt": _points(rating, least[:cut], slow),
            "max_clear": _points(rating, most[:cut], slow)}  # fmt: skip


def _trip(dice: Random, rating: float) -> Dict:
    slow = dice.choice((0.3, 1.0, 3.0))
    least = [(1.05, 600.0), (2.0, 12.0), (4.9, 1.5), (5.0, 0.005)]
    most = [(1.35, 3000.0), (2.2, 60.0), (9.8, 4.0), (10.0, 0.02)]
    return {"min_trip": _points(rating, least, slow), "max_trip": _points(rating, most, slow)}
