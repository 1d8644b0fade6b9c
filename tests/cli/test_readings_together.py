"""Several readings on one line are entered all together or not at all."""

from __future__ import annotations

import pytest

from coach.log.errors import LogFull
from coach.log.jobs import Log
from tests.cli.conftest import Coach
from tests.screens.stage import PEG


@pytest.fixture
def job(coach: Coach) -> str:
    path = coach.home / "peg.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(PEG, encoding="utf-8")
    return coach.job(str(path))


def entries(coach: Coach, job: str) -> int:
    found = coach("history", job, "--json").values["entries"]
    assert isinstance(found, list)
    return len(found)


def test_all_of_them_are_answered_in_their_order(coach: Coach, job: str) -> None:
    said = coach("read", job, "point.side=9", "point.length=70", "--json")
    assert said.code in (0, 1), said.err
    answers = said.values["answers"]
    assert isinstance(answers, list)
    assert [answer["entry"] for answer in answers] == [2, 3]
    assert entries(coach, job) == 3
    # The same as one after the other.
    other = coach.job(str(coach.home / "peg.yaml"))
    for size, together in zip(("point.side=9", "point.length=70"), answers, strict=True):
        alone = coach("read", other, size, "--json").values["answers"]
        assert isinstance(alone, list)
        assert alone[0] == together
    for told in ("chance", "reason", "state", "sizes"):
        assert coach("where", other, "--json").values[told] == coach("where", job, "--json").values[told]


@pytest.mark.parametrize("second", ["point.side=nine", "nowhere.side=9", "point.length=-1", "point.girth=9"])
def test_none_is_entered_where_a_later_one_is_refused(coach: Coach, job: str, second: str) -> None:
    assert coach("read", job, "point.side=9", second).code == 2
    assert entries(coach, job) == 1


def test_none_is_entered_where_the_disk_is_full_by_then(
    coach: Coach, job: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = Log._check_meant
    asked: list[object] = []

    def full_by_the_second(self: Log, job: str, body: object) -> None:
        asked.append(body)
        if len(asked) == 2:
            raise LogFull("There is no room left.")
        usual(self, job, body)  # type: ignore[arg-type]

    monkeypatch.setattr(Log, "_check_meant", full_by_the_second)
    said = coach("read", job, "point.side=9", "point.length=70")
    assert said.code == 2
    assert said.err.endswith("There is no room left. None of the 2 readings is entered.\n")
    monkeypatch.undo()
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(coach.home))
    assert entries(coach, job) == 1


def test_what_a_later_one_judges_anew_is_told_once_as_it_stands_at_the_end(coach: Coach) -> None:
    """By hand: 23.4 + 20.1 + 10 = 53.5 mm across, of an eye that this step leaves 46.7 wide."""
    job = coach.job("carpenters-adze")
    for _ in range(9):
        coach("done", job)
    coach("heat", job)
    told = " ".join(
        coach("read", job, "eye.cheek=23.4", "eye.other_cheek=20.1", "eye.hole_width=10").out.split()
    )
    assert told.count("eye cheek 23.4 mm:") == 1
    assert told.count("eye other cheek 20.1 mm:") == 1
    assert "both cheeks make 53.5 mm across" in told
    assert "drive the drift" not in told
    assert "judged anew" not in told
