"""The plugin door: everything a rule pack needs to say what must hold.

A pack imports from here and from `coordination.physics`, nothing else of the engine.
"""

from catalogue.frozen import dataclass, field
from coordination.ampacity import AmpacityBasis, Installation
from coordination.errors import OutOfRange
from coordination.rules.card import Basis, Card, PackCard, Scope
from coordination.rules.hooks import API_VERSION, hookimpl
from coordination.rules.judgement import ROUNDING, Judgement, compare, fail, note, passed, unproven
from coordination.rules.memory import DECIDES, capped
from coordination.rules.rule import Rule, rule
from coordination.rules.words import Option, PartField, Section, StandardRatings
from coordination.trace import (
    COMMON_PRACTICE,
    DEFINITION,
    Derived,
    Source,
    Unknown,
    Value,
    derive,
    given,
    reckon,
)

__all__ = [
    "API_VERSION",
    "COMMON_PRACTICE",
    "DECIDES",
    "DEFINITION",
    "ROUNDING",
    "AmpacityBasis",
    "Basis",
    "Card",
    "Derived",
    "Installation",
    "Judgement",
    "Option",
    "OutOfRange",
    "PackCard",
    "PartField",
    "Rule",
    "Scope",
    "Section",
    "Source",
    "StandardRatings",
    "Unknown",
    "Value",
    "capped",
    "compare",
    "dataclass",
    "derive",
    "fail",
    "field",
    "given",
    "hookimpl",
    "note",
    "passed",
    "reckon",
    "rule",
    "unproven",
]
