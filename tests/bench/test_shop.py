"""The shop: jobs begun from recipes, listed and opened again."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from coach.bench.entering import EntryFault
from coach.bench.shop import Shop
from coach.ledger.working import LedgerError
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.errors import LogDamaged, LogMissing, LogReadOnly
from coach.log.jobs import Log
from coach.places import bundled_recipes
from coach.recipe.faults import RecipeFaults
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, begun, shop, ticking
from tests.ledger.recipes import DRAW, LAID
from tests.log.bodies import BEGAN
from tests.spelt_out import file_text


def test_a_job_is_named_after_its_recipe_and_counted_on() -> None:
    with shop() as place:
        assert [begun(DRAW, place).job for _ in range(3)] == ["strap", "strap-2", "strap-3"]


def test_a_job_is_counted_on_past_one_that_another_window_begins_first(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as here, shop(tmp_path / "shop.log") as there:
        begin = here.log.begin
        begun_there: list[str] = []

        def too_late(job: str, at: str, body: Body, cuts: tuple[int, Sequence[Body]] | None) -> Entry:
            if not begun_there:
                begun_there.append(begun(DRAW, there).job)
            return begin(job, at, body, cuts)

        with pytest.MonkeyPatch.context() as late:
            late.setattr(here.log, "begin", too_late)
            assert begun(DRAW, here).job == "strap-2"
            begun_there.clear()
            with pytest.raises(EntryFault, match="already has a job 'strap-3': choose another name"):
                begun(DRAW, here, "strap-3")
        assert here.log.jobs() == ["strap", "strap-2", "strap-3"]


def test_a_job_may_be_named_by_the_smith() -> None:
    with shop() as place:
        assert begun(DRAW, place, " Gate hinge left ").job == "gate-hinge-left"
        assert begun(DRAW, place, "Türband").job == "türband"
        with pytest.raises(EntryFault, match="a job called 'gate-hinge-left' already: choose another name"):
            begun(DRAW, place, "gate hinge left")


def test_a_job_s_name_may_be_typed_in_any_way_that_it_looks_like() -> None:
    with shop() as place:
        assert begun(DRAW, place, "Straße").job == "strasse"
        with pytest.raises(EntryFault, match="a job called 'strasse' already"):
            begun(DRAW, place, "ｓｔｒａｓｓｅ")
        for typed in ("straße", "STRA", "ｓｔｒ"):
            assert place.open(typed).job == "strasse"


@pytest.mark.parametrize("name", ["../hinge", "hinge, left!", "!!!", "-hinge", " ", "x" * 61])
def test_a_name_that_would_have_to_be_changed_is_refused_with_what_is_allowed(name: str) -> None:
    with shop() as place:
        with pytest.raises(EntryFault, match="it takes letters, digits, hyphens and underscores"):
            begun(DRAW, place, name)
        assert place.jobs() == ()


def test_a_recipe_of_any_title_gives_its_job_a_name_that_can_be_typed() -> None:
    with shop() as place:
        assert begun(DRAW.replace("title: Strap", 'title: "../- My strap (2)!"'), place).job == "my-strap-2"


def test_a_job_opens_by_its_name_or_the_beginning_of_it() -> None:
    with shop() as place:
        begun(DRAW, place)
        begun(HAMMER, place)
        assert place.open("hand").job == "hand-hammer"
        assert place.open(" strap ").job == "strap"
        begun(DRAW, place)
        assert place.open("strap").job == "strap"
        with pytest.raises(
            EntryFault, match="Several jobs begin with 'str': strap, strap-2; type more of it"
        ):
            place.open("str")
        with pytest.raises(EntryFault, match=r"no job called 'hand-hamer': did you mean hand-hammer\?"):
            place.open("hand-hamer")
        with pytest.raises(EntryFault, match="the jobs are strap, hand-hammer, strap-2"):
            place.open("zzz")
        with pytest.raises(EntryFault, match="no job called ''"):
            place.open("")


def test_a_job_opens_by_the_file_that_it_was_begun_from() -> None:
    """`coach begin twisted-poker` names its job after the recipe's title, `poker-with-a-twist`."""
    text = (bundled_recipes() / "twisted-poker.yaml").read_text(encoding="utf-8")
    with shop() as place:
        begun(DRAW, place)
        place.begin(text, "twisted-poker.yaml")
        assert place.open("twisted-poker").job == "poker-with-a-twist"
        assert place.open("Twisted poker").job == "poker-with-a-twist"
        place.begin(text, "twisted-poker.yaml")
        with pytest.raises(
            EntryFault, match="'twisted-poker': poker-with-a-twist, poker-with-a-twist-2; type"
        ):
            place.open("twisted-poker")
        with pytest.raises(EntryFault, match="no job called 'twisted-pokers'"):
            place.open("twisted-pokers")
        # What a job is called goes before what another was begun from.
        named = place.begin(text, "twisted-poker.yaml", "twisted-poker-of-mine")
        assert place.open("twisted-poker").job == named.job


