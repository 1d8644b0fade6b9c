"""What was made by hand passes the same limits as what is typed, or is refused and adds nothing."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from coach.log.carry import JobFileFault, import_job
from coach.log.errors import LogDamaged
from coach.log.jobs import Log
from tests.log.bodies import BEGAN, NOTE, READING, WAY_BACK, note
from tests.log.hand_made import job_file, rows, without

_READ = READING.to_json()
_BEGAN = BEGAN.to_json()
_AMENDMENT = WAY_BACK.to_json()["amendment"]
assert isinstance(_AMENDMENT, dict)


def a_way_back(**lists: object) -> tuple[str, object]:
    assert isinstance(_AMENDMENT, dict)
    return "way back", {**WAY_BACK.to_json(), "amendment": {**_AMENDMENT, **lists}}


CORRECTION = {"typed": "3", "size": 3, "hot_doubt_c": 0, "insisted": False}
HOSTILE = [
    (
        ("done", {"step": 1, "heats": 1_000_000_000, "marked": False, "told": False}),
        "a whole number from 0 to 200",
    ),
    (("done", {"step": 1, "heats": -5, "marked": False, "told": False}), "from 0 to 200, not -5"),
    (("done", {"step": 1, "heats": 2.5, "marked": False, "told": False}), "heats .* must be a whole number"),
    (("done", {"step": 1, "heats": True, "marked": False, "told": False}), "heats .* not true"),
    (("done", {"step": 0, "heats": 1, "marked": False, "told": False}), "step .* from 1 to 10000, not 0"),
    (
        ("done", {"step": 1, "heats": 1, "marked": "no", "told": False}),
        "marked .* must be true or false, not 'no'",
    ),
    (("done", {"step": 1}), "the body of the end of a step must have heats, marked"),
    (("heat", {}), "the body of a heat must have step"),
    (("heat", {"step": 10**400}), "not a number beyond all measure"),
    (("fire", {"step": None}), "step .* not nothing"),
    (("note", {"text": "x" * 1_000_000, "step": 1}), "1 to 2000 characters of text, not 1000000 of them"),
    (("note", {"text": "", "step": 1}), "characters of text, not none"),
    (("to put right", {"text": "\x1b[2J", "zone": "", "step": 1}), "on one line, not some with"),
    (("note", {"text": ["a"], "step": 1}), "text of a note .* not a list"),
    (("note", {**NOTE.to_json(), "colour": "red"}), "the body of a note takes no colour"),
    (("reading", {**_READ, "zone": 7}), "zone of a reading .* not 7"),
    (("reading", {**_READ, "zone": {"a": 1}}), "zone of a reading .* not a JSON object"),
    (("reading", {**_READ, "size": "wide"}), "size of a reading must be a number .* not 'wide'"),
    (("reading", {**_READ, "size": -1}), "size of a reading .* not -1"),
    (("reading", {**_READ, "size": 1e300}), "size of a reading must be a number from 0 to"),
    (("reading", {**_READ, "size": True}), "size of a reading .* not true"),
    (("reading", {**_READ, "gauge": "the thumb"}), "gauge of a reading must be one of calliper, .* not 'the"),
    (
        ("reading", {**_READ, "hot_c": 5000}),
        "hot c of a reading must be a number from -20 to 1394 or null",
    ),
    (("reading", without(_READ, "zone")), "the body of a reading must have zone"),
    (("corrected", {"entry": 9, **CORRECTION}), "the number of a reading before it, not 9"),
    (("corrected", {"entry": 1, **CORRECTION}), "the number of a reading before it, not 1"),
    (("corrected", {"entry": 2, **CORRECTION}), "the number of a reading before it, not 2"),
    (("struck", {"entry": 1}), "an entry that can be struck out before it, not 1"),
    (("struck", {"entry": 2}), "an entry that can be struck out before it, not 2"),
    (("struck", {"entry": -1}), "an entry that can be struck out before it, not -1"),
    (("struck", {"entry": "1"}), "not '1'"),
    (
        ("put right", {"entry": 1}),
        "a reading, a heat, the end of a step or a thing to put right before it, not 1",
    ),
    (("began", BEGAN.to_json()), "one beginning, and that is its first entry"),
    (("remedy", {}), "the kind of an entry must be one of amended, .* not 'remedy'"),
    (a_way_back(heats=[[2, -3]]), "amendment of a way back .* its heats must hold a whole number"),
    (a_way_back(heats=[[2]]), "each of its heats must have step, heats"),
    (a_way_back(heats=7), "its heats must be a list"),
    (a_way_back(moved=[["blade", "much", 1.0]]), "its moved must hold a number"),
    (a_way_back(moved=[[None, 1.0, 1.0]]), "its moved must hold a name"),
    (a_way_back(limits=[["blade", "width", [1, 2, 3]]]), "its limits must hold a size and its limits"),
    (a_way_back(again=[[1, 1, 1, "rings", ""]]), "its again must hold a list of names"),
    (a_way_back(more=[]), "it must have limits, targets"),
    (("way back", {**WAY_BACK.to_json(), "amendment": None}), "a way back .* it must have limits"),
]

IDS = [f"{at}-{made[0]}" for at, (made, _) in enumerate(HOSTILE)]


@pytest.fixture
def log() -> Iterator[Log]:
    with Log(":memory:") as opened:
        opened.begin("froe", "2026-11-25T09:30:00Z", BEGAN)
        yield opened


def refused(log: Log, text: str) -> str:
    """The one sentence with which a file is refused; nothing is added."""
    with pytest.raises(JobFileFault) as caught:
        import_job(log, text)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert len(sentence) < 600
    assert log.jobs() == ["froe"]
    return sentence


@pytest.mark.parametrize(("made", "says"), HOSTILE, ids=IDS)
def test_a_hand_made_entry_is_refused_with_its_line_and_what_was_expected(
    log: Log, made: tuple[str, object], says: str
) -> None:
    sentence = refused(log, job_file(made))
    assert "ine 3" in sentence
    assert re.search(says, sentence), sentence


@pytest.mark.parametrize(
    "began",
    [
        {},
        {**_BEGAN, "units": "furlong"},
        {**_BEGAN, "title": ""},
        {**_BEGAN, "grades": {"C45": 7}},
        {**_BEGAN, "grades": ["C45"]},
        {**_BEGAN, "recipe": {"steps": []}},
        {**_BEGAN, "text": "x" * 1_000_001},
    ],
)
def test_a_hand_made_beginning_is_refused_with_its_line(log: Log, began: object) -> None:
    assert "Line 2 of the job file is refused: the " in refused(log, job_file(began=began))


@pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity", "1e999"])
def test_a_number_that_is_none_is_refused_with_its_line(log: Log, word: str) -> None:
    text = job_file(("reading", _READ)).replace('"size": 31.5', f'"size": {word}')
    assert "Line 3 of the job file has a body that is refused" in refused(log, text)


@pytest.mark.parametrize(
    "at", ["0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "yesterday", "2026-02-30T00:00:00Z"]
)
def test_a_moment_that_cannot_be_is_refused_with_its_line(log: Log, at: str) -> None:
    assert "line 2, has a moment that cannot be" in refused(log, job_file(at=at))


@pytest.mark.parametrize(
    "job", ["", "../../escaped", "-rf", "a/b", "two words", "x" * 61, "a\nb", "x" * 1_000_000]
)
def test_a_name_that_no_job_can_have_is_refused(log: Log, job: str) -> None:
    assert "Line 1 of the job file has a name that no job can have" in refused(log, job_file(job=job))


def test_a_hand_made_file_that_is_as_it_should_be_is_taken(log: Log) -> None:
    assert (
        import_job(log, job_file(("reading", _READ), ("corrected", {"entry": 2, **CORRECTION})))
        == "hand-made"
    )
    assert [entry.kind for entry in log.entries("hand-made")] == ["began", "reading", "corrected"]


@pytest.mark.parametrize(("made", "says"), HOSTILE, ids=IDS)
def test_an_entry_that_is_in_the_log_and_cannot_be_is_damage_of_its_job_alone(
    tmp_path: Path, made: tuple[str, object], says: str
) -> None:
    path = tmp_path / "shop.db"
    with Log(path) as log:
        log.begin("froe", "2026-11-25T09:30:00Z", BEGAN)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        for row in rows([made, ("note", note("later").to_json())], "axe"):
            other.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )
    with Log(path) as log:
        with pytest.raises(LogDamaged, match=r"Job 'axe' in shop\.db is damaged, entry 2 ") as caught:
            log.entries("axe")
        assert (caught.value.job, caught.value.number) == ("axe", 2)
        assert [entry.number for entry in caught.value.sound] == [1]
        assert len(log.entries("froe")) == 1
        assert len(log.verify()) == 1
