"""The sections `conditions:` and `waivers:`."""

from __future__ import annotations

from datetime import date

from coordination.model import Condition, Waiver
from coordination.reading.fields import Field
from coordination.reading.nodes import Node
from coordination.reading.reader import Reader, Slot, Written
from coordination.reading.records import read_record
from coordination.reading.scalars import read_quantity
from coordination.reading.system_fields import CONDITION, WAIVER
from coordination.reading.text import quoted
from coordination.reading.vocabulary import NO_WORDS, Vocabulary

NORMAL = "normal"


def read_conditions(reader: Reader, node: Node) -> dict[str, Condition]:
    """`conditions:` by name, 'normal' first whether stated or not."""
    found = {NORMAL: Condition(name=NORMAL, line=0)}
    for name, key, value in reader.named(node, ""):
        written: Written = {}
        values = read_record(reader, key, value, CONDITION, written)
        for both in set(values.get("close", ())) & set(values.get("open", ())):
            reader.notes.say(key, f"condition {quoted(name)} both closes and opens {quoted(both)}",
                             "one of close and open")
        if "draw" in values:
            values["draw"] = _shares(reader, values["draw"], CONDITION.fields["draw"], written)
        found[name] = Condition(name=name, line=key.line, written=written, **values)
    return found


def _shares(reader: Reader, node: Node, field: Field, written: Written) -> dict[str, float]:
    """{name: share}, the names checked when all of the file is read."""
    found: dict[str, float] = {}
    for name, (key, value) in (reader.entries(node) or {}).items():
        reader.references.use(name, field.role, key)
        share = read_quantity(reader, value, Slot(field, f"draw.{name}", written))
        if share is not None:
            found[name] = share
    return found


def read_waivers(
    reader: Reader, node: Node, words: Vocabulary = NO_WORDS
) -> tuple[Waiver, ...]:
    """`waivers:`; each has all of its fields, and no two are for the same rule and subject."""
    found: dict[tuple[str, str], Waiver] = {}
    for item in reader.items(node, "waivers", "{rule: ..., subject: ..., ...}"):
        values = read_record(reader, item, item, WAIVER, {})
        rule = values.get("rule", "")
        if rule:
            _check_rule(reader, (reader.entries(item) or {})["rule"][1], rule, words)
        if len(values) != len(WAIVER.fields):
            continue
        key = (rule, values["subject"])
        if key in found:
            what = f"{quoted(rule)} is waived for it in line {found[key].line} already"
            reader.notes.say(item, what, "one waiver for each rule and subject")
        values["date"] = date.fromisoformat(values["date"])
        found[key] = Waiver(line=item.line, **values)
    return tuple(found.values())


def _check_rule(reader: Reader, at: Node, rule: str, words: Vocabulary) -> None:
    """Note a rule that no pack in use has; one of a pack that is not in use today may stand."""
    pack, _, name = rule.partition("/")
    if not (pack and name):
        reader.notes.say(at, f"{quoted(rule)} names no rule", "pack/rule-name")
        return
    if not words.rules or rule in words.rules or pack in words.skipped:
        return
    ours = [each for each in words.rules if each.startswith(f"{pack}/")]
    near = reader.notes.nearest(rule, sorted(ours or words.rules))
    if ours or near:
        what = f"no pack in use has a rule {quoted(rule)}"
        reader.notes.say(at, what, "pack/rule-name, as `fusewright rules` lists them", near)
