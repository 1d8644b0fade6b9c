"""Remarks are carried from a text to one written anew."""

from __future__ import annotations

import pytest

from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.recipe import remarks
from coach.recipe.tree import Plain, read_laid_out


def test_a_text_is_taken_apart_once_however_many_steps_stand_in_it(monkeypatch: pytest.MonkeyPatch) -> None:
    text = made_often((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"), 6)
    taken_apart: list[str] = []

    def counted(one: str, source: str) -> Plain:
        taken_apart.append(one)
        return read_laid_out(one, source)

    monkeypatch.setattr(remarks, "read_laid_out", counted)
    remarks.with_remarks(text, text, [(text, at) for at in range(40)], {})
    assert taken_apart == [text]
