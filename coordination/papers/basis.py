"""What the verdicts rest on, as tables: conditions, sources with their bands, places, packs."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import TYPE_CHECKING, Any

from coordination.papers.table import Cell, Row, Table, rows_of, table
from coordination.report.wording import UNKNOWN, clean, number, place, source_words
from coordination.rules.card import UNDATED

if TYPE_CHECKING:
    from catalogue.parts import Band, Battery
    from coordination.languages.language import Language
    from coordination.model import Condition, Place, System
    from coordination.rules.card import Scope
    from coordination.rules.finding import Findings
    from coordination.rules.words import Section


def basis_tables(findings: Findings, words: Language) -> tuple[Table, ...]:
    """The tables that have rows, in the order of the page."""
    system = findings.system
    made = (
        _table("conditions", _conditions(findings), words),
        _table("batteries", _batteries(system, words), words),
        _table("limited", _limited(system, words), words),
        _table("places", _places(system, words), words),
        _table("packs", _packs(findings, words), words),
        _table("options", _options(system, words), words),
        _table("waivers", _waivers(findings, words), words),
    )
    return tuple(each for each in made if each.rows)


def conventions(findings: Findings, words: Language) -> tuple[str, ...]:
    """How it was calculated, one sentence each."""
    keys = ("largest", "smallest", "bolted", "unknown")
    cables = [each for each in findings.system.elements() if each.kind == "cable"]
    mirrored = sum(each.return_path.kind == "mirror" for each in cables)
    study = next(iter(findings.studies.values()))
    title = words.say(clean(study.basis.title))
    ampacity = f"{title} ({source_words(study.basis.source, words)})"
    return (
        *(words(f"basis.{key}") for key in keys),
        words("basis.mirrored", count=mirrored),
        words("basis.ampacity", basis=ampacity),
    )


def _table(name: str, rows: Iterator[tuple[Cell | str, ...]], words: Language) -> Table:
    """The heads are the words under the table's name: "conditions.heads"."""
    heads = words(f"{name}.heads").split(" | ")
    cells = [
        Row(tuple(each if isinstance(each, Cell) else Cell(each) for each in row)) for row in rows
    ]
    return table(words(f"{name}.caption"), heads, cells)


def _conditions(findings: Findings) -> Iterator[tuple[Cell | str, ...]]:
    for name in findings.studies:
        state: Condition | None = findings.system.conditions.get(name)
        if state is None:
            continue
        draws = ", ".join(f"{clean(each)} {share:.0%}" for each, share in state.draw.items())
        yield clean(name), _names(state.close), _names(state.open), _names(state.without), draws


def _names(names: tuple[str, ...]) -> str:
    return ", ".join(map(clean, names))


def _batteries(system: System, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    for source in system.sources.values():
        part = source.part
        if part is not None:
            yield (
                clean(source.name),
                clean(part.id),
                _band(part, "emf", part.emf, "V", words),
                _stated(part, "charge_voltage", part.charge_voltage, "V", words),
                _band(part, "resistance", part.resistance, "Ω", words),
                _how(part, words),
            )


def _how(part: Battery, words: Language) -> str:
    """How the resistance came to be known."""
    if assumed := part.written.get("resistance.assumed"):
        return words("batteries.assumed", band=words.figure(clean(assumed)))
    if part.resistance is not None:
        return words("batteries.stated")
    if part.short_circuit_current is not None:
        current = number(
            part.short_circuit_current, "A", part.written.get("short_circuit_current", "")
        )
        return words("batteries.declared", current=words.figure(current))
    return words("batteries.unknown")


def _band(part: Any, name: str, band: Band | None, unit: str, words: Language) -> str:
    if band is None:
        return words.say(UNKNOWN)
    low = _side(part, name, band, "min", unit)
    high = _side(part, name, band, "max", unit)
    low, high = (words.say(low), words.say(high))
    return low if low == high else f"{low} … {high}"


def _side(part: Any, name: str, band: Band, side: str, unit: str) -> str:
    value = getattr(band, side)
    written = part.written.get(f"{name}.{side}") or part.written.get(name, "")
    return UNKNOWN if value is None else number(value, unit, written)


def _stated(thing: Any, name: str, value: float | None, unit: str, words: Language) -> str:
    told = UNKNOWN if value is None else number(value, unit, thing.written.get(name, ""))
    return words.say(told)


def _limited(system: System, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    for source in system.sources.values():
        if source.part is None:
            yield (
                clean(source.name),
                _stated(source, "current_limited", source.current_limited, "A", words),
                _stated(source, "voltage", source.voltage, "V", words),
            )
    for converter in system.converters.values():
        yield (
            clean(f"{converter.name}.output"),
            _stated(converter, "output_current", converter.output_current, "A", words),
            _stated(converter, "output_voltage", converter.output_voltage, "V", words),
        )


def _places(system: System, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    for each in _used_places(system):
        how = words("places.stated" if each.stated else "places.assumed")
        engine = words("yes" if each.engine_space else "no")
        written = each.written.get("ambient", "")
        yield clean(each.name), words.figure(number(each.ambient, "°C", written)), how, engine


def _used_places(system: System) -> list[Place]:
    things = (
        [each.place for each in system.sources.values()],
        [each.place for each in system.equipment.values()],
        [each.place for each in system.elements()],
    )
    used: dict[str, Place] = dict(system.places)
    for each in chain.from_iterable(things):
        used.setdefault(each.name, each)
    return list(used.values())


def _packs(findings: Findings, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    for pack in findings.packs:
        card = pack.card
        scope = findings.scopes.get(card.name)
        applies = words(_held(scope))
        yield (
            clean(card.name),
            words.say(clean(card.title)),
            clean(card.version),
            words.say(clean(card.edition)),
            "" if card.in_force == UNDATED else clean(card.in_force),
            str(len(pack.rules)),
            Cell(applies, note=words.say(clean(scope.reason)) if scope else ""),
        )


def _held(scope: Scope | None) -> str:
    if scope is None or scope.applies is None:
        return "packs.open"
    return "yes" if scope.applies else "no"


def _options(system: System, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    for pack, options in system.options.items():
        for name, value in options.items():
            yield clean(pack), clean(name), _option("" if value is None else str(value), words)


def _waivers(findings: Findings, words: Language) -> Iterator[tuple[Cell | str, ...]]:
    waived = {(each.rule, each.subject) for each in findings.findings if each.verdict == "waived"}
    for waiver in findings.system.waivers:
        yield (
            Cell(clean(waiver.subject), note=place(findings.file, waiver.line)),
            clean(waiver.rule),
            clean(waiver.reason),
            clean(waiver.by),
            waiver.date.isoformat(),
            words("verdict.waived") if (waiver.rule, waiver.subject) in waived else "-",
        )


def _option(value: str, words: Language) -> str:
    return {"True": words("yes"), "False": words("no")}.get(value) or words.figure(clean(value))


def section_of(section: Section, words: Language) -> tuple[str, list[str], Table]:
    """What a pack adds to a report: title, paragraphs and table."""
    say = words.say
    title = say(clean(section.title))
    rows = rows_of([tuple(words.figure(clean(text)) for text in row) for row in section.rows])
    heads = [say(clean(head)) for head in section.headings]
    return title, [say(clean(each)) for each in section.paragraphs], table(title, heads, rows)
