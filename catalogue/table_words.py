"""Words of SQL that several layouts are written in: columns that refuse what no part can be.

Frozen as the layouts are: what they give stands in files that are out.
"""

from __future__ import annotations


def positive(*names: str) -> str:
    return ", ".join(f"{name} REAL CHECK ({name} > 0 AND {name} <= 1e18)" for name in names)


def temperature(name: str) -> str:
    return f"{name} REAL CHECK ({name} > -273.15 AND {name} <= 2000)"


def text(*names: str) -> str:
    blanks = "char(32, 9, 10, 13)"
    return ", ".join(f"{name} TEXT CHECK (trim({name}, {blanks}) <> '')" for name in names)


def choice(name: str, *choices: str) -> str:
    return f"{name} TEXT CHECK ({name} IN ({', '.join(repr(choice) for choice in choices)}))"


def flag(*names: str) -> str:
    return ", ".join(f"{name} INTEGER CHECK ({name} IN (0, 1))" for name in names)


def whole(name: str) -> str:
    return f"{name} INTEGER CHECK ({name} BETWEEN 1 AND 10000)"


def together(first: str, second: str) -> str:
    """Two columns that only mean something together: both stated, or neither."""
    return f"CHECK (({first} IS NULL) = ({second} IS NULL))"


def band(name: str, least: str = "> 0") -> str:
    """A lower and an upper bound, the lower not above the upper."""
    low, high = f"{name}_min", f"{name}_max"
    return (
        f"{low} REAL CHECK ({low} {least} AND {low} <= 1e18), "
        f"{high} REAL CHECK ({high} >= {low} AND {high} <= 1e18) {together(low, high)}"
    )


def record(first: str, second: str) -> str:
    return f"{positive(first, second)} {together(first, second)}"


def needed(name: str, least: str = "> 0") -> str:
    return f"{name} REAL NOT NULL CHECK ({name} {least} AND {name} <= 1e18)"
