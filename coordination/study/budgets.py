"""The accessors of a study about energy: banks, run time, charging, sharing, equalising.

The sums stand in `budget`, imported when first asked for: a check of faults does without them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.mains import Inlet
from coordination.model import Converter, Element, Equipment, Source
from coordination.study.keeping import Keeping
from coordination.trace import Unknown, Value

if TYPE_CHECKING:
    from coordination.study.budget.bank import Bank
    from coordination.study.budget.equalising import Equalising
    from coordination.study.budget.joining import Joining
    from coordination.study.budget.load import Load
    from coordination.study.budget.output import Output
    from coordination.study.budget.range import Range
    from coordination.study.budget.sharing import Share
    from coordination.study.budget.shore import ShoreBudget
    from coordination.study.budget.supply import Balance, Recharge


class Budgets(Keeping):
    """What a study knows about energy in its condition; `Study` is one."""

    def banks(self) -> tuple[Bank, ...]:
        """Batteries that are joined, in the file's order."""
        from coordination.study.budget import bank

        return self._once("banks", "", lambda: bank.banks(self._study))

    def bank_of(self, point: str) -> Bank | None:
        """The bank that feeds a point; None where no battery does."""
        piece = self._figures.shape.island[self._at(point)]
        return next((bank for bank in self.banks() if bank.island == piece), None)

    def usable(self, bank: Bank) -> Range:
        """Charge [A·s] that may be used of a bank: at least, at its rating, at most."""
        from coordination.study.budget import bank as banks

        return self._once("usable", bank.name, lambda: banks.usable(bank))

    def usable_energy(self, bank: Bank) -> Value:
        """Energy [J] that may be used of a bank, at its rating and nominal voltage."""
        from coordination.study.budget import bank as banks

        return self._once("usable energy", bank.name, lambda: banks.usable_energy(bank))

    def loads_of(self, bank: Bank) -> tuple[Load, ...]:
        """What is drawn from a bank for longer than an engine starts."""
        from coordination.study.budget import load

        return self._once("loads", bank.name, lambda: load.loads_of(bank, self._study))

    def average_load(self, bank: Bank) -> Range:
        """Average current [A] drawn from a bank: least, nominal, largest."""
        from coordination.study.budget import load

        return self._once("average", bank.name, lambda: load.average(self.loads_of(bank), bank))

    def at_once(self, bank: Bank) -> Value:
        """Current [A] of all loads of a bank running at the same time, at their lowest voltages."""
        from coordination.study.budget import load

        return self._once("at once", bank.name, lambda: load.at_once(self.loads_of(bank), bank))

    def run_time(self, bank: Bank, current: Range | None = None) -> Range:
        """How long [s] a bank lasts on batteries alone.

        current -- [A]; None: the average of this condition's loads
        """
        from coordination.study.budget import run

        if current is not None:
            return run.run_time(bank, current)
        return self._once("run", bank.name, lambda: run.run_time(bank, self.average_load(bank)))

    def run_time_of(self, equipment: Equipment) -> Value:
        """The least time [s] that the bank of a piece of equipment lasts in this condition."""
        bank = self.bank_of(equipment.name)
        if bank is None:
            words = f"run time of {equipment.name}"
            return Unknown(words, (f"{equipment.name}: no battery feeds it in this condition",))
        return self.run_time(bank).least

    def recharges(self, bank: Bank) -> tuple[Recharge, ...]:
        """Filling a bank from each of its sources, then from all together; bulk only."""
        from coordination.study.budget import supply

        loads = self.loads_of(bank)
        return self._once("recharge", bank.name, lambda: supply.recharges(bank, loads, self._study))

    def charge_limit(self, source: Source) -> Value:
        """Largest continuous current [A] that a battery may be charged with."""
        from coordination.study.budget import supply

        return supply.charge_limit(source)

    def continuous(self, source: Source | Converter) -> Value:
        """What a limited source may give for hours [A] where it stands."""
        from coordination.study.budget import supply

        return supply.continuous(source)

    def asked_of(self, source: Source) -> Value:
        """The most [A] that a limited source is asked for for hours in this condition."""
        from coordination.study.budget import supply

        return self._once("asked", source.name, lambda: supply.asked_of(source, self._study))

    def charging_current(self, source: Source) -> Value:
        """The most [A] that flows into a battery while limited sources give all they can."""
        from coordination.study.budget import charge

        return self._once("charging", source.name, lambda: charge.into(source, self._study))

    def start_balance(self, converter: Converter) -> Balance | None:
        """What is drawn [A] on a converter's input side, and what is given there for hours."""
        from coordination.study.budget import supply

        return self._once(
            "balance", converter.name, lambda: supply.start_balance(converter, self._study)
        )

    def shares(self, bank: Bank) -> tuple[Share, ...]:
        """How the batteries of a bank share its full load."""
        from coordination.study.budget import sharing

        return self._once("shares", bank.name, lambda: sharing.shares(bank, self._study))

    def joinings(self, bank: Bank) -> tuple[Joining, ...]:
        """What flows when each battery of a bank is joined to the others at another voltage."""
        from coordination.study.budget import joining

        return self._once("joinings", bank.name, lambda: joining.joinings(bank, self._study))

    def equalising(self, element: Element) -> tuple[Equalising, ...]:
        """What may flow over a switch when it is closed, both ways; empty if it joins no banks."""
        from coordination.study.budget import equalising

        return self._once(
            "equalising", element.name, lambda: equalising.equalising(element, self._study)
        )

    def shore(self, inlet: Inlet) -> ShoreBudget | None:
        """What an inlet may carry and what is drawn from it; None where it is not in."""
        from coordination.study.budget import shore

        return self._once("shore", inlet.name, lambda: shore.budget(inlet, self._study))

    def ac_output(self, inverter: Equipment) -> Output | None:
        """Currents and ratings on an inverter's output; None of equipment that states none."""
        from coordination.study.budget import output

        return self._of_drawing("output", inverter.name, lambda: output.output(inverter))

    def joins_with_others(self, element: Element) -> bool:
        """Whether a switch joins two sides with batteries that other closed switches join too."""
        from coordination.study.budget import equalising

        return self._once(
            "joins", element.name, lambda: equalising.joins_with_others(element, self._study)
        )
