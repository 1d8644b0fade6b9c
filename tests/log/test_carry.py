"""A job goes out as one readable file and comes in whole, or not at all."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator

import pytest

from coach.log.carry import JobFileFault, export_job, import_job
from coach.log.errors import JobExists, NoSuchJob
from coach.log.jobs import Log
from coach.log.kinds.resumed import Resumed
from tests.log.bodies import BEGAN, HEAT, READING
from tests.log.hand_made import job_file

AT = "2026-11-25T09:30:00Z"


@pytest.fixture
def log() -> Iterator[Log]:
    with Log(":memory:") as opened:
        opened.begin("broad-axe", AT, BEGAN)
        opened.append("broad-axe", 1, AT, HEAT)
        opened.append("broad-axe", 2, AT, READING)
        yield opened


@pytest.fixture
def other() -> Iterator[Log]:
    with Log(":memory:") as opened:
        opened.begin("froe", AT, BEGAN)
        yield opened


def test_a_carried_job_is_the_same_job(log: Log, other: Log) -> None:
    assert import_job(other, export_job(log, "broad-axe")) == "broad-axe"
    assert other.entries("broad-axe") == log.entries("broad-axe")
    assert other.jobs() == ["froe", "broad-axe"]
    assert other.append("broad-axe", 3, AT, Resumed()).number == 4
    assert other.verify() == []


def test_the_file_says_what_it_is_and_holds_a_line_for_each_entry(log: Log) -> None:
    lines = [json.loads(line) for line in export_job(log, "broad-axe").split("\n")[:-1]]
    assert lines[0]["format"] == "between-heats job"
    assert (lines[0]["version"], lines[0]["job"], lines[0]["entries"]) == (1, "broad-axe", 3)
    assert lines[0]["ends"] == lines[3]["digest"]
    assert [line["number"] for line in lines[1:]] == [1, 2, 3]
    assert lines[3]["body"] == READING.to_json()


@pytest.mark.parametrize(
    "on_the_way",
    [
        lambda text: text.replace("\n", "\r\n"),
        lambda text: "\ufeff" + text,
        lambda text: text.rstrip("\n"),
        lambda text: text + "\n\n",
        lambda text: "\n".join(json.dumps(json.loads(line), indent=None) for line in text.split("\n")[:-1]),
    ],
    ids=["DOS line ends", "byte-order mark", "last line end lost", "blank lines", "written anew"],
)
def test_what_editors_do_to_a_file_does_no_harm(
    log: Log, other: Log, on_the_way: Callable[[str], str]
) -> None:
    import_job(other, on_the_way(export_job(log, "broad-axe")))
    assert other.entries("broad-axe") == log.entries("broad-axe")


def line(text: str, place: int, change: Callable[[dict[str, object]], object]) -> str:
    """The text with line `place` (from 1) changed."""
    lines = text.split("\n")
    held = json.loads(lines[place - 1])
    lines[place - 1] = json.dumps(change(held) or held)
    return "\n".join(lines)


def cut(text: str, *places: int) -> str:
    return "\n".join(part for place, part in enumerate(text.split("\n"), start=1) if place not in places)


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda text: "", "The job file is empty"),
        (lambda text: "title: axe\n", "Line 1 of the job file cannot be read as JSON"),
        (lambda text: "[1]\n", "Line 1 of the job file is not a JSON object"),
        (lambda text: "{}\n", "Line 1 of the job file does not say that it is a job"),
        (lambda text: line(text, 1, lambda head: head.update(version=2)), "is of version 2 and this program"),
        (
            lambda text: line(text, 1, lambda head: head.update(version=True)),
            "its version is true, which there",
        ),
        (
            lambda text: line(text, 1, lambda head: head.update(version=None)),
            "its version is nothing, which there",
        ),
        (lambda text: line(text, 1, lambda head: head.update(version=0)), "its version is 0, which there is"),
        (lambda text: line(text, 1, lambda head: head.pop("job") and None), "lacks the job's name"),
        (lambda text: line(text, 1, lambda head: head.update(entries=True)), "lacks the job's name"),
        (
            lambda text: line(text, 1, lambda head: head.update(job="adze")),
            "Entry 1 of the job file, line 2, is not as it was written",
        ),
        (
            lambda text: line(text, 1, lambda head: head.update(job="\ud800")),
            "Line 1 of the job file has a name that no job can have",
        ),
        (lambda text: cut(text, 4), "holds 2 of 3 entries"),
        (lambda text: cut(text, 2, 3, 4), "holds 0 of 3 entries"),
        (lambda text: line(text, 1, lambda head: head.update(ends="")), "ends otherwise than it says"),
        (lambda text: cut(text, 3), "Entry 2 of the job file is missing"),
        (
            lambda text: line(text, 3, lambda entry: entry.pop("at") and None),
            "Line 3 .* lacks at",
        ),
        (
            lambda text: line(text, 3, lambda entry: entry.update(body={"step": 5})),
            "Entry 2 of the job file, line 3, is not as it was written",
        ),
        (lambda text: line(text, 3, lambda entry: entry.update(body=[4])), "Line 3 .* not a JSON object"),
        (lambda text: line(text, 3, lambda entry: entry.update(number="2")), "Entry 2 .* form that can be"),
        (lambda text: text.replace(": 31.5", ": NaN"), "Line 4 of the job file has a body that is refused"),
        (lambda text: text.replace(": 31.5", ": 1e999"), "Line 4 of the job file has a body that is refused"),
        (lambda text: text + "[" * 100_000 + "\n", "Line 5 of the job file cannot be read as JSON"),
    ],
)
def test_a_spoilt_file_is_refused_in_one_sentence_and_nothing_is_added(
    log: Log, other: Log, spoil: Callable[[str], str], says: str
) -> None:
    with pytest.raises(JobFileFault, match=says) as caught:
        import_job(other, spoil(export_job(log, "broad-axe")))
    assert str(caught.value).endswith(".")
    assert other.jobs() == ["froe"]


def test_a_job_that_is_there_already_is_not_brought_in_again(log: Log) -> None:
    before = log.entries("broad-axe")
    with pytest.raises(JobExists, match="already has a job 'broad-axe'"):
        import_job(log, export_job(log, "broad-axe"))
    assert log.entries("broad-axe") == before


def test_a_chain_that_does_not_begin_a_job_is_refused(log: Log, other: Log) -> None:
    with pytest.raises(JobFileFault, match="line 2, is out of place: a job has one beginning"):
        import_job(other, job_file(first="heat", began={"step": 1}))


def test_only_a_job_that_is_there_goes_out(log: Log) -> None:
    with pytest.raises(NoSuchJob):
        export_job(log, "adze")
