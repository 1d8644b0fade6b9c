"""A job file made by hand is refused in one sentence or opens; never is there anything between."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.amendment import Amendment
from coach.ledger.amendment_kept import frozen
from coach.log.carry import JobFileFault, export_job
from coach.log.errors import JobExists, LogDamaged
from coach.log.kinds.began import Began
from coach.operations.gauges import READ_BY
from coach.quantities.refusal import Refusal
from tests.bench.jobs import begun, shop, ticking
from tests.ledger.recipes import DRAW, LAID
from tests.log.bodies import READING, WAY_BACK
from tests.log.hand_made import Made, job_file, rows


def beginning_of(text: str) -> Began:
    """How a job of this recipe begins."""
    with shop() as place:
        body = place.log.entries(begun(text, place).job)[0].body
    assert isinstance(body, Began)
    return body


LAID_BEGAN = beginning_of(LAID)
READ = {**READING.to_json(), "dimension": "width", "size": 30.0}


def a_way_back(**lists: object) -> Made:
    """A way back that changes nothing but this."""
    return "way back", {**WAY_BACK.to_json(), "amendment": {**frozen(Amendment()), **lists}}


MISFITS: list[tuple[Made, str]] = [
    (("heat", {"step": 7}), "is of step 7, and this job has 6"),
    (("fire", {"step": 99}), "is of step 99, and this job has 6"),
    (
        ("done", {"step": 10_000, "heats": 1, "marked": False, "told": False}),
        "is of step 10000, and this job has 6",
    ),
    (("note", {"text": "x", "step": 7}), "is of step 7, and this job has 6"),
    (
        ("reading", {**READ, "zone": "handle"}),
        "is of 'handle', and the zones of this job are shank, blade, bit",
    ),
    (("reading", {**READ, "zone": "handle", "dimension": "mass"}), "is of 'handle'"),
    (("reading", {**READ, "zone": "blade", "dimension": "mass"}), "is of 'blade'"),
    (a_way_back(again=[[1, 7, 1, [], ""]]), "changes step 7, which this job has not"),
    (a_way_back(heats=[[0, 2]]), "changes step 0, which this job has not"),
    (a_way_back(moved=[["handle", 1.0, 1.0]]), "changes the handle, which this job has not"),
    (("to put right", {"text": "x", "zone": "handle", "step": 1}), "is of 'handle'"),
]


@pytest.mark.parametrize(("made", "says"), MISFITS)
def test_an_entry_that_cannot_be_of_its_job_is_refused_with_its_line(made: Made, says: str) -> None:
    with shop() as place:
        with pytest.raises(JobFileFault) as caught:
            place.bring_in(job_file(made, began=LAID_BEGAN.to_json()))
        sentence = str(caught.value)
        assert "line 3" in sentence
        assert re.search(says, sentence), sentence
        assert sentence.endswith(".")
        assert place.jobs() == ()


@pytest.mark.parametrize(("made", "says"), MISFITS)
def test_such_an_entry_in_the_log_is_damage_of_its_job_alone(tmp_path: Path, made: Made, says: str) -> None:
    path = tmp_path / "shop.db"
    with shop(path) as place:
        begun(DRAW, place)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        for row in rows([made], "odd", began=LAID_BEGAN.to_json()):
            other.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )
    with Shop(path, ticking()) as place:
        assert {job.job: job.state.value for job in place.jobs()} == {"strap": "under way", "odd": "damaged"}
        with pytest.raises(LogDamaged, match="Job 'odd' is damaged, entry 2 ") as caught:
            place.open("odd")
        assert re.search(says, str(caught.value))
        assert not place.open("strap").standing().trouble


def test_what_is_carried_from_another_shop_is_taken_as_it_was() -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        session.done()
        session.heat()
        text = export_job(one.log, session.job)
        assert other.bring_in(text).standing() == session.standing()
        with pytest.raises(JobExists):
            other.bring_in(text)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda kept: kept["steps"][0].update(heats=-5),
        lambda kept: kept["steps"][0].update(heats="many"),
        lambda kept: kept["steps"][0].update(operation="conjure"),
        lambda kept: kept["steps"][0].update(zones=["handle"]),
        lambda kept: kept["pieces"]["body"].update(metal="moonlight"),
        lambda kept: kept.update(mark_doubt_mm=0.0),
        lambda kept: kept.update(mark_doubt_mm=10**400),
        lambda kept: kept.update(scale=True),
        lambda kept: kept.clear(),
    ],
)
def test_a_frozen_recipe_that_is_not_what_its_text_says_is_refused(
    spoil: Callable[[dict[str, Any]], object],
) -> None:
    kept = json.loads(LAID_BEGAN.recipe)
    spoil(kept)
    with shop() as place:
        with pytest.raises(JobFileFault, match="line 2, holds a recipe that is not what its text says"):
            place.bring_in(job_file(began=LAID_BEGAN.replaced(recipe=json.dumps(kept)).to_json()))
        assert place.jobs() == ()


@pytest.mark.parametrize("coach", [LAID_BEGAN.coach, "0.0.1"])
@pytest.mark.parametrize("recipe", ["", "[]", "[" * 100_000, "{}", "nan", '"title"'])
def test_what_no_version_ever_froze_is_refused(recipe: str, coach: str) -> None:
    with shop() as place:
        with pytest.raises(JobFileFault, match="line 2, holds a recipe that is not what its text says"):
            place.bring_in(job_file(began=LAID_BEGAN.replaced(recipe=recipe, coach=coach).to_json()))
        assert place.jobs() == ()


def test_a_recipe_that_another_version_froze_otherwise_is_read_from_its_text() -> None:
    began = LAID_BEGAN.replaced(recipe='{"steps": [{"number": 1}]}', coach="0.0.1")
    with shop() as place:
        session = place.bring_in(job_file(began=began.to_json()))
        assert session.recipe.title == LAID_BEGAN.title
        assert len(place.jobs()) == 1


@pytest.mark.parametrize("recipe", ["", "[]", "[" * 100_000, '{"steps": [{"number": 1}]}'])
def test_a_recipe_in_the_log_that_cannot_be_thawed_is_read_from_its_text(tmp_path: Path, recipe: str) -> None:
    path = tmp_path / "shop.db"
    with shop(path) as place:
        begun(DRAW, place)
    put_in(path, LAID_BEGAN.replaced(recipe=recipe))
    with Shop(path, ticking()) as place:
        assert place.open("odd").recipe.title == LAID_BEGAN.title
        assert not place.summary("odd").trouble


@pytest.mark.parametrize("began", [{"text": "title: nothing"}, {"grades": {"C80": "carbon = [["}}])
def test_a_text_that_is_no_recipe_or_no_grade_is_refused(began: dict[str, object]) -> None:
    with shop() as place:
        with pytest.raises(Refusal):
            place.bring_in(job_file(began={**LAID_BEGAN.to_json(), **began}))
        assert place.jobs() == ()


def put_in(path: Path, began: Began, *made: Made, first: int = 1) -> None:
    """A job called odd put into a log past every gate, from its entry `first` on."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        guard = other.execute("SELECT sql FROM sqlite_schema WHERE name = 'entries_only_follow'").fetchone()
        other.execute("DROP TRIGGER entries_only_follow")
        for row in rows(made, "odd", began=began.to_json())[first - 1 :]:
            other.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )
        other.execute(guard[0])


