"""Everything taken from others has a lowest version, a place in CI's lock, and a licence."""

from __future__ import annotations

import re

import pytest

from tests.supply.licences import ALLOWED, PAGE, installed
from tests.supply.requirements import FOR_USERS, ROOT, requirements

LOCK = ROOT / ".ci/lock.txt"


@pytest.mark.parametrize("each", requirements((*FOR_USERS, "test")), ids=lambda each: each.name)
def test_the_oldest_version_is_stated(each) -> None:
    assert re.fullmatch(r"\d+(\.\d+)*", each.least), each


@pytest.mark.parametrize("each", installed(), ids=lambda each: each.name)
def test_its_licence_is_one_we_may_use_and_is_on_the_page(each) -> None:
    held = [licence in ALLOWED for licence in each.licences]
    assert all(held) if each.all_hold else any(held), each
    assert f"| {each.name} |" in PAGE.read_text("utf-8"), "run: python -m tests.supply.licences"


def test_the_lock_holds_one_version_of_all_that_is_asked_for() -> None:
    pins = re.findall(r"^([\w.-]+)==(\S+)$", LOCK.read_text("utf-8"), re.MULTILINE)
    names = [re.sub(r"[-_.]+", "-", name).lower() for name, _ in pins]
    assert len(names) == len(set(names))
    for each in requirements((*FOR_USERS, "test", "dev")):
        assert re.sub(r"[-_.]+", "-", each.name).lower() in names, each
