"""What a remedy changes, kept in the log as JSON and read back the same."""

from __future__ import annotations

import json
from math import inf

from hypothesis import given
from hypothesis import strategies as st

from coach.ledger.amended import amended_plan, amended_recipe, amended_workpiece
from coach.ledger.amendment import (
    Again,
    Amendment,
    CutAnew,
    Moved,
    NewAllowance,
    NewBath,
    NewHeats,
    NewLimits,
    NewLoss,
    NewTarget,
    OffBar,
    Regained,
    TakenBack,
)
from coach.ledger.amendment_kept import frozen, thawed
from coach.ledger.workpiece import at_stock
from coach.metals.quenches import QUENCHES
from coach.quantities import Limits
from tests.ledger.recipes import DRAW, NEIGHBOURS, planned, recipe

names = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1, max_size=20)
sizes = st.floats(-1e6, 1e6)
numbers = st.integers(1, 200)
baths = st.sampled_from(["", *QUENCHES])


@st.composite
def limits(draw: st.DrawFn) -> Limits:
    nominal = draw(st.floats(0.1, 1e4))
    low = draw(st.sampled_from([-inf, 0.5 * nominal, nominal]))
    high = draw(st.sampled_from([nominal, 1.5 * nominal, inf]))
    return Limits(nominal, low, high, True)


def some(*parts: st.SearchStrategy[object], of: type) -> st.SearchStrategy[tuple[object, ...]]:
    return st.lists(st.builds(of, *parts), max_size=3).map(tuple)


amendments = st.builds(
    Amendment,
    limits=some(names, names, limits(), of=NewLimits),
    targets=some(numbers, names, limits(), of=NewTarget),
    heats=some(numbers, numbers, of=NewHeats),
    moved=some(names, sizes, sizes, of=Moved),
    regained=some(names, names, sizes, sizes, of=Regained),
    allowances=some(names, sizes, of=NewAllowance),
    again=some(
        numbers,
        numbers,
        numbers,
        st.lists(names, max_size=2).map(tuple),
        baths,
        st.none() | limits(),
        of=Again,
    ),
    baths=some(numbers, baths.filter(bool), of=NewBath),
    taken_back=some(names, sizes, of=TakenBack),
    losses=some(numbers, sizes, of=NewLoss),
    cut_anew=some(names, sizes, of=CutAnew),
    off_bar=some(names, sizes, st.booleans(), names, of=OffBar),
)


@given(amendments)
def test_an_amendment_comes_out_of_json_as_it_went_in(amendment: Amendment) -> None:
    assert thawed(json.loads(json.dumps(frozen(amendment), allow_nan=False))) == amendment


def test_the_recipe_that_a_job_began_with_is_left_as_it_was() -> None:
    before, untouched = recipe(DRAW), recipe(DRAW)
    new = Limits(230.0, 215.0, 252.0, True)
    after = amended_recipe(before, Amendment(limits=(NewLimits("strap", "length", new),)))
    assert after.drawing["strap"].limits["length"] == new
    assert after.drawing["strap"].limits["width"] == before.drawing["strap"].limits["width"]
    assert before == untouched


def test_new_targets_and_heats_change_their_own_step_alone() -> None:
    before = recipe(NEIGHBOURS)
    new = Limits(15.0, 14.5, 15.5, True)
    after = amended_recipe(before, Amendment(targets=(NewTarget(2, "side", new),), heats=(NewHeats(2, 5),)))
    assert after.steps[0] == before.steps[0]
    assert (after.steps[1].targets["side"], after.steps[1].heats) == (new, 5)


def test_metal_alone_changes_no_plan() -> None:
    plan = planned(NEIGHBOURS)
    assert amended_plan(plan, Amendment(moved=(Moved("near", 400.0, 60.0),))) is plan


def test_moved_metal_is_there_with_its_doubt() -> None:
    before = at_stock(planned(NEIGHBOURS))
    amendment = Amendment(moved=(Moved("near", 400.0, 60.0), Moved("far", -400.0, 60.0)))
    after = amended_workpiece(before, amendment)
    for zone, sign in (("near", 1.0), ("far", -1.0)):
        was, now = before.volume(zone), after.volume(zone)
        assert abs(now.value - was.value - sign * 400.0) < 1e-9
        assert abs(now.doubt**2 - was.doubt**2 - 60.0**2) < 1e-6


def test_nothing_to_change_changes_nothing() -> None:
    before = at_stock(planned(DRAW))
    assert amended_workpiece(before, Amendment()) is before


def test_what_an_amendment_had_not_from_the_first_is_kept_as_well() -> None:
    anew = Amendment(
        cut_anew=(CutAnew("face"),), regained=(Regained("pin", "length", 80.0, 1.0, under_way=True),)
    )
    assert thawed(json.loads(json.dumps(frozen(anew)))) == anew


def test_an_amendment_of_before_that_is_read_as_it_was() -> None:
    kept: dict[str, object] = {name: [] for name in Amendment._fields if name != "cut_anew"}
    assert thawed({**kept, "regained": [["pin", "length", 80.0, 1.0]]}) == Amendment(
        regained=(Regained("pin", "length", 80.0, 1.0),)
    )
