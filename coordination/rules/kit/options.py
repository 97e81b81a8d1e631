"""A pack's options as its rules read them, and the phrase for one that the file leaves open.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from coordination.rules import Option, Scope, Source, Unknown, Value, given

#: The option by which a code for buildings and vehicles is told where it is; see `scope_by_use`.
USE = Option(
    name="use",
    shape="choice",
    choices=("premises", "vehicle", "boat"),
    meaning="what the installation is in: premises, vehicle or boat",
)


class Questions:
    """The options of one pack.

    pack -- its name, without `fusewright_`; options -- those it declares
    """

    def __init__(self, pack: str, options: Iterable[Option]) -> None:
        self.pack = pack
        self._meanings = {option.name: option.meaning for option in options}

    def stated(self, study: Any, name: str) -> Any:
        """The value of an option in the system file; None where it is not stated."""
        return study.option(self.pack, name)

    def asked(self, name: str, question: str = "") -> str:
        """The phrase for what is missing: which option to state, and what it asks.

        question -- in place of the option's own meaning
        """
        return f"options: {self.pack}: {name} ({question or self._meanings[name]})"

    def figure(self, study: Any, name: str, symbol: str, unit: str) -> Value:
        """An option that is a quantity [unit]; Unknown, saying what to state, where it is not."""
        value, meaning = self.stated(study, name), self._meanings[name]
        if value is None:
            return Unknown(meaning, (self.asked(name),))
        source = Source("system file", f"options: {self.pack}: {name}")
        return given(meaning, symbol, float(value), unit, source)

    def scope_by_use(self, study: Any, not_afloat: str) -> Scope:
        """The scope of a code for buildings and vehicles, by the option `USE`.

        not_afloat -- why it does not speak of boats, with its clause
        A drawing does not show whether it is a house, a cabin, a vehicle or a boat.
        """
        use = self.stated(study, "use")
        if use is None:
            return Scope(None, "not stated what the installation is in", (self.asked("use"),))
        return Scope(False, not_afloat) if use == "boat" else Scope(True, f"use: {use}")