def test_an_empty_shop_says_how_to_begin() -> None:
    with shop() as place:
        assert place.jobs() == ()
        with pytest.raises(EntryFault, match="no job yet: begin one with 'coach begin RECIPE'"):
            place.open("strap")


def test_a_recipe_with_faults_begins_nothing() -> None:
    with shop() as place:
        with pytest.raises(RecipeFaults):
            place.begin("recipe: Nothing else\n", "bad.yaml")
        with pytest.raises(LedgerError):
            begun(LAID.replace("length: 60 ±4}", "length: 900}"), place)
        assert place.jobs() == ()


def test_jobs_are_listed_the_latest_touched_first_and_those_set_aside_last() -> None:
    with shop() as place:
        strap, chisel, hammer = begun(DRAW, place), begun(LAID, place), begun(HAMMER, place)
        assert [job.job for job in place.jobs()] == ["hand-hammer", "steeled-chisel", "strap"]
        strap.heat()
        assert [job.job for job in place.jobs()] == ["strap", "hand-hammer", "steeled-chisel"]
        strap.set_aside()
        assert [job.job for job in place.jobs()] == ["hand-hammer", "steeled-chisel", "strap"]
        chisel.done()
        hammer.rest()
        listed = {
            job.job: (job.title, job.state, job.step, job.steps, job.step_title) for job in place.jobs()
        }
        assert listed == {
            "strap": ("Strap", "set aside", 1, 1, "Draw the strap"),
            "steeled-chisel": ("Steeled chisel", "under way", 2, 6, "Draw the bit"),
            "hand-hammer": ("Hand hammer", "resting", 1, 12, "Mark out the body"),
        }


def test_a_finished_job_is_listed_as_finished() -> None:
    with shop() as place:
        begun(DRAW, place).done()
        (job,) = place.jobs()
        assert (job.state, job.step, job.step_title) == ("finished", 1, "")


