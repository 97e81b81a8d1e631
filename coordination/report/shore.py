"""The shore report for people: each inlet in each condition, each inverter's output, the steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from coordination.report.colour import Paint, plain
from coordination.report.energy import Missing, steps_of
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.tables import columns
from coordination.report.wording import clean, number

#: What nobody checks here, named in every answer.
NOT_CHECKED = (
    "bonding and earthing of the AC side, and galvanic isolation",
    "ground-fault devices: one that trips is another cause of a dark dock",
    "polarity, at the pedestal and on board",
    "transfer interlock between shore, generator and inverter",
    "short circuits on the AC side, and breaking capacities there",
    "inrush of AC loads, and frequency that a load does not stand",
    "whether cord, plug and inlet are sound: the figures are their ratings",
)

#: How a setting is to be understood.
SETTING = "the input limit counts all that comes in: loads straight through first, then charging"


def shore_report(
    studies: Mapping[str, Any], width: int, paint: Paint = plain, *, steps: bool = False
) -> str:
    """Every condition, the inverters' outputs, then what is not checked; ends in a newline.

    steps -- with the whole derivation of every figure, not its last step only
    """
    width = max(width, NARROWEST)
    first = next(iter(studies.values()))
    lines: list[str] = []
    if not first.system.shore:
        lines += ["", "The file names no inlet under shore:."]
    for name, study in studies.items() if first.system.shore else ():
        lines += ["", paint("heading", f"Condition {clean(name)}"), *_inlets(study, width, steps)]
    lines += _outputs(first, width, steps)
    lines += ["", "Not checked:"]
    lines += [line for what in NOT_CHECKED for line in wrapped(what, width, "  - ", "    ")]
    return "\n".join(lines[1:]) + "\n"


def _inlets(study: Any, width: int, steps: bool) -> Iterator[str]:
    missing = Missing()
    for inlet in study.system.shore.values():
        budget = study.shore(inlet)
        if budget is None:
            yield from ("", f"Inlet {clean(inlet.name)}: not in")
        else:
            yield from _inlet(budget, width, missing, steps)
    yield from missing.lines(width)
    apart = [
        clean(source.name)
        for source in study.system.sources.values()
        if source.part is None
        and source.mains is None
        and source.name not in study.condition.without
    ]
    if apart:
        words = f"Not counted, as they name no inlet under mains: {', '.join(apart)}."
        yield from ("", *wrapped(words, width))


def _inlet(budget: Any, width: int, missing: Missing, steps: bool) -> Iterator[str]:
    say, inlet = missing.words, budget.inlet
    yield from ("", f"Inlet {clean(inlet.name)} ({supply_words(inlet)})")
    rows = [(clean(load.name), "straight through", say(i)) for load, i in budget.loads]
    rows += [(clean(each.name), "charger, at its limit", say(i)) for each, i in budget.chargers]
    rows.append(("together", "", say(budget.whole)))
    yield from ("", *columns(rows, ("takes", "what it is", "current"), "llr", width))
    told = [
        ("may be drawn for hours", say(budget.may)),
        ("of the breaker's rating", _share(inlet)),
        ("drawn as the limit is set", say(budget.drawn)),
        ("input limit to set", f"{say(budget.may)}; {SETTING}"),
        ("then left for charging", say(budget.left)),
        ("into the bank, DC", say(budget.into)),
        ("full after at least", f"{say(budget.time)}, bulk only"),
    ]
    yield from ("", *labelled(told, width, "  "))
    roots = [i for _, i in (*budget.loads, *budget.chargers)]
    roots += [budget.whole, budget.may, budget.drawn, budget.left, budget.gives, budget.into]
    yield from steps_of([*roots, budget.time], width, steps)


def _share(inlet: Any) -> str:
    """By which share of the breaker's rating, and who says so."""
    if inlet.breaker is None:
        return ""
    if inlet.continuous is not None:
        return f"{number(inlet.continuous, '', inlet.written.get('continuous', ''))}, as stated"
    return "80 %, as `continuous` is not stated: NFPA 70:2023, 210.20(A) (from memory)"


def supply_words(inlet: Any) -> str:
    """ "pedestal, 230 V, 50 Hz"."""
    words = [inlet.supply or "supply not stated"]
    for field, unit in (("voltage", "V"), ("frequency", "Hz")):
        value = getattr(inlet, field)
        if value is not None:
            words.append(number(value, unit, inlet.written.get(field, "")))
    return clean(", ".join(words))


def _outputs(study: Any, width: int, steps: bool) -> Iterator[str]:
    missing = Missing()
    say = missing.words
    found = [(e, study.ac_output(e)) for e in study.system.equipment.values() if e.output]
    if not found:
        return
    rows = [
        (clean(each.name), say(side.rated), "" if side.surge is None else say(side.surge),
         say(side.breaker), say(side.conductor))
        for each, side in found
    ]  # fmt: skip
    heads = ("inverter output", "rated", "surge", "breaker", "conductors")
    yield from ("", *columns(rows, heads, "lrrrr", width))
    roots = [v for _, side in found for v in (side.rated, side.surge) if v is not None]
    yield from steps_of(roots, width, steps)
    yield from missing.lines(width)
