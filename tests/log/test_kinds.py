"""One kind, one file: each goes out and comes back as it was, and none has to be listed anywhere else."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.shop import Shop
from coach.log import kinds as package
from coach.log.body import Body
from coach.log.carry import export_job, import_job
from coach.log.entries import canonical_json, make_entry
from coach.log.errors import LogBusy
from coach.log.jobs import Log
from coach.log.kinds import body_of, kinds
from coach.log.kinds.rested import Rested
from coach.log.limits import OutOfLimits
from coach.log.status import JobStatus
from coach.quantities import NOTHING, celsius, say
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun, ticking
from tests.ledger.recipes import DRAW
from tests.log.bodies import BEGAN, ONE_OF_EACH, ONE_OF_EACH_OF_RACK, READING, sample_of
from tests.told import said

AT = "2026-11-25T09:30:00Z"
SAMPLES = {body.KIND: body for body in (*ONE_OF_EACH, *ONE_OF_EACH_OF_RACK)}


def test_the_samples_are_of_every_kind_there_is() -> None:
    assert set(SAMPLES) == set(kinds())
    assert [kind for kind, body in kinds().items() if body.BEGINS] == ["began"]


@pytest.mark.parametrize("kind", kinds())
def test_a_sample_can_be_made_of_any_kind_by_what_its_fields_say(kind: str) -> None:
    made = sample_of(kinds()[kind], ONE_OF_EACH)
    assert body_of(kind, json.loads(canonical_json(made.to_json()))) == made


def test_a_kind_is_called_by_one_name_and_says_what_it_is() -> None:
    for kind, body in kinds().items():
        assert kind == body.KIND
        assert body.CALLED.split()[0] in ("a", "an", "the")
        assert str(SAMPLES[kind].words())


def test_why_a_job_was_not_to_rest_is_told_in_the_units_asked_for() -> None:
    rested = Rested(forced=True, reason=say("temper it at {} first", celsius(200.0)))
    back = body_of("rested", json.loads(canonical_json(rested.to_json())))
    assert write(back.words()) == "put down to rest against advice: temper it at 200 °C first"
    # 200 °C is 392 °F (NIST SP 811, B.9).
    assert write(back.words(), Shown("in")) == "put down to rest against advice: temper it at 392 °F first"
    assert Rested(forced=False, reason=NOTHING).to_json() == {"forced": False, "reason": ""}


def test_a_job_with_an_entry_of_each_kind_is_carried_whole() -> None:
    with Log(":memory:") as log, Log(":memory:") as other:
        log.begin_with("axe", [(AT, body) for body in ONE_OF_EACH])
        assert [entry.body for entry in log.entries("axe")] == list(ONE_OF_EACH)
        assert import_job(other, export_job(log, "axe")) == "axe"
        assert other.entries("axe") == log.entries("axe")
        assert export_job(other, "axe") == export_job(log, "axe")


def test_a_reading_keeps_its_gauges_own_doubts_and_nothing_where_they_are_as_usual() -> None:
    assert "doubts" not in READING.to_json()
    own = READING.replaced(doubts=(0.05, 0.25, 0.05))
    held = own.to_json()
    assert held["doubts"] == {"cold_mm": 0.05, "hot_mm": 0.25, "bias_mm": 0.05}
    assert body_of("reading", json.loads(json.dumps(held))) == own
    for wrong in ([0.05, 0.25, 0.05], {"cold_mm": 0.05}, {"cold_mm": 0.05, "hot_mm": "x", "bias_mm": 1}, 0.1):
        with pytest.raises(OutOfLimits, match="doubts of a reading"):
            body_of("reading", {**held, "doubts": wrong})


def test_an_entry_cannot_be_changed() -> None:
    for body in ONE_OF_EACH:
        for name in (*body.limits, "other"):
            with pytest.raises(AttributeError, match="never changed"):
                setattr(body, name, 1)


json_leaves = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.integers(-2, 300)
    | st.floats(allow_nan=True)
    | st.floats(0.0, 1000.0)
    | st.text()
    | st.sampled_from(["mm", "rule", "blade", "x" * 3000])
)
json_values = st.recursive(
    json_leaves,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=8,
)


def made_or_refused(make: Callable[[], Body]) -> Body | str:
    """The body, or the sentence with which it is refused."""
    try:
        return make()
    except OutOfLimits as refused:
        return str(refused)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_any_value_in_a_field_makes_an_entry_that_comes_back_equal_or_is_refused(data: st.DataObject) -> None:
    sample = data.draw(st.sampled_from([body for body in ONE_OF_EACH if body.limits]))
    name = data.draw(st.sampled_from(list(sample.limits)))
    value = data.draw(json_values)
    body = made_or_refused(lambda: sample.replaced(**{name: value}))
    if isinstance(body, str):
        assert body.startswith(f"The {name.replace('_', ' ')} of {sample.CALLED} must be ")
        assert body.endswith(".")
        return
    assert body_of(body.KIND, json.loads(canonical_json(body.to_json()))) == body
    entry, _ = make_entry("axe", 1 if body.BEGINS else 2, AT, body, "")
    assert entry.body == body


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_any_json_object_is_an_entry_or_is_refused_in_one_sentence(data: st.DataObject) -> None:
    kind, sample = data.draw(st.sampled_from(list(SAMPLES.items())))
    held = sample.to_json()
    for name in data.draw(st.lists(st.sampled_from([*held, "entry", "other"]), max_size=3)):
        held[name] = data.draw(json_values)
    for name in data.draw(st.lists(st.sampled_from([*held, "other"]), max_size=1)):
        held.pop(name, None)
    body = made_or_refused(lambda: body_of(kind, held))
    if isinstance(body, str):
        assert body.startswith("The ")
        assert body.endswith(".")
        assert "\n" not in body
    else:
        assert body_of(kind, json.loads(canonical_json(body.to_json()))) == body


@settings(max_examples=100, deadline=None)
@given(json_values)
def test_any_amendment_of_a_hand_made_way_back_is_read_or_refused(value: object) -> None:
    held = SAMPLES["way back"].to_json()
    amendment = held["amendment"]
    assert isinstance(amendment, dict)
    for name in amendment:
        changed = {**held, "amendment": {**amendment, name: [[value, value, value]]}}
        made = made_or_refused(partial(body_of, "way back", changed))
        if isinstance(made, str):
            assert "amendment of a way back is not as this program writes it" in made


# ── every method, every kind, while another window holds the file ────────────────────────────────────


@pytest.fixture
def log(tmp_path: Path) -> Iterator[Log]:
    with Log(tmp_path / "shop.db", wait_s=0.01) as opened:
        opened.begin_with("axe", [(AT, body) for body in ONE_OF_EACH])
        yield opened


LAST = len(ONE_OF_EACH)
METHODS: dict[str, Callable[[Log, Body], object]] = {
    "append": lambda log, body: log.append("axe", LAST, AT, body),
    "append_many": lambda log, body: log.append_many("axe", LAST, AT, [body, body]),
    "begin": lambda log, body: log.begin("adze", AT, BEGAN if body.BEGINS else body),
    "begin_with": lambda log, body: log.begin_with("adze", [(AT, BEGAN), (AT, body)]),
    "entries": lambda log, _: log.entries("axe"),
    "export": lambda log, _: export_job(log, "axe"),
}


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("kind", SAMPLES)
def test_every_method_fails_cleanly_for_every_kind_on_a_locked_file(log: Log, kind: str, method: str) -> None:
    before = log.entries("axe")
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(LogBusy, match=r"shop\.db is in use by another window or program"):
            METHODS[method](log, SAMPLES[kind])
        other.execute("ROLLBACK")
    assert log.entries("axe") == before
    assert log.jobs() == ["axe"]


# ── a kind that is dropped in ───────────────────────────────────────────────────────────────────────

DROPPED_IN = '''"""A tool broke."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import line
from coach.log.status import JobStatus
from coach.quantities.words import Words, say