def test_sizes_keep_the_order_of_the_drawing_when_a_job_is_opened_again(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as place:
        before = begun(HAMMER, place)
        order = [size.name for size in before.standing().sizes]
    with shop(tmp_path / "shop.log") as place:
        after = place.open("hand")
        assert [size.name for size in after.standing().sizes] == order
        assert list(after.recipe.pieces["face"].stock.sizes_mm) == ["width", "thickness"]
        assert after.recipe == before.recipe
        assert after.plan == before.plan


def test_a_damaged_job_is_told_and_does_not_hide_the_others(tmp_path: Path) -> None:
    path = tmp_path / "shop.log"
    with shop(path) as place:
        begun(DRAW, place)
        session = begun(LAID, place)
        session.note("A sound entry.")
    damaged = path.read_bytes().replace(b"A sound entry.", b"A sxund entry.")
    path.write_bytes(damaged)
    with shop(path) as place:
        listed = {job.job: job for job in place.jobs()}
        assert listed["strap"].state == "under way"
        assert listed["steeled-chisel"].state == "damaged"
        assert "entry 2 is not as it was written" in str(listed["steeled-chisel"].trouble)
        with pytest.raises(LogDamaged):
            place.open("steeled-chisel")
        assert place.open("strap").job == "strap"


def test_a_job_whose_recipe_cannot_be_read_is_told_and_does_not_hide_the_others() -> None:
    with shop() as place:
        begun(DRAW, place)
        at = "2026-03-02T09:00:00Z"
        place.log.begin("odd", at, BEGAN.replaced(recipe='{"format": "7"}', text=""))
        place.log.begin("bare", at, BEGAN.replaced(recipe="no tree", text=file_text(DRAW)))
        listed = {job.job: (job.state, bool(job.trouble), job.step_title) for job in place.jobs()}
        assert listed == {
            "strap": ("under way", False, "Draw the strap"),
            "odd": ("damaged", True, ""),
            "bare": ("under way", False, "Draw the strap"),
        }
        assert place.open("bare").standing().verdict == "on plan"
        with pytest.raises(RecipeFaults):
            place.open("odd")


def test_a_shop_opened_to_read_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "shop.log"
    with shop(path) as place:
        begun(DRAW, place)
    with Shop(path, ticking(), read_only=True) as place:
        session = place.open("strap")
        assert session.standing().verdict == "on plan"
        with pytest.raises(LogReadOnly):
            session.heat()
        assert session.standing().heats == 0


def test_a_copy_of_the_log_is_kept_at_each_rest(tmp_path: Path) -> None:
    path = tmp_path / "shop.log"
    with shop(path) as place:
        session = begun(HAMMER, place)
        session.done()
        session.rest()
        session.heat()
    (copy,) = (tmp_path / "backups").iterdir()
    with Log(copy, read_only=True) as log:
        assert [entry.kind for entry in log.entries("hand-hammer")] == ["began", "done", "rested"]


def test_a_second_folder_has_its_copies_too(tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    with Shop(tmp_path / "shop.log", ticking(), second=stick) as place:
        begun(HAMMER, place).rest()
        assert not place.not_copied
    (copy,) = stick.glob("between-heats-*/shop.log-*.sqlite")
    with Log(copy, read_only=True) as log:
        assert log.last_number("hand-hammer") == 2


@pytest.mark.parametrize("fault", ["a file in the way", "no stick"])
def test_a_rest_without_its_copy_says_so(tmp_path: Path, fault: str) -> None:
    stick = None
    if fault == "no stick":
        stick = tmp_path / "stick"
        stick.mkdir()
    else:
        (tmp_path / "backups").touch()
    with Shop(tmp_path / "shop.log", ticking(), second=stick) as place:
        if stick is not None:
            stick.rmdir()
        answer = begun(HAMMER, place).rest()
        told = answer_text(answer, Shown())
    assert "here as you leave it. No copy of the log was made in " in told
    assert told.endswith("no such folder." if stick else "check the disk and the folder.")
    assert stick is None or not stick.exists()


def test_a_day_begun_without_its_copy_says_so(tmp_path: Path) -> None:
    path = tmp_path / "shop.log"
    with shop(path) as place:
        begun(HAMMER, place)
    (tmp_path / "backups").touch()
    with shop(path) as place:
        assert "No copy of the log was made in " in write(place.not_copied, Shown())


def test_a_log_that_is_gone_is_not_begun_anew_beside_its_copies(tmp_path: Path) -> None:
    path = tmp_path / "shop.log"
    with shop(path) as place:
        begun(HAMMER, place).rest()
    path.unlink()
    with pytest.raises(LogMissing, match="`coach restore`"):
        shop(path)
    assert not path.exists()


def test_moments_are_the_clock_s_in_utc() -> None:
    with shop() as place:
        session = begun(DRAW, place)
        session.heat()
        standing = session.standing()
    assert standing.began_at.endswith("Z")
    assert standing.began_at < standing.last_at
    assert session.history()[1].at == standing.last_at


def test_a_job_is_found_by_its_name_as_it_was_given() -> None:
    made = shop()
    made.begin(file_text(HAMMER), "x.yaml", "Left Hand A")
    assert made.named("Left Hand A") == made.named("LEFT HAND") == "left-hand-a"
