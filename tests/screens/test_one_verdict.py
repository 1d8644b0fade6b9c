"""Of any day the bench, `where`, the shop, the sheet and the JSON give one verdict, and one chance."""

from __future__ import annotations

import re

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.bench.stood import Stood
from coach.screens.bench_face import FIX_FIRST, WHY_KEY, short_chance, verdict_block
from coach.telling.glance import glance
from coach.telling.page import Page
from coach.telling.sheet import sheet_page, stands_line
from coach.telling.standing import standing_page
from coach.telling.values import json_values
from coach.telling.why import chance_beside, stands_text
from coach.telling.writing import Shown
from tests.bench.test_laws import NAMES, some_day

VERDICTS = ("on plan", "tight", "off plan")


def verdicts_in(text: str) -> list[tuple[str, str]]:
    """Every verdict that a text gives, with the chance beside it; "" where none is told."""
    found = re.findall(r"(On plan|Tight|Off plan)(?:, ((?:over |under )?\d+ %))?:", text)
    return [(word.lower(), chance) for word, chance in found]


def text_of(page: Page) -> str:
    return str(page)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=2, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_every_place_gives_the_same_verdict_of_a_day(name: str, data: st.DataObject) -> None:
    session = some_day(name, data)
    standing, shown = session.standing(), Shown(session.system)
    word, chance = standing.verdict.value, chance_beside(standing.verdict, standing.chance)
    assert word in VERDICTS
    assert verdicts_in(stands_text(standing, shown)) == [(word, chance)]
    assert set(verdicts_in(text_of(standing_page(standing, shown)))) <= {(word, chance)}
    _on_the_face(session)
    of_shop = glance(standing, session.first_to_measure(), shown)
    assert (of_shop.verdict, of_shop.chance) == (word, chance)
    sheet = session.sheet()
    assert (sheet.verdict, sheet.chance, sheet.reason) == Stood.of(standing)
    assert str(stands_line(sheet, shown).words).lower().startswith(word)
    assert verdicts_in(text_of(sheet_page(sheet, shown))) == verdicts_in(stands_line(sheet, shown).words)
    told, of_sheet = json_values(standing, shown), json_values(sheet, shown)
    assert isinstance(told, dict)
    assert isinstance(of_sheet, dict)
    assert told["verdict"] == of_sheet["verdict"] == word
    assert told["chance"] == of_sheet["chance"]
    assert told["reason"] == of_sheet["reason"]


def _on_the_face(session: Session) -> None:
    standing = session.standing()
    face, word = verdict_block(standing), standing.verdict.value
    done = standing.step is None and word == "on plan"
    assert face.label == ("DONE" if done else word.upper())
    assert face.caption in (short_chance(standing.verdict, standing.chance), FIX_FIRST, WHY_KEY)
