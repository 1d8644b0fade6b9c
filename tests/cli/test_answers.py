"""What each command answers, in lines and in JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.cli.opening import recipe_path
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe_file
from tests.cli.conftest import Coach

ENTERING = ("job", "answers", "standing")
FAULTY = """\
recipe: Hok
pieces:
  bar:
    metal: mild stel
    bar: square 10
    size: square 8 ±0.5, long 100 ±5
steps:
  - drow: bar, square 8
"""


def sentence(coach: Coach, *words: str) -> str:
    answers = coach(*words, "--json").values["answers"]
    assert isinstance(answers, list)
    return str(answers[-1]["sentence"])


def test_recipes_lists_those_that_come_with_it_and_your_own(coach: Coach) -> None:
    own = coach.home / "config" / "recipes"
    own.mkdir(parents=True)
    (own / "hok.yaml").write_text(FAULTY, encoding="utf-8")
    told = coach("recipes")
    assert told.code == 1
    assert "first-hook" in told.out
    assert "`coach check hok`" in told.out
    assert str(own) in told.out
    listed = coach("recipes", "--json").values["recipes"]
    assert isinstance(listed, list)
    assert {one["name"]: bool(one["faults"]) for one in listed}["hok"] is True


def test_check_names_every_fault_with_its_place(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "hok.yaml"
    path.write_text(FAULTY, encoding="utf-8")
    told = coach("check", str(path))
    assert told.code == 1
    lines = told.out.splitlines()
    assert [line.split(":")[1] for line in lines] == ["4", "8"]
    assert "mild steel" in lines[0]
    assert "draw" in lines[1]
    checked = coach("check", str(path), "--json").values["recipes"]
    assert isinstance(checked, list)
    assert checked[0]["ok"] is False
    assert [fault["line"] for fault in checked[0]["faults"]] == [4, 8]


def test_check_of_several_recipes_tells_of_each(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "hok.yaml"
    path.write_text(FAULTY, encoding="utf-8")
    told = coach("check", "first-hook", str(path))
    assert told.code == 1
    assert ": ok, First hook, " in told.out.splitlines()[0]
    assert coach("check", "first-hook").code == 0


def test_a_recipe_that_something_is_asked_about_is_not_called_ok_alone(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "hook.yaml"
    text = recipe_path("first-hook").read_text(encoding="utf-8")
    path.write_text(text.replace("3 heats", "30 heats", 1), encoding="utf-8")
    first = coach("check", str(path)).out.splitlines()[0]
    assert "1 question" in first
    assert ": ok, " not in first


@pytest.mark.parametrize(
    ("failing", "code", "told"),
    [
        (RuntimeError("odd"), 3, "The coach failed"),
        (OSError(5, "Input/output error"), 2, "The disk or the folder in hand cannot"),
    ],
)
def test_check_of_several_recipes_goes_on_where_one_fails(
    coach: Coach, monkeypatch: pytest.MonkeyPatch, failing: Exception, code: int, told: str
) -> None:
    def odd(path: Path) -> Recipe:
        if path.stem == "first-hook":
            raise failing
        return read_recipe_file(path)

    monkeypatch.setattr("coach.recipe.reader.read_recipe_file", odd)
    answer = coach("check", "carpenters-adze", "first-hook", "hedging-hatchet")
    assert answer.code == code
    assert len([line for line in answer.out.splitlines() if ": ok, " in line]) == 2
    assert f"first-hook.yaml: {told}" in answer.out
    values = coach("check", "first-hook", "hedging-hatchet", "--json").values["recipes"]
    assert isinstance(values, list)
    assert [one["ok"] for one in values] == [False, True]
    assert told in values[0]["trouble"]
    assert coach("check", "first-hook").code == code


def test_metal_that_cannot_go_where_it_is_sent_is_a_fault(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "fat.yaml"
    text = FAULTY.replace("mild stel", "mild steel").replace("drow", "draw").replace("square 8", "square 14")
    path.write_text(text, encoding="utf-8")
    told = coach("check", str(path))
    assert told.code == 1
    assert str(path) in told.out
    assert ": ok" not in told.out


@pytest.mark.parametrize("verb", ["plan", "begin"])
def test_a_recipe_with_faults_is_refused_with_all_of_them(coach: Coach, tmp_path: Path, verb: str) -> None:
    path = tmp_path / "hok.yaml"
    path.write_text(FAULTY, encoding="utf-8")
    told = coach(verb, str(path), "--json")
    assert told.code == 1
    values = json.loads(told.out)
    assert len(values["faults"]) == 2
    assert len(told.err.splitlines()) == 2
    assert not (coach.home / "data" / "shop.sqlite").exists() or "no job" in coach("jobs").out


def test_begin_names_the_job_like_the_recipe_or_as_asked(coach: Coach) -> None:
    assert coach("begin", "first-hook", "--json").values["job"] == "first-hook"
    assert coach("begin", "first-hook", "--json").values["job"] == "first-hook-2"
    named = coach("begin", "first-hook", "--name", "Gate hook", "--json")
    assert named.values["job"] == "gate-hook"
    assert "To measure next" in coach("begin", "first-hook").out


@pytest.mark.parametrize(("length", "code"), [("", 0), (", long 40", 1)])
def test_begin_of_what_is_off_plan_is_bad_news_as_its_plan_is_and_begun(
    coach: Coach, tmp_path: Path, length: str, code: int
) -> None:
    path = tmp_path / "peg.yaml"
    text = FAULTY.replace("mild stel", "mild steel").replace("drow", "draw")
    path.write_text(text.replace("bar: square 10", f"bar: square 10{length}"), encoding="utf-8")
    planned = coach("plan", str(path), "--json")
    assert (planned.code, planned.values["verdict"] == "off plan") == (code, bool(code))
    begun = coach("begin", str(path), "--name", "peg", "--json")
    assert begun.code == code
    assert begun.values["job"] == "peg"
    assert coach("where", "peg", "--json").values["title"] == "Hok"


def test_a_job_keeps_the_recipe_it_was_begun_with(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "peg.yaml"
    text = FAULTY.replace("mild stel", "mild steel").replace("drow", "draw")
    path.write_text(text, encoding="utf-8")
    job = coach.job(str(path))
    path.unlink()
    assert coach("where", job, "--json").values["title"] == "Hok"


def test_jobs_are_listed_latest_first_and_those_set_aside_last(coach: Coach) -> None:
    for name in ("one", "two", "three"):
        coach("begin", "first-hook", "--name", name)
    coach("aside", "three")
    coach("heat", "one")
    listed = coach("jobs", "--json").values["jobs"]
    assert isinstance(listed, list)
    assert [job["job"] for job in listed] == ["one", "two", "three"]
    assert [line.split()[0] for line in coach("jobs").out.splitlines()] == ["one", "two", "three"]


def test_jobs_of_an_empty_shop_says_how_to_begin(coach: Coach) -> None:
    told = coach("jobs")
    assert told.code == 0
    assert "coach begin RECIPE" in told.out
    assert coach("jobs", "--json").values == {"jobs": []}
    assert not coach.home.exists()


def test_where_tells_the_step_what_to_measure_and_the_verdict(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    told = coach("where", job)
    assert told.code == 0
    for words in ("step 2 of", "[ ] tip thickness", "Spare", "On plan, ", "Coming", "(tip.thickness)"):
        assert words in told.out


def test_a_reading_is_judged_and_hot_metal_is_reckoned_cold(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    coach("heat", job)
    told = coach("read", job, "--hot", "950C", "tip.thickness=8.2", "--json")
    assert told.code == 0
    checks = told.part("standing", "checks")
    assert isinstance(checks, list)
    reading = next(check["reading"] for check in checks if check["name"] == "tip.thickness")
    assert reading["hot"]["value"] == pytest.approx(950.0)
    # EN 1993-1-2:2005, 3.4.1.1 (3): above 860 °C the relative elongation is 2e-5 T - 6.2e-3, here 0.0128.
    assert reading["cold"]["value"] == pytest.approx(8.2 / 1.0128, rel=1e-6)
    assert reading["size"]["value"] == pytest.approx(8.2)


def test_hot_alone_takes_the_heat_of_the_step(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    told = coach("read", job, "--hot", "tip.thickness=8.2", "tip.width=8.1", "--json")
    assert told.code == 0
    checks = told.part("standing", "checks")
    assert isinstance(checks, list)
    assert [check["name"] for check in checks if check["reading"]] == ["tip.thickness", "tip.width"]
    assert all(check["reading"]["hot"] is not None for check in checks if check["reading"])


@pytest.mark.parametrize(
    ("typed", "size_mm"),
    [("8,2", 8.2), ("5/16in", 7.9375), ("0.3125 in", 7.9375), ("0.82cm", 8.2), ("8.2 mm", 8.2)],
)
def test_a_size_is_read_as_a_smith_types_it(coach: Coach, typed: str, size_mm: float) -> None:
    job = coach.job()
    coach("done", job)
    checks = coach("read", job, f"tip.width={typed}", "--json").part("standing", "checks")
    assert isinstance(checks, list)
    reading = next(check["reading"] for check in checks if check["name"] == "tip.width")
    assert reading["size"]["value"] == pytest.approx(size_mm)  # 1 in = 25.4 mm exactly (ISO 80000-3)


def test_units_decide_how_sizes_are_shown_and_what_a_bare_number_is(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    told = coach("read", job, "tip.width=5/16", "--units", "in")
    assert told.code == 0
    assert " in" in told.out
    assert " mm" not in told.out
    assert "tip width 7.9 mm" in coach("history", job).out


def test_an_unbelievable_reading_is_bad_news_until_it_is_insisted_on(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    told = coach("read", job, "tip.length=300")
    assert told.code == 1
    assert "Take it again" in told.out
    assert coach("where", job).code == 1
    insisted = coach("read", job, "tip.length=300", "--insist", "--json")
    checks = insisted.part("standing", "checks")
    assert isinstance(checks, list)
    assert [one["name"] for one in checks if one["reading"] and one["reading"]["questioned"]] == []


def test_a_size_gone_past_is_bad_news(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    coach("heat", job)
    told = coach("read", job, "tip.thickness=6", "--insist")
    assert told.code == 1
    assert "gone past" in told.out
    assert "[!] tip thickness" in coach("where", job).out


def test_several_readings_are_entered_in_their_order(coach: Coach) -> None:
    job = coach.job()
    told = coach("read", job, "shank.length=73", "tip.length=32", "plate.length=37", "--json")
    answers = told.values["answers"]
    assert isinstance(answers, list)
    assert [answer["entry"] for answer in answers] == [2, 3, 4]
    history = " ".join(coach("history", job).out.split())
    assert history.index("shank length") < history.index("tip length") < history.index("plate length")


def test_done_counts_the_heats_it_is_told(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    assert coach("done", job, "--heats", "5", "--json").part("standing", "heats_total") == 5


def test_back_takes_the_last_step_up_again(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    assert coach("back", job, "--json").part("standing", "step", "number") == 1
    assert coach("back", job).code == 2


def test_a_note_is_kept_as_it_was_written(coach: Coach) -> None:
    job = coach.job()
    coach("note", job, "tip", "leans", "[bold]left[/]", "½ way", "--", "--really")
    notes = coach("where", job, "--json").values["notes"]
    assert isinstance(notes, list)
    assert notes[0]["text"] == "tip leans [bold]left[/] ½ way --really"


def test_a_note_cannot_drive_the_terminal(coach: Coach) -> None:
    job = coach.job()
    coach("note", job, "\x1b[2Jgone\x07 \u202eback")
    told = coach("where", job).out + coach("history", job).out + coach("resume", job).out
    assert not set("\x1b\x07\u202e") & set(told)
    assert "gone" in told


def test_an_entry_is_struck_out_and_brought_back(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job)
    assert "heat" in sentence(coach, "strike", job)
    assert coach("where", job, "--json").values["heats"] == 0
    assert "struck out: heat" in coach("history", job).out
    assert "counts again" in sentence(coach, "strike", job, "3")
    assert coach("where", job, "--json").values["heats"] == 1


def test_resume_tells_what_was_noted_and_what_to_measure_first(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)  # before the bar is marked out no mark is there to be measured
    coach("note", job, "mind the shoulder")
    assert coach("rest", job, "--json").part("standing", "state") == "resting"
    told = coach("resume", job)
    assert told.code == 0
    assert "mind the shoulder" in told.out
    assert "Measure first" in told.out
    assert "At this step" in told.out
    assert coach("where", job, "--json").values["state"] == "under way"


def test_a_job_set_aside_is_taken_up_by_resume(coach: Coach) -> None:
    job = coach.job()
    assert coach("aside", job, "--json").part("standing", "state") == "set aside"
    assert coach("resume", job, "--json").part("standing", "state") == "under way"


def test_history_lists_every_entry(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job)
    coach("note", job, "warm")
    entries = coach("history", job, "--json").values["entries"]
    assert isinstance(entries, list)
    assert [entry["kind"] for entry in entries] == ["began", "heat", "note"]


@pytest.mark.parametrize("verb", ["heat", "done", "back", "strike", "rest", "resume", "aside"])
def test_whatever_is_entered_is_answered_in_one_shape(coach: Coach, verb: str) -> None:
    job = coach.job()
    coach("heat", job)
    coach("done", job)
    assert tuple(coach(verb, job, "--json").values) == ENTERING


def test_a_log_that_cannot_be_written_can_still_be_read(coach: Coach) -> None:
    job = coach.job()
    log = coach.home / "data" / "shop.sqlite"
    kept = coach("where", job).out
    log.chmod(0o444)
    try:
        assert coach("where", job).out == kept
    finally:
        log.chmod(0o644)