@pytest.mark.parametrize(
    "spoil",
    [
        lambda kept: kept["steps"][0].update(operation="conjure"),
        lambda kept: kept.update(drawing={}),
        lambda kept: kept.update(pieces={}),
        lambda kept: kept["pieces"]["body"].update(metal="moonlight"),
        lambda kept: kept.update(steps=[]),
    ],
)
def test_a_job_that_nothing_can_be_reckoned_with_is_damaged_and_takes_no_other_with_it(
    tmp_path: Path, spoil: Callable[[dict[str, Any]], object]
) -> None:
    kept = json.loads(LAID_BEGAN.recipe)
    spoil(kept)
    path = tmp_path / "shop.db"
    with shop(path) as place:
        begun(DRAW, place)
    put_in(path, LAID_BEGAN.replaced(recipe=json.dumps(kept)), ("heat", {"step": 1}))
    with Shop(path, ticking()) as place:
        assert {job.job: job.state.value for job in place.jobs()} == {"strap": "under way", "odd": "damaged"}
        with pytest.raises(Refusal):
            place.open("odd")
        assert not place.open("strap").standing().trouble


def test_a_job_whose_beginning_is_lost_is_listed_as_damaged(tmp_path: Path) -> None:
    path = tmp_path / "shop.db"
    with shop(path) as place:
        begun(DRAW, place)
    put_in(path, LAID_BEGAN, ("heat", {"step": 1}), first=2)
    with Shop(path, ticking()) as place:
        assert {job.job: job.state.value for job in place.jobs()} == {"strap": "under way", "odd": "damaged"}
        with pytest.raises(LogDamaged, match=r"Job 'odd' in shop\.db is damaged, entry 1 is missing"):
            place.open("odd")
        assert [one.job for one in place.log.newest()] == ["strap", "odd"]


