"""The page of the work in hand: what never gives way, and in which order the rest does."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.content import Content

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.standing import FinishedStep, LastVerdict
from coach.ledger.verdict import PlanState, Verdict
from coach.operations import operation
from coach.operations.does import Does, HeatKind
from coach.operations.measures import MARK
from coach.quantities.figure import Kind
from coach.recipe.reader import read_recipe_file
from coach.screens.bench_beside import work_beside_sizes
from coach.screens.bench_cautions import cautions_now
from coach.screens.bench_drawn import _no_more_than
from coach.screens.bench_face import bench_blocks
from coach.screens.bench_marks import bar_of_marks
from coach.screens.bench_pages import page_lines
from coach.screens.bench_work import needs_rows, work_page
from coach.screens.widgets.face import face_lines
from coach.telling.standing import done_text
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, ticking

SHELF = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
HOOK = next(path for path in SHELF if path.stem == "first-hook")
HAMMER = next(path for path in SHELF if path.stem == "cross-peen-hammer")
MATTOCK = next(path for path in SHELF if path.stem == "mattock")
ADZE = next(path for path in SHELF if path.stem == "carpenters-adze")
STEPS = [(path, step.number) for path in SHELF for step in read_recipe_file(path).steps]
#: At 80 by 24 the head, the answer, the box and the keys take a row each, the face 7 or 5.
LARGE_FACE, SMALL_FACE = 24 - 4 - 7, 24 - 4 - 5


@pytest.fixture(scope="module")
def jobs() -> dict[Path, Session]:
    """A job of each recipe, which the tests go through step by step."""
    return {path: Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name) for path in SHELF}


@pytest.mark.parametrize(("path", "number"), STEPS, ids=lambda one: getattr(one, "stem", str(one)))
def test_at_80_by_24_every_caution_and_the_size_read_next_are_in_sight(
    jobs: dict[Path, Session], path: Path, number: int
) -> None:
    session = jobs[path]
    while (step := session.standing().step) is not None and step.number < number:
        session.done()
    standing = session.standing()
    step = standing.step
    assert step is not None
    chosen = standing.checks[0] if standing.checks else None
    rows = LARGE_FACE if needs_rows(standing, chosen, Shown("mm"), 80) <= LARGE_FACE else SMALL_FACE
    lines = [line.plain for line in work_page(standing, chosen, Shown("mm"), 80, rows)]
    assert len(lines) <= rows
    assert all(len(line) <= 80 for line in lines)
    words = " ".join(" ".join(lines).split())
    treats = step.heat_kind is HeatKind.TREATMENT or Does.TEMPERS in operation(step.operation).DOES
    for caution in step.cautions if treats else cautions_now(standing, chosen):
        assert caution in words
    if len(standing.checks) > 1 and not treats:  # at a treatment the face tells it
        assert "▸" in words
    assert " ".join(step.how.split())[:30] in words
    if treats:
        assert " ".join(step.how.split()) in words, "at a treatment what to do is whole"
        assert not step.watch or f"Watch {' '.join(step.watch.split())[:40]}" in words


@pytest.mark.parametrize(("path", "number"), STEPS, ids=lambda one: getattr(one, "stem", str(one)))
def test_at_60_by_20_what_to_do_the_test_and_the_size_are_in_sight_and_every_caution_within_reach(
    jobs_in_a_small_window: dict[Path, Session], path: Path, number: int
) -> None:
    session = jobs_in_a_small_window[path]
    while (step := session.standing().step) is not None and step.number < number:
        session.done()
    assert step is not None
    standing = session.standing()
    chosen = standing.checks[0] if standing.checks else None
    # The head, the answer, the box and the keys take a row each, the face 5; the last may say there is more.
    lines = [line.plain for line in work_page(standing, chosen, Shown("mm"), 60, 20 - 4 - 5)]
    seen = lines[: 20 - 4 - 5] if len(lines) <= 20 - 4 - 5 else lines[: 20 - 4 - 5 - 1]
    words = " ".join(" ".join(seen).split())
    assert " ".join(step.how.split())[:30] in words
    if now := [*cautions_now(standing, chosen)]:
        assert now[0] in words
    if chosen is not None and chosen.kind is Kind.TEST:
        assert chosen.how[:30] in words
    if len(standing.checks) > 1:
        assert "▸" in words
    in_full = [line.plain for line in page_lines("Step", standing, Shown("mm"))(60, 20)]
    for caution in cautions_now(standing, chosen):
        assert caution in " ".join(" ".join(lines).split())
    for caution in step.cautions:  # one Tab away
        assert caution in " ".join(" ".join(in_full).split())


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_every_caution_of_every_step_has_its_moment_at_the_bench(path: Path) -> None:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    while (step := session.standing().step) is not None:
        standing = session.standing()
        out = standing._replace(heats=step.heats_planned)
        told = {
            caution
            for moment in (standing, out)
            for check in (*standing.checks, None)
            for caution in cautions_now(moment, check)
        }
        assert told == {*step.cautions}, step.number
        session.done()


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_at_80_by_24_a_caution_that_is_not_in_sight_is_counted_and_tab_shows_it(path: Path) -> None:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    while (step := session.standing().step) is not None:
        standing = session.standing()
        page = page_lines("Step", standing, Shown("mm"))(80, 24)
        in_full = " ".join(" ".join(line.plain for line in page).split())
        assert all(caution in in_full for caution in step.cautions), step.number
        for moment in (standing, standing._replace(heats=step.heats_planned)):
            for chosen in (*moment.checks, None):
                small = needs_rows(moment, chosen, Shown("mm"), 80) > LARGE_FACE
                rows = SMALL_FACE if small else LARGE_FACE
                lines = [line.plain for line in work_page(moment, chosen, Shown("mm"), 80, rows)][:rows]
                words = " ".join(" ".join(lines).split())
                missing = sum(caution not in words for caution in step.cautions)
                many = f"{missing} more caution{'s' if missing > 1 else ''}: Tab"
                assert (many in words) if missing else ("more caution" not in words), step.number
        session.done()


def test_a_bar_of_marks_shows_the_middle_of_a_zone_that_will_have_a_hole(
    jobs_to_mark_out: dict[Path, Session],
) -> None:
    standing = jobs_to_mark_out[ADZE].standing()  # the adze: its eye is from 20.5 to 63.3 mm
    _, figures, bar, _ = bar_of_marks(standing, None, Shown("mm"), 80)
    assert figures.plain.split() == ["0", "20.5", "41.9", "63.3", "105", "119.5"]
    middle = bar.plain.index("○")
    assert figures.plain.index("41.9") <= middle < figures.plain.index("41.9") + 4


def test_where_a_bar_is_marked_out_the_face_gives_way_to_what_to_do(
    jobs_to_mark_out: dict[Path, Session],
) -> None:
    standing = jobs_to_mark_out[ADZE].standing()
    assert standing.step is not None
    assert needs_rows(standing, standing.checks[0], Shown("mm"), 80) > LARGE_FACE
    lines = work_page(standing, standing.checks[0], Shown("mm"), 80, SMALL_FACE)
    words = " ".join(" ".join(line.plain for line in lines).split())
    assert " ".join(standing.step.how.split()) in words
    assert len(lines) <= SMALL_FACE


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_at_80_by_24_no_number_of_cautions_makes_the_figures_smaller_where_metal_is_worked(
    path: Path,
) -> None:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    while (step := session.standing().step) is not None:
        standing = session.standing()
        worked = step.heat_kind in (HeatKind.FORGING, HeatKind.COLD) and step.quench is None
        if worked and len(standing.checks) < 9 and not any(one.dimension == MARK for one in standing.checks):
            for heats in (0, step.heats_planned):
                at = standing._replace(heats=heats)
                for chosen in (*at.checks, None):
                    assert needs_rows(at, chosen, Shown("mm"), 80) <= LARGE_FACE, step.number
        session.done()


@pytest.mark.parametrize(("path", "number"), STEPS, ids=lambda one: getattr(one, "stem", str(one)))
def test_a_large_window_leaves_room_for_all_of_a_step(
    jobs_anew: dict[Path, Session], path: Path, number: int
) -> None:
    session = jobs_anew[path]
    while (step := session.standing().step) is not None and step.number < number:
        session.done()
    assert step is not None
    # At 120 by 40 the head and the face take 10 rows, what stands below the work 6 and the rest 3.
    lines = [line.plain for line in _columns(session)]
    words = " ".join(" ".join(lines).split())
    for text in (*step.cautions, step.how):
        assert " ".join(text.split()) in words


def _columns(session: Session) -> list[Content]:
    """Both columns of the work, one below the other, in the rows that they get."""
    standing = session.standing()
    chosen = standing.checks[0] if standing.checks else None
    lines = work_beside_sizes(standing, chosen, Shown("mm"), 120, 59, 40 - 10 - 3 - 6)
    return [line[:59] for line in lines] + [line[59:] for line in lines]


@pytest.fixture(scope="module")
def jobs_anew() -> dict[Path, Session]:
    """Another job of each recipe."""
    return {path: Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name) for path in SHELF}


@pytest.fixture(scope="module")
def jobs_to_mark_out() -> dict[Path, Session]:
    """The same, at their first step."""
    return {path: Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name) for path in SHELF}


@pytest.fixture(scope="module")
def jobs_in_a_small_window() -> dict[Path, Session]:
    """The same once more."""
    return {path: Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name) for path in SHELF}


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_at_80_by_24_what_is_to_be_put_right_stays_in_sight_at_every_step(path: Path) -> None:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    session.to_right("a nick in the arris, to be filed out before anything else is done to it")
    session.to_right("another one")
    while (step := session.standing().step) is not None:
        standing = session.standing()
        chosen = standing.checks[0] if standing.checks else None
        rows = LARGE_FACE if needs_rows(standing, chosen, Shown("mm"), 80) <= LARGE_FACE else SMALL_FACE
        lines = [line.plain for line in work_page(standing, chosen, Shown("mm"), 80, rows)][:rows]
        assert "a nick in the arris" in " ".join(lines).lower(), step.number
        session.done()


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_the_names_under_the_bar_of_marks_are_whole(
    jobs_to_mark_out: dict[Path, Session], path: Path
) -> None:
    standing = jobs_to_mark_out[path].standing()
    names = [one.zone.split()[-1] for one in standing.checks if one.dimension == MARK]
    lines = bar_of_marks(standing, None, Shown("mm"), 80)
    assert [word for word in lines[-1].plain.split() if word in names] == names if lines else len(names) < 2


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_at_80_by_24_no_word_is_cut_at_any_step_of_the_shelf(path: Path) -> None:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    while (step := session.standing().step) is not None:
        standing = session.standing()
        chosen = standing.checks[0] if standing.checks else None
        small = needs_rows(standing, chosen, Shown("mm"), 80) > LARGE_FACE
        face = face_lines(bench_blocks(standing, chosen, None, Shown("mm")), 80, 3 if small else 5)
        page = work_page(standing, chosen, Shown("mm"), 80, SMALL_FACE if small else LARGE_FACE)
        for line in (*face, *page):
            assert "…" not in line.plain.replace("… Tab", ""), step.number
        session.done()


def test_a_treatment_tells_all_that_can_hurt_from_its_beginning() -> None:
    for told in _cautions_while_asked(HAMMER, 29).values():
        assert "Magnet on a long handle" in told
        assert "under a file" in told
        assert "Untempered steel breaks" in told


def test_what_a_test_can_hurt_by_is_told_while_that_test_is_asked_for() -> None:
    told = _cautions_while_asked(MATTOCK, 20)
    assert len(set(told.values())) > 1
    assert "length" in told
    assert len(told["length"]) < len(told["crack_test"])


def test_that_metal_is_hot_which_looks_cold_is_told_first_of_all_and_then_when_the_last_heat_is_out() -> None:
    session = Shop(":memory:", ticking()).begin(HOOK.read_text("utf-8"), HOOK.name)
    black = "What looks cold burns"
    while not (step := session.standing().step) or not step.heats_planned:
        session.done()
    assert black in " ".join(cautions_now(session.standing(), None))
    session.done()
    while not (step := session.standing().step) or step.heats_planned < 2:
        session.done()
    assert black not in " ".join(cautions_now(session.standing(), None))
    for _ in range(step.heats_planned):
        session.heat()
    assert black in " ".join(cautions_now(session.standing(), None))


def _cautions_while_asked(path: Path, number: int) -> dict[str, str]:
    session = Shop(":memory:", ticking()).begin(path.read_text("utf-8"), path.name)
    while (step := session.standing().step) is not None and step.number < number:
        session.done()
    standing = session.standing()
    return {one.dimension: " ".join(cautions_now(standing, one)) for one in standing.checks}


def test_a_message_of_three_rows_leaves_the_size_to_work_to_where_it_is() -> None:
    """The answer takes two rows more of the page then: what to watch goes behind Tab before the size does."""
    demo = at_step_of("carpenters-adze", 25)
    standing = demo.standing()
    assert standing.step is not None
    chosen = standing.checks[0]
    for fewer in range(3):
        lines = [line.plain for line in work_page(standing, chosen, Shown("mm"), 80, LARGE_FACE - fewer)]
        assert any(line.startswith(" To size") for line in lines), lines
        assert any(line.startswith(" Caution") for line in lines), lines


def test_what_to_watch_that_has_no_room_is_announced_by_its_name() -> None:
    """The weld of the hatchet at 80x24: all of what to do is told, and it is not taken for cut."""
    standing = at_step_of("hedging-hatchet", 19).standing()
    assert standing.step is not None
    lines = [line.plain for line in work_page(standing, standing.checks[0], Shown("mm"), 80, SMALL_FACE)]
    assert not any(line.startswith(" Watch") for line in lines)
    assert any(line.rstrip().endswith("Flux, and once more. · Watch: Tab") for line in lines), lines


def test_a_job_that_is_tight_says_why_where_the_work_stands() -> None:
    """All three marks short: the verdict is tight for the metal of the tip."""
    session = Shop(":memory:", ticking()).begin(HOOK.read_text("utf-8"), HOOK.name)
    for name, typed in (("tip.mark", "28.6"), ("shank.mark", "101.2"), ("plate.mark", "137.6")):
        session.read(name, typed)
    session.done()
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    for width, rows in ((80, LARGE_FACE), (80, SMALL_FACE), (60, 11)):
        lines = [line.plain for line in work_page(standing, standing.checks[0], Shown("mm"), width, rows)]
        assert [line for line in lines if line.startswith(" Tight") and "Tip: the metal" in line], lines
    beside = work_beside_sizes(standing, standing.checks[0], Shown("mm"), 160, 79, 12)
    assert any("Tip: the metal" in line.plain for line in beside)


def test_a_size_that_its_row_tells_as_out_is_not_told_again_as_why() -> None:
    session = Shop(":memory:", ticking()).begin(HOOK.read_text("utf-8"), HOOK.name)
    while (step := session.standing().step) is not None and step.number < 8:
        session.done()
    session.heat()
    session.read("plate.hole_length", "6.6")
    standing = session.standing()
    assert standing.verdict is PlanState.OFF_PLAN
    lines = [line.plain for line in work_page(standing, standing.checks[0], Shown("mm"), 80, LARGE_FACE)]
    assert not [line for line in lines if line.startswith((" Tight", " Off plan"))], lines


def test_a_column_that_is_cut_says_how_many_rows_more_there_are() -> None:
    lines = [Content(f"row {at}") for at in range(7)]
    assert [line.plain for line in _no_more_than(lines, 7)] == [line.plain for line in lines]
    assert [line.plain for line in _no_more_than(lines, 3)] == ["row 0", "row 1", " … 5 more: Tab"]


def test_a_finished_step_without_room_for_its_readings_says_that_all_are_good_or_what_is_not() -> None:
    good = LastVerdict("plate", "hole length", Verdict.GOOD)
    amiss = LastVerdict("plate", "width", Verdict.OUT)
    done = FinishedStep(8, "Punch the nail hole", 1, 40, (good, good))
    assert done_text(done) == "8 Punch the nail hole, 1 heat: plate hole length good, plate hole length good"
    assert done_text(done, 40) == "8 Punch the nail hole, 1 heat: all good"
    assert (
        done_text(done._replace(verdicts=(good, amiss)), 40)
        == "8 Punch the nail hole, 1 heat: plate width out"
    )
