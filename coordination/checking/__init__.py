"""One run through all stages, for whoever judges a system whole, once or many times over."""

from coordination.checking.whole import (
    Request,
    findings_of,
    judged,
    known_rules,
    known_word,
    prepare,
    studies_of,
)

__all__ = [
    "Request",
    "findings_of",
    "judged",
    "known_rules",
    "known_word",
    "prepare",
    "studies_of",
]
