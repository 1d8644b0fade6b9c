"""An amendment of a recipe that was made by hand takes no command down: it is left out, with why."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from coach.bench.shop import Shop
from coach.log.carry import export_job
from coach.log.entries import canonical_json, chained_digest
from coach.quantities.refusal import Refusal
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.bench.test_file_amended import TOOL


def amended_by(spoil: Callable[[dict[str, Any]], object]) -> str:
    """A job file whose amendment holds a recipe that was spoilt, every seal right."""
    with shop() as place:
        session = place.begin(TOOL, "strap.yaml")
        session.done()
        session.amend(TOOL.replace("draw: blade, 3 heats", "draw: blade, 4 heats"), "strap.yaml")
        head, *entries = map(json.loads, export_job(place.log, session.job).splitlines())
    recipe = json.loads(entries[-1]["body"]["recipe"])
    spoil(recipe)
    last = entries[-1]
    last["body"]["recipe"] = json.dumps(recipe)
    sealed = canonical_json(last["body"])
    last["digest"] = chained_digest(
        last["previous"], head["job"], last["number"], last["at"], last["kind"], sealed
    )
    head["ends"] = last["digest"]
    return "".join(f"{json.dumps(line)}\n" for line in (head, *entries))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda recipe: recipe["steps"][2].update(heated=["nosuch"]),
        lambda recipe: recipe["steps"][1].update(zones=["nosuch"]),
        lambda recipe: recipe["steps"][1].update(lays="nosuch"),
        lambda recipe: recipe["drawing"]["blade"].update(piece="nosuch"),
        lambda recipe: recipe["steps"][1].update(number=9),
        lambda recipe: recipe["steps"][1].update(temperature_c="hot"),
        lambda recipe: recipe.update(steps=[]),
    ],
)
def test_what_cannot_be_reckoned_with_is_left_out_or_refused(
    spoil: Callable[[dict[str, Any]], object],
) -> None:
    with shop() as place:
        try:
            session = place.bring_in(amended_by(spoil))
        except Refusal:
            assert place.jobs() == ()
            return
        left_out = session.standing().left_out
        assert len(left_out) == 1
        assert write(left_out[0].words, Shown())
        assert session.heat().entry == 4


def test_one_that_is_as_it_was_written_is_followed() -> None:
    with shop() as place:
        assert isinstance(place, Shop)
        session = place.bring_in(amended_by(lambda recipe: recipe))
        assert not session.standing().left_out
        assert session.recipe.steps[1].heats == 4
