"""The recipe that a job was really forged by is a file that reads back as the job was, remarks and all."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.looking_back import look_back
from coach.places import bundled_recipes
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop as a_shop
from tests.bench.test_do_again import open_weld
from tests.bench.test_file_amended import TOOL, changed

REMARKED = """\
# Made for the second gate.
recipe: Strap
pieces:
  strap:  # a bar of the old lot
    metal: mild steel
    bar: 40 x 12
    zones:
      # the tang is cut last
      blade: 40 ±1 x 8 ±0.5, long 240 ±12  # ground later
      tang: 20 ±1 x 12, long 120 ±10
steps:
  - mark out: strap
  # the long one
  - draw: blade, 3 heats  # by two
    how: Even blows.
  - draw: tang, 2 heats
"""


@pytest.fixture
def shop() -> Iterator[Shop]:
    with a_shop() as opened:
        yield opened


def meant(recipe: Recipe) -> object:
    """What a recipe means, but for its text and for heats that are only reckoned."""
    return (
        recipe.title,
        recipe.pieces,
        {zone: (one.shape, one.limits, one.take_up) for zone, one in recipe.drawing.items()},
        [
            (one.operation, one.zones, one.lays, one.targets, one.heats, one.checks, one.how)
            for one in recipe.steps
        ],
    )


@pytest.mark.parametrize("path", sorted(bundled_recipes().glob("*.yaml")), ids=lambda path: path.stem)
def test_of_a_job_just_begun_it_is_the_recipe_that_it_began_with(shop: Shop, path: Path) -> None:
    session = shop.begin(path.read_text(encoding="utf-8"), path.name)
    again = read_recipe(session.forged(), "again.yaml")
    assert meant(look_back(again).as_written) == meant(session.recipe)


def test_the_heats_that_were_taken_stand_in_it(shop: Shop) -> None:
    session = shop.begin(REMARKED, "strap.yaml")
    session.done()
    for _ in range(5):
        session.heat()
    session.done()
    again = read_recipe(session.forged(), "again.yaml")
    assert [step.heats for step in again.steps] == [0, 5, 2]


def test_remarks_stand_where_they_stood_and_notes_at_their_steps(shop: Shop) -> None:
    session = shop.begin(REMARKED, "strap.yaml")
    session.done()
    session.note("the fire was dirty")
    lines = [line.strip() for line in session.forged().splitlines()]
    assert lines[0] == "# Made for the second gate."
    at = lines.index("- draw: blade, 3 heats")
    assert lines[at - 3 : at] == ["# the long one", "# by two", "# note: the fire was dirty"]
    at = next(at for at, line in enumerate(lines) if line.startswith("blade:"))
    assert lines[at - 2 : at] == ["# the tang is cut last", "# ground later"]


@pytest.mark.parametrize("path", sorted(bundled_recipes().glob("*.yaml")), ids=lambda path: path.stem)
def test_no_remark_of_a_recipe_that_names_its_tools_is_lost(shop: Shop, path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    remarks = [mark[1] for line in text.splitlines() if (mark := re.search(r"(?:^|\s)(# .*)$", line))]
    assert remarks
    written = shop.begin(text, path.name).forged()
    assert [one for one in remarks if one not in written] == []


def test_a_remark_at_a_step_stands_there_where_tools_are_listed(shop: Shop) -> None:
    tools = REMARKED.replace("pieces:", "tools:\n  - a hammer\n  - tongs of 12 mm\n# all of one bar\npieces:")
    lines = [line.strip() for line in shop.begin(tools, "strap.yaml").forged().splitlines()]
    assert lines[lines.index("- draw: blade, 3 heats") - 2 :][:2] == ["# the long one", "# by two"]
    assert lines[lines.index("pieces:") - 2 :][:2] == ["- tongs of 12 mm", "# all of one bar"]
    assert lines[lines.index("- a hammer") - 1] == "tools:"


def test_an_amendment_stands_in_it(shop: Shop) -> None:
    session = shop.begin(TOOL, "strap.yaml")
    session.done()
    text = changed("  - draw: tang", "  - inspect: blade\n  - draw: tang")
    session.amend(changed("long 240 ±12", "long 240 ±20", text), "strap.yaml")
    again = read_recipe(session.forged(), "again.yaml")
    assert meant(look_back(again).as_written) == meant(session.recipe)
    assert again.drawing["blade"].limits["length"].low == 220.0


def off_plan(shop: Shop) -> Session:
    """A job whose blade was drawn too thin, with what can be done about it."""
    session = shop.begin(TOOL, "strap.yaml")
    session.done()
    session.heat()
    session.read("blade.thickness", "7.2")
    return session


def test_a_way_back_that_was_taken_stands_in_it(shop: Shop) -> None:
    session = off_plan(shop)
    ways = [way.name for way in session.ways_back()]
    assert ways
    for name in ways:
        if "accept" in name:
            session.take(name)
            break
    again = read_recipe(session.forged(), "again.yaml")
    written, taken = (one.drawing["blade"].limits["thickness"] for one in (again, session.recipe))
    # A file has a thousandth of a millimetre.
    assert (written.nominal, written.low, written.high) == pytest.approx(
        (taken.nominal, taken.low, taken.high), abs=5e-4
    )
    look_back(again)


def test_a_way_back_that_was_taken_is_told_at_its_step_until_it_is_struck_out(shop: Shop) -> None:
    session = off_plan(shop)
    way = next(way.name for way in session.ways_back() if "accept" in way.name)
    session.take(way)
    lines = [line.strip() for line in session.forged(lambda words: write(words, Shown())).splitlines()]
    at = lines.index("# note: way back: Accept the blade thickness at 7.2 mm")
    assert lines[at + 1].startswith("- draw: blade")
    session.strike()
    assert "way back" not in session.forged(lambda words: write(words, Shown()))


def test_a_step_that_was_done_again_stands_in_it() -> None:
    session = open_weld()
    session.take("do-again-weld-poll")
    again = read_recipe(session.forged(), "again.yaml")
    assert [step.title for step in again.steps] == [step.title for step in session.recipe.steps]
    assert "Again: weld the face on the poll" in [step.title for step in again.steps]
    look_back(again)
