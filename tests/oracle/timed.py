"""The judge's rules that need times."""

from __future__ import annotations

from tests.oracle.selectivity import selectivity
from tests.oracle.withstand import cable_withstand

TIMED = {"cable-withstand": cable_withstand, "selectivity": selectivity}
