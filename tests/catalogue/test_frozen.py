"""The quick `dataclass` does what the standard one does."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from typing import Any

import pytest

from catalogue.frozen import FEW, dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A base."""

    name: str
    written: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part(Base):
    """A part."""

    size: float | None = field(default=None, metadata={"unit": "m"})
    count: int = 1

    def twice(self) -> int:
        """Twice the count."""
        return 2 * self.count


@dataclass(frozen=True, slots=True)
class Pair:
    """Two numbers; the smaller first."""

    low: float
    high: float = 1.0

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError("low above high")


@dataclass(slots=True)
class Open:
    """May be changed."""

    items: list[int] = field(default_factory=list)


def standard(cls: type, **options: Any) -> Any:
    """The same class by the standard decorator."""
    body = {"__annotations__": dict(cls.__annotations__)}
    for each in dataclasses.fields(cls):
        if each.default is not dataclasses.MISSING:
            body[each.name] = each.default
    return dataclasses.dataclass(**options)(type(cls.__name__, (), body))


@pytest.mark.usefixtures("made")
def test_values_and_defaults() -> None:
    part = Part(name="a", size=2.0)
    assert (part.name, part.size, part.count, part.written) == ("a", 2.0, 1, {})
    assert part.twice() == 2
    assert Part(name="a").written is not Part(name="a").written
    assert Pair(0.5, 2.0) == Pair(low=0.5, high=2.0)


@pytest.fixture(params=[0, FEW])
def made(request: pytest.FixtureRequest) -> None:
    """The first records are filled in one way, those after a few in another."""
    for _ in range(request.param):
        Part(name="a"), Pair(0.5), Open(), Odd(1)


@pytest.mark.usefixtures("made")
def test_arguments_are_checked() -> None:
    for wrong in (lambda: Part("a"), lambda: Part(), lambda: Pair(), lambda: Pair(1.0, 2.0, 3.0)):  # type: ignore[call-arg,misc]
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(ValueError, match="low above high"):
        Pair(2.0, 1.0)


@pytest.mark.usefixtures("made")
def test_a_frozen_record_cannot_be_changed_and_has_no_room_for_more() -> None:
    pair = Pair(0.5)
    with pytest.raises(dataclasses.FrozenInstanceError):
        pair.low = 3.0  # type: ignore[misc]
    with pytest.raises(dataclasses.FrozenInstanceError):
        del pair.low
    assert not hasattr(pair, "__dict__")
    box = Open()
    box.items = [1]
    with pytest.raises(AttributeError):
        box.other = 1  # type: ignore[attr-defined]


@pytest.mark.usefixtures("made")
def test_equality_hash_and_repr_are_those_of_the_standard_library() -> None:
    other = standard(Pair, frozen=True)
    assert repr(Pair(0.5)) == repr(other(0.5)) == "Pair(low=0.5, high=1.0)"
    assert hash(Pair(0.5)) == hash(other(0.5))
    assert Pair(0.5) == Pair(0.5)
    assert Pair(0.5) != Pair(0.6)
    assert Pair(0.5) != other(0.5)
    assert len({Pair(0.5), Pair(0.5), Pair(0.7)}) == 2


@pytest.mark.usefixtures("made")
def test_the_standard_librarys_functions_work() -> None:
    part = Part(name="a", size=2.0)
    assert dataclasses.is_dataclass(part)
    assert [each.name for each in dataclasses.fields(Part)] == ["name", "written", "size", "count"]
    assert dataclasses.fields(Part)[2].metadata == {"unit": "m"}
    assert dataclasses.replace(part, count=3) == Part(name="a", size=2.0, count=3)
    assert dataclasses.asdict(part) == {"name": "a", "written": {}, "size": 2.0, "count": 1}


@dataclass(frozen=True, slots=True)
class Odd:
    """Fields left out here and there."""

    size: int
    memo: list[int] = field(default_factory=list, init=False, repr=False, compare=False)
    late: int = field(init=False, repr=False)
    shy: int = field(default=7, hash=False)
    fixed: int = field(default=3, init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "late", 2 * self.size)


@pytest.mark.usefixtures("made")
def test_fields_left_out_of_arguments_equality_hash_and_repr() -> None:
    odd = Odd(1, 5)
    odd.memo.append(4)
    assert (odd.size, odd.late, odd.shy, odd.fixed) == (1, 2, 5, 3)
    assert odd == Odd(1, 5)
    assert odd != Odd(1, 6)
    assert hash(odd) == hash(Odd(1, 6)) == hash((1, 2, 3))
    assert repr(odd) == "Odd(size=1, shy=5, fixed=3)"
    assert Odd.__match_args__ == ("size", "shy")  # type: ignore[attr-defined]
    assert dataclasses.replace(odd, size=2).late == 4
    with pytest.raises(TypeError):
        Odd(1, memo=[])  # type: ignore[call-arg]


def test_an_order_is_refused() -> None:
    with pytest.raises(TypeError):
        dataclass(order=True)


@pytest.mark.usefixtures("made")
def test_copies_and_pickles() -> None:
    part = Part(name="a", size=2.0)
    assert copy.deepcopy(part) == part
    assert copy.copy(part) == part
    assert pickle.loads(pickle.dumps(part)) == part
    assert copy.deepcopy(Open([1])).items == [1]


def test_a_pattern_matches_by_place() -> None:
    match Pair(0.5, 2.0):
        case Pair(low, high):
            assert (low, high) == (0.5, 2.0)


def test_an_unfrozen_record_cannot_be_a_key() -> None:
    with pytest.raises(TypeError):
        hash(Open())
