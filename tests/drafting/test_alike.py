"""A recipe like another: its sizes so many times as large, or from another bar."""

from __future__ import annotations

import pytest

from coach.drafting.alike import made_like
from coach.drafting.answers import CannotDraft
from coach.drafting.draft import checked
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe
from coach.telling.words import write

TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(bundled_recipes().glob("*.yaml"))}


@pytest.mark.parametrize("name", TEXTS)
def test_once_as_large_it_means_the_same(name: str) -> None:
    was, now = (read_recipe(text, name) for text in (TEXTS[name], made_like(TEXTS[name], name)))
    assert was.drawing.keys() == now.drawing.keys()
    assert [zone.limits for zone in was.drawing.values()] == [zone.limits for zone in now.drawing.values()]
    assert [step._replace(cautions=()) for step in was.steps] == [
        step._replace(cautions=()) for step in now.steps
    ]


@pytest.mark.parametrize("name", ["first-hook", "twisted-poker", "cold-chisel", "punches-and-drifts"])
def test_a_fifth_larger_it_passes_check_and_weighs_as_much_as_that_makes_it(name: str) -> None:
    was, now = checked(TEXTS[name]), checked(made_like(TEXTS[name], name, scale=1.2))
    assert now.planned.verdict is PlanState.ON_PLAN
    assert now.planned.findings == ()
    # Similar solids: 1.2³, and what whole half millimetres make of it.
    assert now.planned.finished_mass.value / was.planned.finished_mass.value == pytest.approx(1.728, rel=0.03)


def test_limits_grow_with_the_tool_and_do_not_shrink_with_it() -> None:
    was = read_recipe(TEXTS["first-hook"], "x").drawing["shank"].limits["length"]
    for scale, width in ((1.5, 1.5), (0.5, 1.0)):
        now = (
            read_recipe(made_like(TEXTS["first-hook"], "x", scale=scale), "x")
            .drawing["shank"]
            .limits["length"]
        )
        assert now.nominal == pytest.approx(scale * was.nominal)
        assert now.width == pytest.approx(width * was.width)


def test_from_another_bar_it_takes_as_much_metal() -> None:
    now = checked(made_like(TEXTS["first-hook"], "x", bar="round 14"))
    (piece,) = now.plan.pieces.values()
    assert piece.stock.form == "round"
    assert now.planned.findings == ()


# Its shank is hexagon bar as it comes: from square bar it has to be drawn to six sides.
def test_what_was_left_as_its_bar_is_drawn_where_the_new_bar_is_another() -> None:
    text = made_like(TEXTS["cold-chisel"], "x", bar="square 20")
    now = checked(text)
    assert now.planned.findings == ()
    assert now.planned.verdict is PlanState.ON_PLAN
    (drawn,) = (
        step for step in now.plan.recipe.steps if step.operation == "draw" and step.zones == ("shank",)
    )
    assert drawn.targets["across_flats"] == now.plan.recipe.drawing["shank"].limits["across_flats"]
    assert text.count("\n  - ") == TEXTS["cold-chisel"].count("\n  - ") + 1


def test_remarks_and_advice_stay() -> None:
    text = made_like(TEXTS["first-hook"], "x", scale=1.2)
    for line in TEXTS["first-hook"].splitlines():
        if line.strip().startswith("#"):
            assert line.strip() in text
    assert "how:" in text


@pytest.mark.parametrize(
    ("named", "told"), [({"scale": 20.0}, "from 0.2 to 5"), ({"bar": "rond 14"}, "rond")]
)
def test_a_scale_or_a_bar_that_nobody_means_is_refused(named: dict[str, float | str], told: str) -> None:
    with pytest.raises(CannotDraft) as refused:
        made_like(TEXTS["first-hook"], "x", **named)  # type: ignore[arg-type]
    assert told in write(refused.value.words)
