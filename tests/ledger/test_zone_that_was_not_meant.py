"""A step on a zone that it cannot be meant for, beside another that it can: the line is named."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

SCRAPER = """\
recipe: Scraper
usual: {at: light yellow}
pieces:
  post:
    metal: mild steel
    bar: 25 x 10
    zones:
      seat: 26 ±1.5 x 10 ±0.6, round hole 8.6 ±0.5 through its thickness, long 40 ±4
      stem: 25 ±1 x 10 ±0.5, long 110 ±6
  plate:
    metal: mild steel
    bar: 40 x 8
    zones:
      tenon: rivet, heads one, diameter 8 ±0.4, grip 10 ±0.6, head diameter 14 ±2, head height 6 ±1.5
      blade: 40 ±1 x 5 ±0.5, long 250 ±15
steps:
  - mark out: post
  - punch: seat, wide 26 ±1, round hole 8.6 ±0.5 through its thickness, long free, 2 heats, slug 4
  - mark out: plate
  - draw: blade, 40 x 5, 3 heats
  - set down: tenon, round 8 ±0.4, 2 heats
  - join: seat and blade by tenon, 1 heat, heads one, grip 10 ±0.6, head diameter 14 ±2
  - sharpen: blade
"""


def told(was: str, now: str) -> list[str]:
    """What is found and asked of the scraper's joint and edge, with one thing written otherwise."""
    assert was in SCRAPER
    plan = look_back(read_recipe(SCRAPER.replace(was, now), "scraper.yaml"))
    found = [(one.step, one.sentence) for one in planned_tool(plan).findings]
    asked = [(one.step, one.sentence) for one in questions(plan)]
    return [write(sentence) for step, sentence in (*found, *asked) if step in (6, 7)]


def test_as_it_is_meant_nothing_is_asked() -> None:
    assert told("sharpen: blade", "sharpen: blade") == []


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ("join: seat and", "join: stem and", "stem has no hole for it to go through, and seat"),
        ("sharpen: blade", "sharpen: stem", "stem is nowhere thinner than 10 mm, and blade is"),
    ],
)
def test_another_zone_is_asked_about_at_its_step(was: str, now: str, says: str) -> None:
    (one,) = told(was, now)
    assert says in one
