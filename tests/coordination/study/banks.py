"""Invented systems with banks, for tests about energy."""

from __future__ import annotations

from pathlib import Path

from catalogue.store import open_catalogue
from coordination.network import connect
from coordination.reading import read_bytes
from coordination.study import study

CASES = Path(__file__).parents[3] / "plugins/fusewright_budget/cases/systems"
HOUR = AH = 3600.0


def study_of(text, condition="normal"):
    with open_catalogue(None) as catalogue:
        system = read_bytes(text.encode(), "boat.yaml", catalogue)
    return study(connect(system, condition))


def case(name, condition="normal", **changes):
    text = (CASES / f"{name}.yaml").read_text(encoding="utf-8").replace("packs: [budget]\n", "")
    for old, new in changes.values():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return study_of(text, condition)


def one_bank(volts, amp_hours, depth, loads, chemistry="lfp", more=""):
    """One battery with loads straight on its terminals."""
    equipment = "\n".join(f"  e{n}: {load}" for n, load in enumerate(loads))
    circuits = "\n".join(
        f"  c{n}: {{from: bank, to: e{n}, parts: [{{joint: 0 mΩ}}]}}" for n in range(len(loads))
    )
    return f"""\
system: One bank
parts:
  pack: {{kind: battery, chemistry: {chemistry}, nominal_voltage: {volts} V,
    capacity: {amp_hours} Ah, emf: {{min: {volts} V, max: {volts * 1.06} V}},
    resistance: {{min: 2 mΩ, max: 3 mΩ}}{more}}}
sources:
  bank: {{part: pack, usable_depth: {depth} %}}
equipment:
{equipment}
circuits:
{circuits}
"""


def hours(text):
    made = study_of(text)
    (bank,) = made.banks()
    return made.run_time(bank).nominal.value / HOUR
