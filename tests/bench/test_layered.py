"""Thin layers of two steels share their carbon at welding heat, and are told so where they are hardened."""

from __future__ import annotations

import pytest

from coach.places import bundled_recipes
from coach.telling.words import write
from tests.bench.jobs import shop

RECIPE = next(bundled_recipes().glob("layered-knife.yaml")).read_text("utf-8")


def known_at(number: int, text: str = RECIPE) -> str:
    session = shop().begin(text, "knife.yaml", None)
    while (step := session.standing().step) is not None and step.number < number:
        session.done()
    assert step is not None
    return " ".join(write(words) for words in step.know)


@pytest.mark.parametrize("number", [19, 20])
def test_thin_layers_are_told_by_the_carbon_that_they_have_together(number: int) -> None:
    # Five layers of 4 mm with 0.85 % and four of 1.5 mm with 0.18 % by hand: (5·4·0.85 + 4·1.5·0.18) / 26 =
    # 0.695 %. Fick: at 1100 °C carbon goes √(1.1e-10 · 1800) = 0.44 mm in half an hour; a layer is 0.3 mm.
    told = known_at(number)
    assert "18 thin layers have shared their carbon" in told
    assert "0.7 %" in told


def test_layers_of_as_much_soft_steel_as_hard_are_not_promised_the_hard_steel_s_hardness() -> None:
    # (20·0.85 + 16·0.18) / 36 = 0.55 %: full martensite is 20 + 60·√0.55 = 64.5 HRC at the most, and 7 less
    # is told of such steels (from memory), against 63 to 67 HRC of 1084.
    told = known_at(19, RECIPE.replace("mild steel, 30 x 1.5", "mild steel, 30 x 4"))
    assert "63 to 67 HRC" not in told
    assert "57 to 64 HRC" in told


def test_a_bar_of_one_steel_has_nothing_to_share() -> None:
    text = next(bundled_recipes().glob("drawknife.yaml")).read_text("utf-8")
    assert "shared their carbon" not in known_at(13, text)