class ToolBroken(Body):
    """A tool that is to be made anew."""

    KIND = "tool broken"
    CALLED = "a broken tool"
    AFTER = JobStatus.RESTING

    tool: str = line(40)

    def words(self) -> Words:
        """See Body."""
        return say("the {} broke", self.tool)
'''


@pytest.fixture
def dropped_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[type[Body]]:
    """A kind in a file of its own, beside the others, and nothing else changed."""
    (tmp_path / "kinds").mkdir()
    (tmp_path / "kinds" / "tool_broken.py").write_text(DROPPED_IN, encoding="utf-8")
    monkeypatch.setattr(package, "__path__", [*package.__path__, str(tmp_path / "kinds")])
    kinds.cache_clear()
    yield kinds()["tool broken"]
    monkeypatch.undo()
    kinds.cache_clear()


def test_a_kind_that_is_dropped_in_is_written_carried_read_back_told_and_struck_out(
    dropped_in: type[Body], tmp_path: Path
) -> None:
    broken = dropped_in.from_json({"tool": "drift"})
    with pytest.raises(OutOfLimits, match="The tool of a broken tool must be 1 to 40 characters on one line"):
        dropped_in.from_json({"tool": "x" * 41})
    with Shop(tmp_path / "one.db", ticking()) as one, Shop(tmp_path / "two.db", ticking()) as two:
        job = begun(DRAW, one).job
        one.log.append(job, 1, AT, broken)
        import_job(two.log, export_job(one.log, job))
        for place in (one, two):
            session = place.open(job)
            assert str(session.history()[-1].words) == "the drift broke"
            assert session.history()[-1].kind == "tool broken"
            assert session.standing().state is JobStatus.RESTING
            assert place.jobs()[0].state is JobStatus.RESTING
        assert said(session.strike()) == "Struck out: the drift broke."
        assert session.standing().state is JobStatus.UNDER_WAY
