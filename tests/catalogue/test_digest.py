"""What a part states, as texts, and the digest that tells of a change."""

from __future__ import annotations

import hashlib

from catalogue.digest import content_of, digest_of
from catalogue.parts import Battery, Fuse
from catalogue.records import Band


def test_the_content_is_what_was_written() -> None:
    fuse = Fuse(
        id="f", kind="fuse", rated_current=300.0, resistance=Band(0.0001, 0.0002), line=7,
        written={"rated_current": "300 A", "resistance.min": "0.1 mΩ"},
        extra={"shop.shelf": "B 4", "shop.count": 3.5},
    )  # fmt: skip
    assert content_of(fuse) == {
        "kind": "fuse",
        "rated_current": "300 A",
        "resistance": "0.1 mΩ to 0.0002 Ω",
        "shop.shelf": "B 4",
        "shop.count": "3.5",
    }


def test_the_digest_is_sha256_of_sorted_ascii_json() -> None:
    text = rb'{"kind":"fuse","resistance":"1 m\u03a9"}'
    assert digest_of({"resistance": "1 mΩ", "kind": "fuse"}) == hashlib.sha256(text).hexdigest()


def test_id_line_and_origin_are_no_content() -> None:
    one = Battery(id="a", kind="battery", nominal_voltage=12.8, origin="file", line=3)
    other = Battery(id="b", kind="battery", nominal_voltage=12.8, origin="shop")
    assert digest_of(content_of(one)) == digest_of(content_of(other))


def test_a_kind_and_a_unit_are_content(catalogue) -> None:
    assert digest_of({"kind": "fuse"}) != digest_of({"kind": "breaker"})
    assert digest_of({"a": "1 kA"}) != digest_of({"a": "1000 A"})
    digests = {digest_of(content_of(catalogue.get(each))) for each in list(catalogue.ids())[:50]}
    assert len(digests) == 50
