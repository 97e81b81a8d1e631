"""The runner for a rule's cases, shipped so that outside packs test theirs the same way.

from coordination.testing import check_case, collect_cases

@pytest.mark.parametrize("case", collect_cases(FOLDER), ids=str)
def test_case(case):
    check_case(case)
"""

from coordination.testing.case import Case, CaseError, Expected
from coordination.testing.check import check_case, mismatches
from coordination.testing.collect import collect_cases
from coordination.testing.demands import lacking_in_cards, lacking_in_cases, unregistered
from coordination.testing.installations import a_leg
from coordination.testing.run import findings_of, installed_pack
from coordination.testing.unstated import improvements

__all__ = [
    "Case",
    "CaseError",
    "Expected",
    "a_leg",
    "check_case",
    "collect_cases",
    "findings_of",
    "improvements",
    "installed_pack",
    "lacking_in_cards",
    "lacking_in_cases",
    "mismatches",
    "unregistered",
]
