"""A line a job, and what they add up to, for people."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any, Final

from coordination.fleet.tally import Tally
from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, labelled
from coordination.report.wording import clean, counted
from coordination.rules.finding import VERDICTS
from coordination.sealing.as_text import moves_in_words
from coordination.sealing.changes import MOVES

#: Parts that the summary names.
_MOST_PARTS: Final = 12
_ORDER: Final = ("fail", "unproven", "waived", "note", "pass")
_STYLES: Final = {"pass": "pass", "unproven": "unproven"}


def job_line(line: dict[str, Any], paint: Paint = plain) -> str:
    """ "FAIL      hulls/tern.yaml: 2 fail, 41 pass; changed (parts): 1 new fail"."""
    word = line["verdict"] or line["outcome"]
    head = paint(_STYLES.get(word, "fail"), f"{word.upper():<9}")
    said = [_counts(line["counts"])] if line["counts"] else []
    said += _problems(line)
    if line["seal"]:
        said.append(_seal(line["seal"]))
    return f"{head} {clean(line['file'])}: {clean('; '.join(said))}"


def _problems(line: dict[str, Any]) -> list[str]:
    """The first problem, without the file's name, and how many there are besides."""
    problems = [each.removeprefix(f"{clean(line['file'])}:").lstrip() for each in line["problems"]]
    more = f"and {counted(len(problems) - 1, 'more problem')}"
    return [*problems[:1], *([more] if len(problems) > 1 else [])]


def _counts(counts: dict[str, int]) -> str:
    assert set(counts) == set(VERDICTS)
    return ", ".join(f"{counts[each]} {each}" for each in _ORDER if counts[each]) or "no finding"


def _seal(seal: dict[str, Any]) -> str:
    """How the job stands to its seal; empty words where it has none."""
    if seal["state"] == "none":
        return "no seal"
    if seal["state"] == "unusable":
        return f"SEAL UNUSABLE: {seal['problem']}"
    if seal["state"] == "same":
        return f"as sealed {seal['date']}"
    causes = f" ({', '.join(seal['causes'])})" if seal["causes"] else ""
    moves = moves_in_words((how, seal["moves"].get(how, 0)) for how in MOVES)
    return f"changed since {seal['date']}{causes}: {moves or 'no verdict, no lower margin'}"


def summary_text(tally: Tally, width: int) -> str:
    """What the jobs add up to; begins with an empty line and ends in a newline."""
    lines = ["", _headline(tally)]
    lines += labelled(_rows(tally), max(width, NARROWEST), "  ")
    return "\n".join(lines) + "\n"


def _headline(tally: Tally) -> str:
    counts = _listed(tally.verdicts, ("fail", "unproven", "pass"))
    lost = _listed(tally.outcomes, ("unusable", "failed", "died", "hung"))
    said = ", ".join(filter(None, (lost, counts)))
    end = "" if tally.whole else "; interrupted, the rest was not come to"
    return f"{counted(tally.jobs, 'job')}: {said or 'nothing was checked'}{end}"


def _listed(counts: Counter[str], names: tuple[str, ...]) -> str:
    return ", ".join(f"{counts[name]} {name}" for name in names if counts[name])


def _rows(tally: Tally) -> Iterator[tuple[str, str]]:
    """Label and text of each row of the summary."""
    seals = {"same": "as sealed", "changed": "changed", "none": "without a seal",
             "unusable": "with an unusable seal"}  # fmt: skip
    said = [f"{tally.seals[state]} {words}" for state, words in seals.items() if tally.seals[state]]
    yield "seals", ", ".join(said)
    of = ", ".join(f"{name} in {count}" for name, count in tally.causes.most_common())
    yield "changed", of
    yield "with", ", ".join(f"{how} in {tally.moves[how]}" for how in MOVES if tally.moves[how])
    parts = sorted(tally.parts.items(), key=lambda each: (-each[1], each[0]))
    more = f", and {len(parts) - _MOST_PARTS} more" if len(parts) > _MOST_PARTS else ""
    named = ", ".join(f"{clean(name)} in {counted(n, 'job')}" for name, n in parts[:_MOST_PARTS])
    yield "parts", named + more if named else ""
    yield "passed over", _passed_over(tally)
    yield from (("unreadable", clean(f"{p}: {reason}")) for p, reason in tally.found.unreadable)
    yield from (("no file", clean(path)) for path in tally.found.odd)


def _passed_over(tally: Tally) -> str:
    said = []
    if tally.skipped:
        said.append(counted(tally.skipped, "other YAML file"))
    if tally.unaffected:
        said.append(f"{counted(tally.unaffected, 'job')} without the part")
    return ", ".join(said)
