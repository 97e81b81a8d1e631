"""When the federal law applies, and when one of its rules is asked.

33 CFR 183.401: boats with a petrol engine aboard, other than an outboard, for generation,
mechanical power or propulsion. A drawing does not show engines, so the file must state it; the
rule `federal-scope` says once what was stated, and the law's other rules keep quiet outside it.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from coordination.rules import Card, Rule, Scope, Source, rule
from fusewright_us_small_craft.options import stated

LAW = "33 CFR 183 Subpart I as of 2025"


def law(clause: str, *, read: bool = True) -> Source:
    """A clause of the federal law."""
    return Source(LAW, clause, read=read)


def practice(document: str, clause: str, *, read: bool = True) -> Source:
    """A clause of the voluntary standards."""
    return Source(document, clause, read=read)


#: The two editions that the published summaries tell apart.
E11 = "ABYC E-11, 2018 to 2024 editions"
E11_2025 = "ABYC E-11, edition of July 2025"
E13 = "ABYC E-13, edition before July 2025"
E13_2025 = "ABYC E-13, edition of July 2025"


def law_applies(study: Any) -> bool | None:
    """Whether Subpart I governs this boat; None where the file does not say."""
    engine = stated(study, "petrol_engine")
    return None if engine is None else bool(engine)


def pack_scope(study: Any) -> Scope:
    """Boats: whoever names the pack says that it is one, unless the file says otherwise.

    Whether the federal law governs the boat is another question: the practice holds for all.
    """
    if stated(study, "use") == "ashore":
        return Scope(False, "stated to be no boat")
    return Scope(True, "a boat, by naming the pack")


def law_rule(card: Card, *, each: str | tuple[str, ...]) -> Callable[[Callable[..., Any]], Rule]:
    """A rule of the law: asked only where the law is known to apply."""

    def decorate(judge: Callable[..., Any]) -> Rule:
        def inside(subject: Any, study: Any) -> Any:
            return judge(subject, study) if law_applies(study) else None

        return rule(card, each=each)(inside)

    return decorate
