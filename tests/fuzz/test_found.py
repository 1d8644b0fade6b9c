"""What the fuzz has found stays mended, and each of its families is at work."""

from __future__ import annotations

from importlib import import_module

import pytest

from tests.fuzz import keys
from tests.fuzz.__main__ import FAMILIES, tried


@pytest.mark.parametrize("family", FAMILIES)
def test_a_few_of_each_family_are_answered_or_refused_in_a_sentence(family: str) -> None:
    count, fault = tried(family, 3, 20261125)
    assert not fault, fault
    assert count >= 3


def test_what_fails_would_be_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def failing(_: object) -> None:
        raise KeyError("the tip")

    monkeypatch.setattr(import_module("tests.fuzz.sizes"), "check", failing)
    assert "KeyError: 'the tip'" in tried("sizes", 3, 1)[1]


@pytest.mark.parametrize("key", ["pageup", "pagedown"])
def test_a_page_of_a_list_that_no_window_has_room_for(key: str) -> None:
    keys.check(((20, 5), False, [key, key]))
