"""`coach config`: shown, made, checked and changed; and what it changes elsewhere."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from tests.cli.conftest import Coach


def file_of(coach: Coach) -> Path:
    return coach.home / "config" / "settings.toml"


def _forged(coach: Coach) -> str:
    """A hook that is forged to its end, each size that is asked for read as it is wanted."""
    job = coach.job()
    for _ in range(100):
        now = coach("where", job, "--json").values
        check, step = now["next_check"], now["step"]
        if step is None:
            return job
        assert isinstance(step, dict)
        if step["heats_planned"] > now["heats"]:
            coach("heat", job)
        elif check is not None:
            checks = now["checks"]
            assert isinstance(checks, list)
            wanted = next(one["wanted"]["nominal"] for one in checks if one["name"] == check)
            assert coach("read", job, f"{check}={wanted:.1f}").code in (0, 1)
        else:
            assert coach("done", job).code in (0, 1)
    raise AssertionError("the hook is not forged to its end")


def test_it_shows_every_setting_and_where_they_are_kept(coach: Coach) -> None:
    said = coach("config")
    assert said.code == 0
    assert "as usual" in said.out
    assert str(file_of(coach)) in "".join(said.out.split())
    assert coach("config", "path").out.strip() == str(file_of(coach))
    names = [one["name"] for one in json.loads(coach("config", "--json").out)["settings"]]
    assert {"units", "look", "second_folder", "alarm.back", "gauges.calliper.cold_mm"} <= {*names}


def test_what_is_as_usual_is_told_with_what_that_is(coach: Coach) -> None:
    """A smith who looks whether the calliper is counted too well wants the figure that counts now."""
    from coach.operations.gauges import GAUGES, USUAL_GAUGES

    shown = {line.split("  ")[0].strip(): line for line in coach("config").out.splitlines()}
    for gauge, doubt in GAUGES.items():
        told = (("cold_mm", doubt.cold_mm), ("hot_mm", doubt.hot_mm), ("bias_mm", doubt.bias_mm))
        for field, value in told:
            assert shown[f"gauges.{gauge}.{field}"].endswith(f"as usual: {value:g} mm")
    assert shown["units"].endswith("as usual: those of each recipe")
    coach("config", "set", "gauges.rule.cold_mm", "0.7")
    usual_mm = USUAL_GAUGES["rule"].cold_mm  # not the one that was set, which counts until it is unset
    assert coach("config", "unset", "gauges.rule.cold_mm").out.endswith(f": {usual_mm:g} mm.\n")
    usual = {one["name"]: one["usual"] for one in json.loads(coach("config", "--json").out)["settings"]}
    assert usual["gauges.rule.cold_mm"] == f"{usual_mm:g} mm"


def test_a_key_that_takes_another_s_place_says_what_has_no_key_then(coach: Coach) -> None:
    """F2 says that the metal is out; where it is to say done, nothing says out any more."""
    told = " ".join(coach("config", "set", "keys.f2", "done").out.split())
    assert told == (
        "keys.f2 is done from now on. No key is left for out then: "
        "`coach config set keys.KEY out` gives it one."
    )
    assert "No key is left" not in coach("config", "set", "keys.f13", "out").out
    assert "No key is left" not in coach("config", "set", "keys.f2", "done").out


def test_the_file_is_made_once(coach: Coach) -> None:
    assert coach("config", "make").code == 0
    assert coach("config", "check").code == 0
    made = file_of(coach).read_text(encoding="utf-8")
    assert coach("config", "make").code == 2
    assert file_of(coach).read_text(encoding="utf-8") == made


def test_units_that_are_set_are_those_of_every_command_unless_others_are_asked_for(coach: Coach) -> None:
    assert "30.6 mm" in coach("plan", "first-hook").out
    coach("config", "set", "units", "in")
    assert "mark at 1 7/32 in" in coach("plan", "first-hook").out
    assert "30.6 mm" in coach("plan", "first-hook", "--units", "mm").out
    coach("config", "unset", "units")
    assert "30.6 mm" in coach("plan", "first-hook").out


def test_own_doubts_of_a_gauge_count_for_what_is_read_from_then_on(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    coach("heat", job)
    coach("read", job, "tip.thickness=8.75")

    def checked() -> tuple[object, float]:
        checks = coach("where", job, "--json").part("checks")
        assert isinstance(checks, list)
        one = next(one for one in checks if one["name"] == "tip.thickness")
        return one["verdict"], one["reading"]["cold"]["doubt"]

    before = checked()
    assert before[0] == "unsure"  # wanted 8 ±0.8: 0.05 mm from the limit is less than a calliper's doubt
    for field in ("cold_mm", "bias_mm"):
        said = coach("config", "set", f"gauges.calliper.{field}", "3")
        assert said.code == 0
        assert "What was read before stays as it was." in " ".join(said.out.split())
    assert checked() == before
    coach("read", job, "tip.thickness=8.7")
    assert checked()[1] > 3.0
    coach("config", "unset", "gauges.calliper.cold_mm")
    coach("config", "unset", "gauges.calliper.bias_mm")
    assert checked()[1] > 3.0  # it was read with that calliper


def test_a_finished_record_and_what_it_taught_stay_when_a_gauge_is_set_otherwise(coach: Coach) -> None:
    job = _forged(coach)
    asked = ("sheet", job, "--json"), ("where", job, "--json"), ("shop", "--json"), ("history", job, "--json")
    before, sizes = [coach(*one).out for one in asked], _sizes(coach, job)
    assert '"measured": true' in before[1]
    # What no smith would set: were it taken for what was read, no size would be on plan as it was.
    for gauge in ("calliper", "rule"):
        for field in ("cold_mm", "hot_mm"):
            coach("config", "set", f"gauges.{gauge}.{field}", "0.001")
    assert [coach(*one).out for one in asked] == before
    taught = _says(coach, "calliper")
    assert taught
    coach("config", "set", "gauges.calliper.bias_mm", "4")
    assert coach(*asked[1]).out == before[1]
    assert _sizes(coach, job) == sizes
    assert _says(coach, "calliper") == taught


def _sizes(coach: Coach, job: str, *more: str) -> object:
    """Every size as the record has it."""
    return coach("sheet", job, *more, "--json").part("sheet", "sizes")


def _says(coach: Coach, figure: str) -> list[object]:
    """What each job says of a figure of the shop."""
    figures = coach("shop", figure, "--json").part("figures")
    assert isinstance(figures, list)
    return [one["said"] for one in figures[0]["jobs"]]


def test_a_job_keeps_its_gauges_where_it_is_brought_into_another_shop(coach: Coach, tmp_path: Path) -> None:
    coach("config", "set", "gauges.calliper.cold_mm", "0.02")
    job = _forged(coach)
    told = _sizes(coach, job)
    file, other = tmp_path / "job.jsonl", str(tmp_path / "other.db")
    assert coach("export", job, str(file)).code == 0
    coach("config", "unset", "gauges.calliper.cold_mm")
    text = file.read_text(encoding="utf-8")
    assert "0.02" in text
    said = coach("import", str(file), "--shop", other)
    assert said.code == 0, said.err
    assert _sizes(coach, job, "--shop", other) == told


def test_the_second_folder_that_is_set_takes_copies(coach: Coach, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    coach.job()
    coach("config", "set", "second_folder", str(stick))
    assert coach("backups", "--now").code == 0
    assert len(list(stick.iterdir())) == 1
    said = coach("backups", "--second", str(tmp_path))
    assert said.code == 2
    assert "coach config set second_folder" in " ".join(said.err.split())


def test_the_second_folder_is_set_whole_and_not_where_the_log_is(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    coach.job()
    folders = coach("backups", "--json").part("folders")
    assert isinstance(folders, list)
    log = Path(folders[0]).parent
    said = coach("config", "set", "second_folder", str(log))
    assert said.code == 2
    assert "is where the log or its first copies are" in " ".join(said.err.split())
    stick = tmp_path / "a stick"
    stick.mkdir()
    monkeypatch.chdir(stick)
    assert str(stick) in coach("config", "set", "second_folder", ".").out.replace("\n", " ")


def test_a_wrong_setting_is_told_beside_what_is_asked_and_hinders_nothing(coach: Coach) -> None:
    coach("config", "set", "units", "in")
    text = file_of(coach).read_text(encoding="utf-8").replace('units = "in"', 'units = "furlong"')
    file_of(coach).write_text(text, encoding="utf-8")
    said = coach("plan", "first-hook")
    assert said.code == 0
    assert "30.6 mm" in said.out
    assert "`coach config check` tells" in " ".join(said.err.split())
    checked = coach("config", "check")
    assert checked.code == 1
    assert "'furlong'" in " ".join(checked.out.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("frobnicate",), "type show, path, make, check, set or unset"),
        (("show", "units"), "leave out what follows"),
        (("set",), "Which setting?"),
        (("set", "units"), "lacks a value"),
        (("set", "unit", "mm"), "did you mean units?"),
        (("set", "units", "cm"), "expected one of mm, in"),
        (("set", "keys.7", "out"), "No key that may do something else"),
        (("set", "keys.x", "out"), "No key that may do something else"),  # two sizes at once: 8.4 x 7.9
        (("set", "gauges.calliper.cold_mm", "thin"), "no number of millimetres"),
        (("unset", "units", "mm"), "takes no value"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(coach: Coach, words: tuple[str, ...], told: str) -> None:
    said = coach("config", *words)
    assert said.code == 2
    assert told in " ".join(said.err.split())
    assert not file_of(coach).exists()


def test_an_alarm_that_is_typed_in_quotes_is_a_program_and_its_words(coach: Coach) -> None:
    coach("config", "set", "alarm.back", "no-such-bell 'loud and long' 3")
    settings = coach("config", "--json").part("settings")
    assert isinstance(settings, list)
    (back,) = (one["value"] for one in settings if one["name"] == "alarm.back")
    assert back == ["no-such-bell", "loud and long", "3"]


def test_an_alarm_whose_program_is_not_there_is_told_before_the_fire_is_lit(coach: Coach) -> None:
    coach("config", "set", "alarm.back", "no-such-bell", "loud")
    coach("config", "set", "alarm.soaked", sys.executable, "-c", "pass")
    told = " ".join(coach("config", "check").out.split())
    assert "alarm.back: no program called 'no-such-bell' is found here now" in told
    assert "alarm.soaked" not in told


def test_a_second_folder_that_is_not_there_is_told_as_it_is_set(coach: Coach, tmp_path: Path) -> None:
    told = " ".join(coach("config", "set", "second_folder", str(tmp_path / "stick")).out.split())
    assert "It is not there now: until it is, nothing is copied to it" in told
    (tmp_path / "stick").mkdir()
    assert "not there" not in coach("config", "set", "second_folder", str(tmp_path / "stick")).out


def test_what_a_gauge_is_as_usual_is_told_so_while_another_doubt_is_set(coach: Coach) -> None:
    usual = coach("config").out
    assert "gauges.calliper.cold_mm  as usual: 0.1 mm" in usual
    assert " ".join(coach("config", "set", "gauges.calliper.cold_mm", "0.04").out.split()) == (
        "gauges.calliper.cold_mm is 0.04 mm from now on. What was read before stays as it was."
    )
    assert "gauges.calliper.cold_mm  0.04 mm" in coach("config").out
    assert coach("config", "unset", "gauges.calliper.cold_mm").out == (
        "gauges.calliper.cold_mm is as usual from now on: 0.1 mm.\n"
    )
    assert coach("config").out.partition("\n\n")[0] == usual.partition("\n\n")[0]
