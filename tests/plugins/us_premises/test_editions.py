"""The editions differ where they should: thresholds, clause numbers, what was read."""

from __future__ import annotations

from pathlib import Path

import fusewright_us_premises
import pytest
from fusewright_us_premises.editions import EDITIONS, Y2014, Y2023
from fusewright_us_premises.pack import rules

from coordination.rules.finding import Finding
from coordination.testing.run import findings_of

CABIN = Path(fusewright_us_premises.__path__[0]) / "cases" / "systems" / "cabin.yaml"


def found(edition: str, rule: str, subject: str, *changes: tuple[str, str]) -> Finding:
    text = CABIN.read_text(encoding="utf-8")
    for old, new in (("system: cabin", f"system: cabin\npacks: [us_premises@{edition}]"), *changes):
        assert old in text
        text = text.replace(old, new)
    answer = findings_of(text, only=(f"us_premises/{rule}",))
    assert answer.problems == ()
    return next(finding for finding in answer.findings if finding.subject == subject)


NO_SWITCH = ("      - {disconnect: switch-200, name: switch}\n", "")


def volts(nominal: str) -> tuple[str, str]:
    return "nominal_voltage: 51.2 V", f"nominal_voltage: {nominal}"


@pytest.mark.parametrize(
    ("edition", "nominal", "verdict"),
    [
        # 2014: above 50 V; a bank sold as 48 V has 51.2 V by its cells.
        ("2014", "48 V", "note"),
        ("2014", "50 V", "note"),
        ("2014", "50.1 V", "fail"),
        ("2014", "51.2 V", "fail"),
        # Since 2017: above 60 V.
        ("2017", "51.2 V", "note"),
        ("2017", "60 V", "note"),
        ("2017", "60.1 V", "fail"),
        ("2020", "60 V", "note"),
        ("2020", "60.1 V", "fail"),
        ("2023", "51.2 V", "note"),
        ("2023", "60.1 V", "fail"),
    ],
)
def test_the_battery_disconnect_moves_from_50_to_60_volts(
    edition: str, nominal: str, verdict: str
) -> None:
    finding = found(edition, "battery-disconnect", "bank", NO_SWITCH, volts(nominal))
    assert finding.verdict == verdict
    assert finding.source.document == f"NFPA 70:{edition}"
    assert finding.source.clause == ("480.6(A)" if edition == "2014" else "480.7(A)")


@pytest.mark.parametrize(("edition", "there"), [("2014", False), ("2017", True), ("2023", True)])
def test_article_706_came_in_2017(edition: str, there: bool) -> None:
    edition_rules = rules(next(each for each in EDITIONS if each.year == edition))
    assert ("storage-disconnect" in {rule.card.name for rule in edition_rules}) is there


def test_article_706_had_no_energy_threshold_in_2017() -> None:
    """62.5 V × 1 Ah is far below 1 kWh."""
    small = (volts("62.5 V"), ("capacity: 100 Ah", "capacity: 1 Ah"), NO_SWITCH)
    assert found("2017", "storage-disconnect", "bank", *small).verdict == "fail"
    assert found("2020", "storage-disconnect", "bank", *small).verdict == "note"


def test_tables_were_read_in_2023_only() -> None:
    """126 A on 2 AWG: fire by the figures read, paperwork by the same figures from memory."""
    large = ("rated_current: 110 A", "rated_current: 126 A")
    assert found("2023", "conductor-protection", "lead", large).severity == "fire"
    finding = found("2014", "conductor-protection", "lead", large)
    assert (finding.verdict, finding.severity) == ("fail", "paperwork")
    assert "the text of the standard decides" in finding.reason


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.year)
def test_every_card_cites_its_edition(edition) -> None:
    for rule in rules(edition):
        assert rule.card.source.document == f"NFPA 70:{edition.year}"
        assert rule.card.source.read or rule.card.severity == "paperwork"


def test_older_tables_have_older_numbers() -> None:
    assert Y2014.table(Y2014.raceway).clause == "Table 310.15(B)(16)"
    assert not Y2014.table(Y2014.raceway).read
    assert Y2023.table(Y2023.raceway).read
