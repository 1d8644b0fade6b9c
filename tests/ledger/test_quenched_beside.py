"""Steel in a quench that no temper reaches: it is as hard as the rest, and flies."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.ledger.weigh import Cannot, weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

POINT = """\
recipe: Stone point
pieces:
  tool:
    metal: C80
    bar: octagon 20
    zones:
      point: square 18 to 4, long 60 ±8
      body: octagon 20, long 140 ±14
      butt: round 19 to 14, long 15 ±4
usual: {at: yellow, kerf: 2}
steps:
  - mark out: tool
  - taper: point, 4 heats
  - cut: butt, cold
  - taper: butt, 2 heats
  - normalise: all of tool, 3 heats, at 845 to 870 °C
  - harden: point, at 780 to 820 °C, soak 5 to 10 min, quench water
  - temper: point, at 300 to 320 °C, soak 1.5 h, hardness 52 to 56
"""


@pytest.mark.parametrize(
    ("named", "left"),
    [
        ("all of tool", "body and butt"),
        ("point and body", "body"),
        ("point and body and butt", "body and butt"),
    ],
)
def test_what_is_quenched_with_the_rest_is_tempered_with_it(named: str, left: str) -> None:
    # Untempered martensite of 0.8 % carbon is brittle: every text on heat treatment (common practice).
    plan = look_back(read_recipe(POINT.replace("harden: point,", f"harden: {named},"), "point.yaml"))
    (one,) = weigh(plan)
    assert (one.what, one.step) == (Cannot.REST_HARD, 6)
    assert f"the {left} is quenched with the point and no temper reaches it" in write(one.sentence)


def test_where_the_temper_reaches_all_of_it_nothing_is_said() -> None:
    text = POINT.replace("harden: point,", "harden: all of tool,").replace(
        "temper: point", "temper: all of tool"
    )
    plan = look_back(read_recipe(text, "point.yaml"))
    assert not weigh(plan)
    assert not list(questions(plan))


def test_what_only_lies_in_the_fire_is_asked_about() -> None:
    text = POINT.replace("harden: point,", "harden: point, also hot body,")
    (asked,) = (write(one.sentence) for one in questions(look_back(read_recipe(text, "point.yaml"))))
    assert "in its fire lies the body too, and no temper reaches that" in asked


def test_a_step_is_called_by_all_that_it_is_done_to() -> None:
    text = POINT.replace("harden: point,", "harden: point and body,").replace(
        "temper: point", "temper: all of tool"
    )
    titles = [step.title for step in read_recipe(text, "point.yaml").steps]
    assert titles[4:] == ["Normalise the tool", "Harden the point and body", "Temper the tool"]


def test_beside_a_struck_end_what_else_stays_hard_is_told_too() -> None:
    text = POINT.replace("butt", "struck face").replace("harden: point,", "harden: all of tool,")
    found = weigh(look_back(read_recipe(text, "point.yaml")))
    assert [(one.what, one.zone) for one in found] == [
        (Cannot.BE_STRUCK, "struck face"),
        (Cannot.REST_HARD, "body"),
    ]
    assert "the body is quenched with the point" in write(found[1].sentence)
