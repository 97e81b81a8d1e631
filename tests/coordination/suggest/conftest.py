"""Small systems whose smallest cure is known by hand, and the demo systems with a yard's parts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
import yaml

from coordination.checking import Request, findings_of
from coordination.suggest import Answer, Bounds, suggest

FIXTURES = Path(__file__).parents[3] / "fixtures" / "systems"

#: Multiples of the rating and times of an invented fast fuse, as the demo sheets have them.
_MELTS = ((1.1, "4 h"), (1.35, "200 s"), (1.6, "30 s"), (2, "6 s"), (3, "600 ms"), (5, "70 ms"),
          (8, "14 ms"), (10, "4.5 ms"))  # fmt: skip
_CLEARS = ((1.35, "600 s"), (1.6, "90 s"), (2, "20 s"), (3, "2 s"), (5, "220 ms"), (8, "35 ms"),
           (12, "12 ms"))  # fmt: skip
_OF_ALL = "status: reviewed, reviewed: 2026-03-01, document: invented sheet, page: 1"


def fuse(rated: int, breaks: str = "20 kA", volts: int = 125, name: str = "") -> str:
    """A line of `parts:`, an invented fast fuse with a full sheet; its resistance is 40 mV / I."""
    melts = ", ".join(f"[{each * rated:g} A, {time}]" for each, time in _MELTS)
    clears = ", ".join(f"[{each * rated:g} A, {time}]" for each, time in _CLEARS)
    return (
        f"  {name or f't-{rated}'}: {{kind: fuse, family: class-t, rated_current: {rated} A, "
        f"rated_voltage: {volts} V, curve: {{min_melt: [{melts}], max_clear: [{clears}]}}, "
        f"melting_i2t: {0.45 * rated**2:g} A²s, clearing_i2t: {1.2 * rated**2:g} A²s, "
        f"interrupt_ratings: [{{voltage: {volts} V, current: {breaks}}}], "
        f"resistance: {{min: {20 / rated:g} mΩ, max: {40 / rated:g} mΩ}}, terminal_limit: 90 °C, "
        f"derating: [[25 °C, 100 %], [50 °C, 95 %]], {_OF_ALL}}}\n"
    )


def cable(area: int, diameter: float) -> str:
    """A line of `parts:`, a copper cable of 105 °C."""
    return (
        f"  cable-{area}: {{kind: cable, area: {area} mm², material: copper, stranding: class 5, "
        f"insulation_temperature: 105 °C, voltage: 600 V, outside_diameter: {diameter} mm, "
        f"{_OF_ALL}}}\n"
    )


BANK = (
    "  bank: {kind: battery, chemistry: lfp, nominal_voltage: 25.6 V, capacity: 200 Ah, cells: 8, "
    "emf: {min: 25.6 V, max: 27.2 V}, charge_voltage: 28.8 V, resistance: {min: 1.7 mΩ, "
    "max: 3.2 mΩ}, discharge: {continuous: 200 A, peak: {current: 400 A, time: 10 s}}, "
    f"{_OF_ALL}}}\n"
)

ONE = """\
# One battery, one fuse, one cable, one load.
system: One way
nominal_voltage: 24 V
places:
  locker: {{ambient: 25 °C}}
sources:
  house: {{part: bank, place: locker}}
equipment:
  machine: {{current: {load} A, critical: no, drop_limit: 10 %, place: locker}}
circuits:
  feed:
    from: house
    to: machine
    place: locker
    parts:
      # Between post and cable.
      - {{fuse: {fuse}, name: 'main fuse', distance: 100 mm}}   # on the post
      - cable: "{cable}"      # red and black
        name: run
        length: 1 m
parts:
"""


class Kit:
    """Writes systems, asks for suggestions, and checks what is written."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def one(self, fuse_id: str, cable_id: str, load: int, parts: Iterable[str]) -> Path:
        """A single way from a battery to a load, with these parts to choose from."""
        text = ONE.format(fuse=fuse_id, cable=cable_id, load=load) + BANK + "".join(parts)
        return self.write(text)

    def write(self, text: str, name: str = "system.yaml") -> Path:
        path = self.folder / name
        path.write_text(text, encoding="utf-8", newline="")
        return path

    def ask(self, path: Path, subject: str | None = None, **bounds: Any) -> Answer:
        """What is suggested for a file."""
        return suggest(Request(str(path)), subject, Bounds(**bounds))

    def verdicts(self, text: str) -> dict[tuple[str, str], str]:
        """Rule (without its pack) and subject to verdict, of a text in a file of its own."""
        path = self.write(text, "again.yaml")
        found = findings_of(Request(str(path))).findings
        return {(each.rule.partition("/")[2], each.subject): each.verdict for each in found}

    def demo(self, name: str, *yards: str) -> Path:
        """A planted demo system whose file has the parts of the mended one too, and of others."""
        text = (FIXTURES / f"{name}-planted.yaml").read_text("utf-8")
        assert text.endswith("\n")
        for yard in (name, *yards):
            cured = (FIXTURES / f"{yard}-cured.yaml").read_text("utf-8")
            known = {key.value for key, _ in _parts(text)}
            for key, value in _parts(cured):
                if key.value not in known:
                    part = cured[key.start_mark.index : value.end_mark.index].rstrip()
                    text += f"  {part}\n"
        return self.write(text, f"{name}.yaml")


def _parts(text: str) -> list[tuple[Any, Any]]:
    root: Any = yaml.compose(text, Loader=yaml.BaseLoader)
    return next(value.value for key, value in root.value if key.value == "parts")


@pytest.fixture
def kit(tmp_path: Path) -> Kit:
    return Kit(tmp_path)


Changed = Callable[[Answer], list[set[tuple[str, str, str]]]]


def changes_of(answer: Answer) -> list[set[tuple[str, str, str]]]:
    """Every answer as a set of (sort, subject, part or text)."""
    return [
        {(each.sort, each.subject, each.part_id or each.text) for each in cure.changes}
        for cure in answer.cures
    ]
