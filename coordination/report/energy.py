"""The energy report for people: per condition and bank, tables, then how figures come about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from coordination.report.block import step_row
from coordination.report.colour import Paint, plain
from coordination.report.energy_rows import NOT_COMPUTED, BankRow, ConditionRow, LinkRow, SupplyRow
from coordination.report.lines import NARROWEST, labelled, step_lines, wrapped
from coordination.report.tables import columns
from coordination.report.wording import amount, clean
from coordination.trace import Derived, Unknown

if TYPE_CHECKING:
    from coordination.trace import Value


class Missing:
    """What would have to be known, collected as values are put into words."""

    def __init__(self) -> None:
        self.phrases: dict[str, None] = {}

    def words(self, value: Value) -> str:
        """A value in words; what is missing for it is kept."""
        if isinstance(value, Unknown):
            self.phrases.update(dict.fromkeys(value.missing))
        return amount(value)

    def lines(self, width: int) -> Iterator[str]:
        """What was missing, a phrase each; nothing if nothing was."""
        if self.phrases:
            yield from ("", "Unknown for want of:")
            for phrase in self.phrases:
                yield from wrapped(clean(phrase), width, "  - ", "    ")


def energy_report(
    rows: Mapping[str, ConditionRow], width: int, paint: Paint = plain, *, steps: bool = False
) -> str:
    """Every condition, then what is not computed; ends in a newline.

    steps -- with the whole derivation of every figure, not its last step only
    """
    width = max(width, NARROWEST)
    lines: list[str] = []
    for name, row in rows.items():
        lines += ["", paint("heading", f"Condition {clean(name)}"), *_condition(row, width, steps)]
    lines += ["", "Not computed:"]
    lines += [line for what in NOT_COMPUTED for line in wrapped(what, width, "  - ", "    ")]
    return "\n".join(lines[1:]) + "\n"


def _condition(row: ConditionRow, width: int, steps: bool) -> Iterator[str]:
    missing = Missing()
    if not row.banks:
        yield from ("", "No battery is in.")
    for bank in row.banks:
        yield from _bank(bank, width, missing, steps)
    yield from _supplies(
        row.supplies, "may give for hours", "source", "asked for, at most", width, missing,
        steps,
    )  # fmt: skip
    yield from _supplies(
        row.balances, "given there for hours", "converter", "drawn on its input side", width,
        missing, steps,
    )  # fmt: skip
    for link in row.links:
        yield from _link(link, width, missing, steps)
    yield from missing.lines(width)


def _bank(bank: BankRow, width: int, missing: Missing, whole: bool) -> Iterator[str]:
    yield from ("", f"Bank {clean(bank.name)}")
    say = missing.words
    held = bank.usable
    yield from labelled(
        [
            ("usable charge", f"{say(held.nominal)} as rated; at least {say(held.least)}, "
             f"at most {say(held.most)}"),
            ("usable energy", f"{say(bank.energy)} as rated"),
        ],
        width, "  ",
    )  # fmt: skip
    yield from _loads(bank, width, missing)
    times = [
        (run.words, say(run.current.nominal), say(run.time.least), say(run.time.nominal),
         say(run.time.most))
        for run in bank.runs
    ]  # fmt: skip
    heads = ("run time on batteries alone", "current", "at least", "as rated", "at most")
    yield from ("", *columns(times, heads, "lrrrr", width))
    yield from _charging(bank, width, missing)
    yield from _shares(bank, width, missing)
    yield from _steps(bank, width, whole)


def _loads(bank: BankRow, width: int, missing: Missing) -> Iterator[str]:
    if not bank.loads:
        yield from ("", "Nothing draws from it.")
        return
    say = missing.words
    rows = [
        (clean(load.subject.name), say(load.running), say(load.share), say(load.duty),
         say(load.average.nominal), say(load.at_once))
        for load in bank.loads
    ]  # fmt: skip
    heads = ("load", "running", "share", "time", "average", "at low voltage")
    yield from ("", *columns(rows, heads, "lrrrrr", width))


def _charging(bank: BankRow, width: int, missing: Missing) -> Iterator[str]:
    if not bank.recharges:
        return
    say = missing.words
    rows = [
        (clean(" + ".join(each.names)), say(each.gives), say(each.into), say(each.time))
        for each in bank.recharges
    ]
    heads = ("charged by", "gives", "into the bank", "full after at least")
    yield from ("", *columns(rows, heads, "lrrr", width))
    own = [(clean(name), say(flows), say(limit)) for name, flows, limit in bank.charging]
    heads_of = ("battery", "charged with, at most", "may take")
    yield from ("", *columns(own, heads_of, "lrr", width))


def _shares(bank: BankRow, width: int, missing: Missing) -> Iterator[str]:
    if not bank.shares:
        return
    rows = [
        (clean(s.source.name), missing.words(s.current), missing.words(s.ratio))
        for s in bank.shares
    ]
    heads = ("battery", "share of the full load", "times the average")
    yield from ("", *columns(rows, heads, "lrr", width))
    joined = [
        (clean(j.source.name), missing.words(j.full), missing.words(j.apart),
         missing.words(j.time_constant) if len(bank.joinings) == 2 else "")
        for j in bank.joinings
    ]  # fmt: skip
    heads_of = ("joined to the others", "full, they low", "0.1 V apart", "falls to 37 % in")
    yield from ("", *columns(joined, heads_of, "lrrr", width))


def _steps(bank: BankRow, width: int, whole: bool) -> Iterator[str]:
    """How the main figures of a bank come about."""
    roots: list[Any] = [bank.usable.nominal, *(run.time.nominal for run in bank.runs)]
    roots += [run.time.least for run in bank.runs[:1]]
    roots += [value for each in bank.recharges for value in (each.into, each.time)]
    roots += [value for j in bank.joinings for value in (j.full, j.apart)]
    roots += [value for share in bank.shares for value in (share.current, share.ratio)]
    yield from steps_of(roots, width, whole)


def steps_of(roots: Iterable[Value], width: int, whole: bool) -> Iterator[str]:
    """The last step of each of these values, or their whole derivations, each step once."""
    seen: dict[tuple[str, str, float], Derived] = {}
    for root in roots:
        for step in _own_steps(root, whole):
            seen.setdefault((step.quantity, step.formula, step.value), step)
    if seen:
        yield from ("", "  How it comes about:")
        yield from step_lines([step_row(step) for step in seen.values()], width, "    ")


def _own_steps(root: Value, whole: bool) -> Iterable[Derived]:
    if isinstance(root, Unknown):
        return ()
    return root.steps() if whole else (root,) if root.formula else ()


def _supplies(
    rows: tuple[SupplyRow, ...], gives: str, of: str, asked: str, width: int, missing: Missing,
    whole: bool,
) -> Iterator[str]:
    if not rows:
        return
    cells = [(clean(r.name), missing.words(r.asked), missing.words(r.gives)) for r in rows]
    yield from ("", *columns(cells, (of, asked, gives), "lrr", width))
    yield from steps_of([value for row in rows for value in (row.asked, row.gives)], width, whole)


def _link(link: LinkRow, width: int, missing: Missing, whole: bool) -> Iterator[str]:
    yield from ("", f"Closing {clean(link.name)}, one side full and charging, the other low")
    for flow in link.flows:
        giving = clean(" + ".join(source.name for source in flow.giving))
        taking = clean(" + ".join(source.name for source in flow.taking))
        told = [("from", f"{giving} into {taking}"), ("at first", missing.words(flow.current))]
        told.append(("falls to 37 % in", missing.words(flow.time_constant)))
        told += [(clean(name), missing.words(value)) for name, value in flow.each.items()]
        yield from ("", *labelled(told, width, "  "))
        through = [(clean(name), missing.words(value)) for name, value in flow.through.items()]
        if through:
            yield from ("", *columns(through, ("through", "current"), "lr", width))
        yield from steps_of([flow.current, flow.time_constant], width, whole)
