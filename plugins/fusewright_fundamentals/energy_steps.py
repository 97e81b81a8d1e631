"""How much a leg is heated by what ends quickly, in steps that can be checked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coordination.rules import DEFINITION, Derived, Source, Unknown, Value, derive, given
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.heating import Course, Heating, Part, in_turn

_SUM = Source("Minkowski's inequality", "energies of currents that add up")


def energy(heating: Heating, course: Course, flowing: Value) -> Value:
    """Let-through [A²s] in one of the leg's parallel cables, until the quick parts have ended.

    flowing -- current in the leg [A]
    """
    quantity = f"let-through in the {heating.leg.name} leg"
    cables = runs(heating)
    if len(course.quick) == 1 and not course.lasting:
        part = course.quick[0]
        current, time = through(part, flowing), cleared(heating, part, flowing)
        return derive(
            lambda amps, seconds, number: (amps / number) ** 2 * seconds,
            quantity, "J", "A²s", "(I_d / n)² t", current, time, cables, source=DEFINITION,
        )  # fmt: skip
    parts = list(_energies(heating, course, flowing))
    roots = " + ".join(f"sqrt(J_{n})" for n in range(1, len(parts) + 1))
    return derive(
        lambda *values: sum(value**0.5 for value in values[:-1]) ** 2 / values[-1] ** 2,
        quantity, "J", "A²s", f"({roots})² / n²", *parts, cables, source=_SUM,
    )  # fmt: skip


def _energies(heating: Heating, course: Course, flowing: Value) -> Iterator[Value]:
    quick = in_turn(course.quick)
    for number, part in enumerate(quick, 1):
        yield _part_energy(
            f"let through by {part.clearer.device.name}", number, through(part, flowing),
            cleared(heating, part, flowing),
        )  # fmt: skip
    if course.lasting:
        time = cleared(heating, quick[-1], flowing)
        current = still_flowing(course, course.slow, flowing)
        yield _part_energy("what flows on meanwhile", len(quick) + 1, current, time)


def _part_energy(words: str, number: int, current: Value, time: Value) -> Value:
    return derive(
        lambda amps, seconds: amps**2 * seconds, words, f"J_{number}", "A²s", "I_d² t",
        renamed(current, "I_d"), time, source=DEFINITION,
    )  # fmt: skip


def still_flowing(course: Course, parts: Sequence[Part], flowing: Value) -> Value:
    """Current [A] in the leg while these parts, and what never ends, still flow."""
    if len(parts) == 1 and not course.endless:
        return through(parts[0], flowing)
    inputs = [renamed(through(part, flowing), f"I_{n}") for n, part in enumerate(parts, 1)]
    if course.endless:
        words = "current that no device ends"
        inputs.append(Derived(words, "I_0", course.endless, "A", source=DEFINITION))
    formula = " + ".join(value.symbol for value in inputs if isinstance(value, Derived))
    return derive(
        lambda *amps: sum(amps), "current that flows on", "I", "A", formula, *inputs,
        source=DEFINITION,
    )  # fmt: skip


def through(part: Part, flowing: Value) -> Value:
    """Current [A] through a device for the current in the cable."""
    if part.clearer.share.value == 1.0:
        return renamed(flowing, "I_d")
    words = f"current through {part.clearer.device.name}"
    return derive(
        lambda amps, share: amps * share, words, "I_d", "A", "I × s", flowing,
        renamed(part.clearer.share, "s"),
    )  # fmt: skip


#: Why 95 %: a mechanism waits for its current, melting for its energy.
RISEN = Source("definition", "after 3 τ the current stays above 0.95 I")


def cleared(heating: Heating, part: Part, flowing: Value) -> Value:
    """The clearing time [s] of a device, with what it rests on."""
    steady = heating.study.clearing(part.clearer.device, through(part, flowing)).steady
    if isinstance(steady, Derived) and abs(steady.value - part.time) <= 1e-9 * part.time:
        return renamed(steady, "t")
    inputs = () if isinstance(steady, Unknown) else (steady,)
    words = f"latest clearing of {part.clearer.device.name}, with the rise of the current"
    # The time at 95 % is no input: the steps have that at the whole current.
    return Derived(words, "t", part.time, "s", "3 τ + t_95", inputs, RISEN)


def runs(heating: Heating) -> Derived:
    """How many equal cables share the leg's current [1]."""
    return given("equal cables in parallel", "n", heating.leg.runs, "", DEFINITION)
