"""What everything in a system file has: a name, a line, and its figures as they were written."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.frozen import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """Whatever has a name and a line in the file."""

    name: str
    line: int
    written: Mapping[str, str] = field(default_factory=dict)
