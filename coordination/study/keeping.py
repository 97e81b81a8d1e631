"""What a study keeps: every answer once, and what is the same in all conditions for all of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar, cast

from coordination.model import Condition, Element, System
from coordination.network import Network
from coordination.study import subjects
from coordination.study.subjects import Drawing

if TYPE_CHECKING:
    from coordination.study.figures import Figures
    from coordination.study.study import Study

T = TypeVar("T")

#: Stands for an answer that was not worked out yet.
_NOTHING: Any = object()


class Keeping:
    """The system as written, in one condition, with what was answered about it; `Study` is one."""

    if TYPE_CHECKING:
        network: Network
        _figures: Figures
        _drawn: dict[Any, Any]
        _kept: dict[tuple[str, str, str], Any]

    def __setattr__(self, name: str, value: Any) -> None:
        """Nothing can be set once the study is made: rules share it."""
        if "_kept" in self.__dict__:
            raise AttributeError(f"a study is read-only: {name} cannot be set")
        self.__dict__[name] = value

    @property
    def system(self) -> System:
        """The system as written."""
        return self.network.system

    @property
    def condition(self) -> Condition:
        """The condition studied."""
        return self.network.condition

    def option(self, pack: str, name: str) -> Any:
        """What the system file states under `options:` for a pack, or the option's default.

        None where it is not stated; quantities in SI, flags as bool, dates as `datetime.date`.
        """
        return self.system.options.get(pack, {}).get(name)

    def subjects(self, kind: str) -> tuple[Any, ...]:
        """The model's objects of a kind that rules may name, in the file's order.

        Raises ValueError if there is no such kind.
        """
        return self._of_drawing("subjects", kind, lambda: subjects.of_kind(self.system, kind))

    def closed(self, element: Element) -> bool:
        """Whether an element is closed in this condition."""
        return element.name in self._figures.branch_of

    @property
    def _study(self) -> Study:
        return cast("Study", self)

    @property
    def _drawing(self) -> Drawing:
        return self._of_drawing("drawing", "", lambda: Drawing(self.system))

    def _at(self, point: str) -> int:
        return self.network.index[point]

    def _once(self, what: str, name: str, make: Callable[[], T], more: str = "") -> T:
        key = (what, name, more)
        kept: T = self._kept.get(key, _NOTHING)
        if kept is _NOTHING:
            kept = self._kept[key] = make()
        return kept

    def _of_drawing(self, what: str, name: str, make: Callable[[], T]) -> T:
        """As `_once`, for what is the same in every condition: kept for all of the system's."""
        key = (what, name)
        kept: T = self._drawn.get(key, _NOTHING)
        if kept is _NOTHING:
            kept = self._drawn[key] = make()
        return kept
