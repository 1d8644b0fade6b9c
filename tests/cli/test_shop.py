"""`coach shop`: what jobs have taught, told, left out and counted again; fire and hammer are named."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.bench.shop import Shop
from coach.cli import main
from tests.bench.jobs import ticking
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS
from tests.worlds.worlds import World

HUNGRY = World(hunger=3.0, takes=1.0, weighs=True)


@pytest.fixture
def log(tmp_path: Path) -> str:
    """The log of a shop with a hungry fire in which two jobs were forged."""
    path = tmp_path / "shop.db"
    with Shop(path, ticking()) as at:
        for number in range(2):
            forged(TOOLS[2], number, HUNGRY, 5, at)
    return str(path)


def said(capsys: pytest.CaptureFixture[str], *typed: str) -> str:
    code = main([*typed])
    out = capsys.readouterr()
    assert code == 0, out
    return out.out


def test_each_figure_stands_beside_what_is_published_and_says_how_many_jobs_it_rests_on(
    log: str, capsys: pytest.CaptureFixture[str]
) -> None:
    told = said(capsys, "shop", "--shop", log)
    assert "scale (×" in told
    assert "hand (×" in told
    assert "2 jobs" in told
    assert "What you were told, and what came true" in told
    assert "will pass, as told" in told, "and not the chance of what is done so far"


def test_one_figure_is_told_with_what_each_job_says(log: str, capsys: pytest.CaptureFixture[str]) -> None:
    told = said(capsys, "shop", "scale", "--shop", log)
    assert "stake-2" in told
    assert "published" in told


def test_what_a_job_taught_is_left_out_and_counted_again(
    log: str, capsys: pytest.CaptureFixture[str]
) -> None:
    told = said(capsys, "shop", "scale", "--leave-out", "stake-2", "--shop", log)
    assert "What stake-2 told of the scale is left out" in told
    held = json.loads(said(capsys, "shop", "scale", "--json", "--shop", log))
    jobs = {one["job"]: one["left_out"] for figure in held["figures"] for one in figure["jobs"]}
    assert jobs["stake-2"] > 0
    assert jobs["stake"] == 0
    told = said(capsys, "shop", "scale", "--bring-back", "--shop", log)
    assert "counted again" in told


def test_a_plan_goes_by_the_figures_that_a_job_of_it_is_begun_with(
    log: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    recipe = tmp_path / "stake.yaml"
    recipe.write_text(TOOLS[2].cut_first.text(1.6), encoding="utf-8")

    def answer(*typed: str, of: str = log) -> dict[str, object]:
        main([*typed, "--json", "--shop", of])
        held = json.loads(capsys.readouterr().out)
        assert isinstance(held, dict)
        return held

    plan = answer("plan", str(recipe))
    by_book = answer("plan", str(recipe), of=str(tmp_path / "none.db"))
    begun = answer("begin", str(recipe))
    where = answer("where", str(begun["job"]))
    assert plan["chance"] == where["chance"]
    assert plan["verdict"] == where["verdict"]
    published = plan["published"]
    assert isinstance(published, dict)
    assert published["chance"] == by_book["chance"]
    assert by_book["published"] is None
    assert by_book["shops_own"] == []
    main(["plan", str(recipe), "--shop", log])
    told = " ".join(capsys.readouterr().out.split())
    assert "By the shop's own figures: hand (× usual scatter) " in told
    assert "; scale (× reckoned) " in told
    assert "2 jobs" in told
    assert "By the published ones: " in told


def test_a_plan_is_told_anew_once_a_job_has_taught_more(
    log: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    recipe = tmp_path / "stake.yaml"
    recipe.write_text(TOOLS[2].cut_first.text(1.6), encoding="utf-8")

    def told() -> str:
        main(["plan", str(recipe), "--shop", log])
        return " ".join(capsys.readouterr().out.split())

    first = told()
    assert told() == first
    said(capsys, "shop", "scale", "--leave-out", "--shop", log)
    assert "scale (× reckoned)" not in told()
    said(capsys, "shop", "scale", "--bring-back", "--shop", log)
    assert "scale (× reckoned)" in told()


def test_a_recipe_is_planned_though_the_log_cannot_be_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = tmp_path / "broken.db"
    broken.write_text("no log", encoding="utf-8")
    assert "On plan" in said(capsys, "plan", "first-hook", "--shop", str(broken))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("shop", "scael"), "No job has taught anything of 'scael'"),
        (("shop", "--leave-out"), "Say which figure"),
        (("shop", "scale", "--leave-out", "--bring-back"), "one thing at a time"),
        (("shop", "scale", "--bring-back"), "Nothing is to be changed"),
        (("shop", "scale", "--leave-out", "no-such-job"), "no job called 'no-such-job'"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    typed: tuple[str, ...], told: str, log: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([*typed, "--shop", log]) != 0
    assert told in capsys.readouterr().err


def test_where_there_is_no_log_yet_it_says_so_and_makes_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    log = tmp_path / "none.db"
    assert "No job has taught anything of this shop yet" in said(capsys, "shop", "--shop", str(log))
    assert not log.exists()
    assert main(["shop", "scale", "--leave-out", "--shop", str(log)]) != 0
    assert "No job has taught anything" in capsys.readouterr().err
    assert not log.exists()


def test_a_shop_that_was_taught_nothing_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log = str(tmp_path / "new.db")
    said(capsys, "begin", "first-hook", "--fire", "coke", "--hammer", "two pounds", "--shop", log)
    assert "No job has taught anything of this shop yet" in said(capsys, "shop", "--shop", log)
    assert "forged in the fire coke with the hammer two pounds" in said(
        capsys, "history", "first-hook", "--shop", log
    )