# ── anything at all ─────────────────────────────────────────────────────────────────────────────────

steps = st.integers(1, 7)
zones = st.sampled_from(["blade", "bit", "shank"])
dimensions = st.sampled_from(
    ["width", "thickness", "length", "side", "mass", "slug", "ring_test", "angle", "gap", "hardness", "foo"]
)
sizes = st.sampled_from([0.0, 0.5, 1.0, 30.0, 1e-9, 1e7]) | st.floats(0.0, 1e7)
numbers = st.integers(1, 9)
amounts = st.floats(-1e12, 1e12) | st.floats(-50.0, 50.0)
limits = st.tuples(sizes, sizes, sizes).map(lambda three: [sorted(three)[1], min(three), max(three)])


def listed(*parts: st.SearchStrategy[object]) -> st.SearchStrategy[list[list[object]]]:
    return st.lists(st.tuples(*parts).map(list), max_size=2)


amendments = st.fixed_dictionaries(
    {
        "limits": listed(zones, dimensions, limits),
        "targets": listed(steps, dimensions, limits),
        "heats": listed(steps, st.integers(0, 300)),
        "moved": listed(zones, amounts, amounts),
        "regained": listed(zones, dimensions, amounts, amounts),
        "allowances": listed(zones, amounts),
        "again": listed(steps, steps, st.integers(0, 300), st.just([])),
        "taken_back": listed(zones, amounts),
        "losses": listed(steps, amounts),
    }
)
entries = st.one_of(
    st.builds(lambda step: ("heat", {"step": step}), steps),
    st.builds(lambda step: ("fire", {"step": step}), steps),
    st.builds(
        lambda step, heats, marked: ("done", {"step": step, "heats": heats, "marked": marked, "told": False}),
        steps,
        st.integers(0, 200),
        st.booleans(),
    ),
    st.builds(
        lambda zone, dimension, size, gauge, hot, insisted, step: (
            "reading",
            {
                "zone": zone,
                "dimension": dimension,
                "typed": "x",
                "size": size,
                "gauge": gauge,
                "hot_c": hot,
                "hot_doubt_c": 10.0,
                "insisted": insisted,
                "step": step,
                "taken_at": "",
            },
        ),
        zones,
        dimensions,
        sizes,
        st.sampled_from(READ_BY),
        st.none() | st.floats(-20.0, 1200.0),
        st.booleans(),
        steps,
    ),
    st.builds(lambda number: ("struck", {"entry": number}), numbers),
    st.builds(lambda number: ("put right", {"entry": number}), numbers),
    st.builds(
        lambda number, size: (
            "corrected",
            {"entry": number, "typed": "x", "size": size, "hot_doubt_c": 0.0, "insisted": False},
        ),
        numbers,
        sizes,
    ),
    st.builds(lambda held: ("way back", {**WAY_BACK.to_json(), "amendment": held}), amendments),
    st.just(("set aside", {})),
)


def brought_in(place: Shop, text: str) -> Session | str:
    """The job, opened, or the sentence with which it is refused."""
    try:
        return place.bring_in(text)
    except Refusal as refused:
        return str(refused)


@settings(max_examples=40, deadline=None)
@given(st.lists(entries, max_size=8))
def test_any_entries_made_by_hand_are_refused_in_a_sentence_or_open(made: Sequence[Made]) -> None:
    with shop() as place:
        session = brought_in(place, job_file(*made, began=LAID_BEGAN.to_json()))
        if isinstance(session, str):
            assert session.endswith((".", "?"))
            assert place.jobs() == ()
            return
        standing = session.standing()
        assert session.history()[-1].number == len(made) + 1
        assert [job.state for job in place.jobs()] == [standing.state]
        session.ways_back()
        session.spare_gone()
