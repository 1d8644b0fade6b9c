"""A job's state is always what its entries say, whatever they are."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.entering import EntryFault
from coach.bench.progress import progress, struck_numbers
from coach.bench.replay import replay
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.log.kinds.struck import Struck
from coach.telling.values import json_values
from tests.bench.jobs import HAMMER, begun, shop
from tests.ledger.recipes import EYE, LAID
from tests.log.bodies import BEGAN, HEAT
from tests.told import summary_of

AT = "2026-03-02T08:00:00.000Z"


def entry(number: int, body: Body) -> Entry:
    return Entry("job", number, AT, body, "", "")


def done(step: int, heats: int) -> Done:
    return Done(step=step, heats=heats, marked=False, told=False)


def test_a_struck_entry_does_not_count_and_a_struck_strike_does_nothing() -> None:
    listed = [
        entry(1, BEGAN),
        entry(2, HEAT),
        entry(3, Struck(entry=2)),
        entry(4, Struck(entry=3)),
        entry(5, Struck(entry=4)),
    ]
    assert struck_numbers(listed[:3]) == {2}
    assert struck_numbers(listed[:4]) == {3}
    assert struck_numbers(listed) == {2, 4}


def test_a_finish_of_another_step_than_the_one_in_hand_says_nothing() -> None:
    plan = begun(LAID).plan
    listed = [entry(1, BEGAN), entry(2, done(3, 1)), entry(3, done(1, 0))]
    state = replay(plan, listed)
    assert [record.step.number for record in state.records] == [1]
    assert progress(listed, "abcdef")[:2] == (1, "under way")


def test_a_laid_zone_read_in_an_order_that_strikes_made_impossible_is_only_noted() -> None:
    session = begun(LAID)
    for _ in range(4):
        session.done()
    weld = session.back().entry
    tack = session.back().entry
    session.read("bit.length", "60")
    # Bringing the tack and the weld back puts that reading after the weld.
    session.strike(tack)
    session.strike(weld)
    standing = session.standing()
    assert not standing.trouble
    assert standing.step is not None


# ── any sequence of entries ─────────────────────────────────────────────────────────────────────────

Act = Callable[[Session], object]
SIZES = st.one_of(
    st.floats(0.5, 200.0), st.sampled_from([8.0, 10.0, 16.0, 28.0, 34.0, 36.0, 40.0, 44.0, 60.0])
)
NAMES: Mapping[str, Sequence[str]] = {
    LAID: ["blade.width", "blade.thickness", "blade.length", "bit.thickness", "bit.length", "shank.length"],
    EYE: [
        "block.side",
        "block.width",
        "block.length",
        "block.hole length",
        "block.hole width",
        "block.thickness",
    ],
    HAMMER: ["poll.side", "poll.length", "eye.width", "eye.hole width", "eye.hole length", "face.length"],
}


def readings(text: str) -> st.SearchStrategy[Act]:
    """A reading of some size, sound or not."""
    return st.builds(
        lambda name, size, hot, gauge, insist: (
            lambda session: session.read(name, f"{size:.2f}", hot=hot, gauge=gauge, insist=insist)
        ),
        st.sampled_from(NAMES[text]),
        SIZES,
        st.sampled_from([None, None, None, "", "900 C"]),
        st.sampled_from([None, "rule", "by eye"]),
        st.booleans(),
    )


def acts(text: str) -> st.SearchStrategy[Act]:
    """Anything that a smith may enter, in any order."""
    plain_acts: list[Act] = [
        lambda session: session.heat(),
        lambda session: session.done(),
        lambda session: session.done(),
        lambda session: session.back(),
        lambda session: session.strike(),
        lambda session: session.note("Something."),
        lambda session: session.rest(force=True),
        lambda session: session.resume(),
        lambda session: session.set_aside(),
        lambda session: session.bring_back(),
    ]
    return st.one_of(
        st.sampled_from(plain_acts),
        readings(text),
        st.integers(1, 25).map(lambda number: lambda session: session.strike(number)),
        st.integers(0, 12).map(lambda heats: lambda session: session.done(heats)),
    )


def carried_out(place: Shop, text: str, acts_done: Sequence[Act]) -> Session:
    session = begun(text, place)
    refusals: list[str] = []
    for act in acts_done:
        try:
            act(session)
        except EntryFault as fault:
            refusals.append(str(fault))
        session.standing()
    assert all(refusal.endswith((".", "?")) for refusal in refusals)
    return session


@pytest.mark.parametrize("text", [LAID, EYE, HAMMER], ids=["laid", "eye", "hammer"])
@settings(max_examples=25, deadline=None)
@given(st.data())
def test_nothing_that_can_be_entered_stops_the_job_and_opening_it_again_changes_nothing(
    text: str, data: st.DataObject
) -> None:
    far: list[Act] = [lambda session: session.done()] * data.draw(st.integers(0, 12))
    done = [*far, *data.draw(st.lists(acts(text), max_size=14))]
    with shop() as place:
        session = carried_out(place, text, done)
        standing = session.standing()
        assert 0.0 <= standing.chance <= 1.0
        assert json_values(standing)
        assert summary_of(session)
        assert session.history()[-1].number == standing.last_entry
        again = place.open(session.job)
        assert again.standing() == standing
        assert again.history() == session.history()
        (summary,) = place.jobs()
        assert summary.state == standing.state
        assert summary.step == (standing.step.number if standing.step else standing.steps)


@settings(max_examples=15, deadline=None)
@given(st.data())
def test_striking_everything_out_leaves_a_job_as_it_began(data: st.DataObject) -> None:
    done = data.draw(st.lists(acts(LAID), max_size=8))
    with shop() as place:
        fresh = begun(LAID, place).standing()
        session = carried_out(place, LAID, done)
        while True:
            try:
                session.strike()
            except EntryFault:
                break
        standing = session.standing()
        assert (standing.step, standing.sizes, standing.spares, standing.checks) == (
            fresh.step,
            fresh.sizes,
            fresh.spares,
            fresh.checks,
        )
        assert (standing.heats_total, standing.notes, standing.done) == (0, (), ())
