"""The bench's face: the clock in the metal's colour, the aim, how far to go, and one verdict."""

from __future__ import annotations

from unittest.mock import Mock

import pytest
from textual.color import Color

from coach.bench.clock import HeatClock, Place
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.drawing.large import MIDDLE, SMALL
from coach.fire.glow import glow_rgb
from coach.ledger.verdict import PlanState
from coach.quantities.figure import celsius, seconds
from coach.screens import bench_work
from coach.screens.bench import BenchScreen
from coach.screens.bench_face import FIX_FIRST, Dial, bench_blocks, clock_block, to_go_block, verdict_block
from coach.screens.bench_heat import heat_block
from coach.screens.bench_work import do_lines
from coach.screens.widgets.face import Block, Column, Face, Weight, face_lines, rows_of_figures
from coach.telling.clock import soak_words
from coach.telling.entered import answer_text
from coach.telling.glance import glance
from coach.telling.page import Line
from coach.telling.summary import summary
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step, at_step_of, begun
from tests.bench.test_session_steel import CHISEL
from tests.screens.stage import at_the_bench, screen_text, settled, words_on

HOT = (celsius(1100.0), celsius(840.0), seconds(60.0))
OUT = HeatClock(Place.OUT, "x", *HOT, ((0.0, 1100.0), (60.0, 840.0)), None)
IN = HeatClock(Place.IN, "x", *HOT, (), seconds(180.0))
MM = Shown("mm")
SIZES = [(80, 24), (120, 40), (160, 48), (200, 60), (60, 20), (100, 36)]


@pytest.mark.parametrize(
    ("clock", "after", "figure", "label", "caption"),
    [
        (OUT, 0.0, "1:00", "light yellow", "work to 840 °C"),
        (OUT, 45.5, "0:14", "orange", "work to 840 °C"),
        (OUT, 60.0, "BACK", "back to the fire", "0:00 over · F3 in"),
        (OUT, 75.0, "BACK", "back to the fire", "0:15 over · F3 in"),
        (OUT, 119.0, "BACK", "back to the fire", "0:59 over · F3 in"),
        (OUT, 120.0, "", "too cold to work", ""),
        (OUT._replace(read_cold=True), 61.0, "", "cold", ""),
        (OUT._replace(read_cold=True), 45.5, "0:14", "orange", "work to 840 °C"),
        (IN, 61.0, "1:01", "in the fire, soaking", "about 3 min"),
        (IN, 181.0, "3:01", "through: take it out", "F2 as it comes"),
        (IN, 725.0, "12", "through: take it out", "F2 as it comes"),
    ],
)
def test_the_clock_says_how_long_there_is_and_then_what_to_do(
    clock: HeatClock, after: float, figure: str, label: str, caption: str
) -> None:
    block = clock_block(Dial(clock, after), MM)
    assert (block.figure, block.label, block.caption) == (figure, label, caption)


@pytest.mark.parametrize(("soak_s", "through_s"), [(0.0, 10.0), (33.0, 40.0), (61.0, 120.0)])
def test_the_clock_runs_for_as_long_as_the_answer_says(soak_s: float, through_s: float) -> None:
    clock = IN._replace(soak=seconds(soak_s))
    assert clock.soak_told == seconds(through_s)
    for after in (0.0, through_s - 1.0):
        block = clock_block(Dial(clock, after), MM)
        assert (block.label, block.caption) == ("in the fire, soaking", write(soak_words(clock))[11:])
    assert Dial(clock, through_s / 2.0).left == 0.5
    assert clock_block(Dial(clock, through_s), MM).label == "through: take it out"


def test_the_metal_cools_on_the_clock_as_it_does_on_the_anvil() -> None:
    assert Dial(OUT, 0.0).surface_c == 1100.0
    assert Dial(OUT, 30.0).surface_c == pytest.approx(970.0)
    assert Dial(OUT, 90.0).surface_c == 840.0


def test_the_column_of_colour_sinks_with_the_time_that_is_left() -> None:
    assert [Dial(OUT, after).left for after in (0.0, 15.0, 45.0, 90.0)] == [1.0, 0.75, 0.25, 0.0]
    assert Dial(IN, 90.0).left == 0.5


def test_a_clock_that_nobody_minds_goes_away() -> None:
    assert not Dial(OUT, 200.0).is_forgotten
    assert Dial(OUT, 400.0).is_forgotten
    assert not Dial(IN, 1800.0).is_forgotten
    assert Dial(IN, 4000.0).is_forgotten
    assert Dial(IN, 180.0).is_due
    assert not Dial(OUT, 59.9).is_due


async def test_once_cold_metal_is_measured_the_clock_calls_nobody_back(shop: Shop, job: Session) -> None:
    moments = Moments()
    async with at_the_bench(shop, job, now=moments) as (screen, pilot):
        await pilot.press("f2")
        await pilot.pause()
        clock = job.standing().clock
        assert clock is not None
        moments.at = clock.since.replace(":00.000Z", ":58Z")
        screen.tick()
        assert "back to the fire" in words_on(screen.coach)
        job.read("point.side", "9.5")  # the shop's clock gains two minutes with each entry
        screen.fill()
        await pilot.pause()
        words = words_on(screen.coach)
        assert "back to the fire" not in words
        assert "F2 as it" in words


class Moments:
    """The moment that the screen's clock goes by, put forward by hand."""

    def __init__(self) -> None:
        self.at = "2026-03-02T09:04:02Z"

    def __call__(self) -> str:
        return self.at


async def test_out_of_the_fire_the_bench_counts_down_and_rings_once(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    moments = Moments()
    async with at_the_bench(shop, job, now=moments) as (screen, pilot):
        rung: list[bool] = []
        monkeypatch.setattr(screen.app, "bell", lambda: rung.append(True))
        await pilot.press("f2")
        await pilot.pause()
        clock = job.standing().clock
        assert clock is not None
        moments.at = clock.since.replace(":00.000Z", ":05Z")
        screen.tick()
        await pilot.pause()
        assert "work to 840 °C" in words_on(screen.coach)
        glow = glow_rgb(Dial(clock, 5.0).surface_c or 0.0)
        assert glow is not None
        assert Color(*glow).rgb in column_colours(screen)
        assert not rung
        moments.at = clock.since.replace(":00.000Z", ":58Z")
        screen.tick()
        screen.tick()
        await pilot.pause()
        assert "back to the fire" in words_on(screen.coach)
        assert len(rung) == 1


async def test_while_nothing_changes_nothing_is_worded_or_painted_anew(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_the_bench(shop, job) as (screen, pilot):
        await pilot.pause()
        painted, worded = Mock(), Mock()
        monkeypatch.setattr(Face, "render", painted)
        monkeypatch.setattr(bench_work, "do_lines", worded)
        screen.tick()
        await pilot.pause()
        painted.assert_not_called()
        worded.assert_not_called()


async def test_back_in_the_fire_the_bench_counts_the_soaking(shop: Shop, job: Session) -> None:
    moments = Moments()
    async with at_the_bench(shop, job, now=moments) as (screen, pilot):
        await pilot.press("f2", "f3")
        clock = job.standing().clock
        assert clock is not None
        moments.at = clock.since
        screen.tick()
        await pilot.pause()
        assert "in the fire" in words_on(screen.coach)
        assert "0:00" not in words_on(screen.coach)  # large figures, not text
        assert job.standing().heats == 1


def column_colours(screen: BenchScreen) -> set[tuple[int, int, int]]:
    """The colours of the blocks that stand on the face."""
    face = screen.query_one(Face)
    strips = (face.render_line(row) for row in range(face.size.height))
    colours = {part.style.color for strip in strips for part in strip if part.style and "█" in part.text}
    return {colour.triplet for colour in colours if colour is not None and colour.triplet is not None}


@pytest.mark.parametrize("size", SIZES)
def test_no_figure_of_the_face_is_ever_cut(size: tuple[int, int]) -> None:
    width, height = size
    rows = rows_of_figures(width, height)
    for aim in ("8", "36", "104.5", "1250.5", "9 1/2"):
        for to_go in ("▼1.1", "✗3.3", "?18.2", "▲120", "~"):
            blocks = (
                Block("size", aim, first="±0.8", last="mm", caption="last 9.1 mm, cold"),
                Block("to go", to_go, caption="about 1 heat"),
                Block("orange", "0:15", caption="work to 840 °C"),
                Block("OFF PLAN", "✗", caption=">99 %"),
            )
            lines = face_lines(blocks, width, rows)
            assert len(lines) == rows + 2
            assert all(line.cell_length <= width for line in lines)
            # Words are cut with a sign that says so; what is drawn large is drawn whole.
            assert not any("…" in line.plain and set("█▀▄") & set(line.plain) for line in lines)


def test_the_places_of_the_clock_and_the_verdict_never_move() -> None:
    for width, height in SIZES:
        rows = rows_of_figures(width, height)
        found = set()
        for aim in ("8", "36", "104.5"):
            blocks = (
                Block("size", aim, first="±0.8", last="mm"),
                Block("to go", "▼1.1"),
                Block("orange", "0:15"),
                Block("ON PLAN", "✓"),
            )
            labels = face_lines(blocks, width, rows)[0].plain
            found.add((labels.index("orange"), labels.index("ON PLAN")))
        assert len(found) == 1


def test_the_clock_keeps_its_size_while_something_is_to_be_put_right() -> None:
    tall = {}
    for caption in ("97 %", FIX_FIRST):
        blocks = (
            Block("shank side", "8", first="±0.8", last="mm", weight=Weight.HEAVY),
            Block("to go", "▼1.1"),
            Block("orange", "0:09", column=Column(None, 0.5), caption="work to 840 °C"),
            Block("TIGHT", "~", caption=caption, weight=Weight.SIGN),
        )
        tall[caption] = [line.plain[46:70].rstrip() for line in face_lines(blocks, 80, MIDDLE)]
    assert tall[FIX_FIRST] == tall["97 %"]
    assert "▄███▄" in "".join(tall[FIX_FIRST])


def test_a_size_that_is_questioned_is_not_what_there_is_to_go() -> None:
    session = at_step(2)
    session.heat()
    session.read("poll.side", "90")
    standing = session.standing()
    check = next(one for one in standing.checks if one.name == "poll.side")
    _, to_go, _, verdict = bench_blocks(standing, check, None, MM)
    assert to_go.label == "not counted"
    assert to_go.figure == "?90"
    assert verdict.label == "ON PLAN"


@pytest.mark.parametrize("size", ["2", "1.5"])
def test_a_questioned_size_is_told_with_what_refuses_it_and_no_doubt_that_it_lies_within(size: str) -> None:
    """The edge's end is drawn to 4 ±0.4, so 3.6 at the least; "looked for 4 ±9" would refuse neither."""
    session = at_step_of("cold-chisel", 2)
    session.heat()
    session.read("edge.end_thickness", size)
    check = next(one for one in session.standing().checks if one.name == "edge.end_thickness")
    assert check.is_questioned
    _, to_go, _, _ = bench_blocks(session.standing(), check, None, MM)
    assert (to_go.figure, to_go.caption) == (f"?{size}", "far under 3.6")


def test_a_weld_shows_its_heat_until_its_heats_are_taken() -> None:
    session = at_step(7)  # the steel of the invented hammer's face is welded on
    standing = session.standing()
    assert standing.step is not None
    assert standing.step.heat_kind == "welding"
    aim, *_ = bench_blocks(standing, None, None, MM)
    assert standing.step.temperature is not None
    assert aim.figure == f"{standing.step.temperature.value:.0f}"
    assert aim.last == "°C"


@pytest.mark.parametrize(("recipe", "number"), [("first-hook", 6), ("cold-chisel", 3)])
def test_a_cut_says_which_of_its_lengths_is_cut_at(recipe: str, number: int) -> None:
    """How it is done speaks of the length shown, and its least and that of the end stand there too."""
    session = at_step_of(recipe, number)
    length = session.standing().checks[0]
    assert length.dimension == "length"
    assert length.wanted is not None
    aim, *_ = bench_blocks(session.standing(), length, None, MM)
    assert aim.caption == "cut at this length"
    assert float(aim.figure) == pytest.approx(length.wanted.limits.nominal, abs=0.1)
    session.read(length.name, aim.figure)
    read = session.standing().checks[0]
    aim, *_ = bench_blocks(session.standing(), read, None, MM)
    assert aim.caption == f"last {aim.figure} mm, cold"


def test_at_a_weld_of_two_metals_both_heats_stand_as_figures_where_the_clock_keeps_its_place() -> None:
    session = at_step_of("cross-peen-hammer", 14)
    standing = session.standing()
    aim, least, _, verdict = bench_blocks(standing, None, None, MM)
    assert aim.figure.isdigit()
    assert least.figure.isdigit()
    clock = clock_block(Dial(OUT, 0.0), MM)
    lines = [line.plain for line in face_lines((aim, least, clock, verdict), 80, SMALL)]
    alone = [line.plain for line in face_lines((aim, Block(), clock, verdict), 80, SMALL)]
    # Three rows each, in sight at a quarter of the size: no heat stands as words.
    for figure in (aim.figure, least.figure):
        drawn = "\n".join(lines)
        assert figure not in drawn
    assert [line[46:] for line in lines[:4]] == [line[46:] for line in alone[:4]]
    assert lines[1][1:3] == lines[1][23:25] == "██"


def test_out_of_the_fire_at_a_quench_the_heat_and_what_it_is_quenched_in_stay_in_sight() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    standing = session.standing()
    for chosen in (*standing.checks, None):
        aim, then, *_ = bench_blocks(standing, chosen, None, MM)
        assert (aim.figure, aim.last) == ("800", "°C")
        assert then.lines[:2] == ("quench now:", "oil")
    session.read("chisel.file_test", "pass")
    standing = session.standing()
    _, then, *_ = bench_blocks(standing, standing.checks[-1], None, MM)
    assert "quench now:" not in then.lines


def _then(session: Session, chosen: int = 0) -> Block:
    standing = session.standing()
    return bench_blocks(standing, standing.checks[chosen], None, MM)[1]


def test_what_still_pulls_the_magnet_is_never_called_to_the_quench() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.magnet", "fail")
    for chosen in range(5):
        assert (_then(session, chosen).label, _then(session, chosen).lines[0]) == (
            "back to the fire",
            "a shade brighter,",
        )
    session.fire()
    assert (_then(session).label, _then(session).lines[0]) == ("in the fire", "a shade brighter,")
    session.read("chisel.magnet", "pass")
    assert _then(session).lines == ("soak at least 5", "min", "then F2, quench:", "oil")
    session.read("chisel.soak", "6 min")
    session.heat()
    assert _then(session).lines[0] == "quench now:"
    session.read("chisel.magnet", "doubt")
    assert _then(session).lines[0] == "soak it longer,"


def test_what_came_out_before_its_soak_was_over_is_sent_back_until_it_has_soaked() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    for _ in range(2):
        session.fire()
        session.read("chisel.magnet", "pass")
        session.heat()
        for chosen in range(5):
            assert (_then(session, chosen).label, _then(session, chosen).lines[0]) == (
                "back to the fire",
                "soaked too short",
            )
    session.fire()
    assert _then(session).label == "in the fire"
    session.read("chisel.soak", "6 min")
    session.heat()
    assert _then(session).lines[0] == "quench now:"


def test_steel_that_lies_in_the_fire_again_is_not_called_to_the_quench() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.fire()
    for chosen in range(5):
        assert "quench now:" not in _then(session, chosen).lines
    assert _then(session, 3).label == "in the fire"
    assert bench_blocks(session.standing(), session.standing().checks[3], None, MM)[0].figure == "800"


@pytest.mark.parametrize(
    ("read", "label", "first"),
    [("850", "too hot", "do not quench:"), ("700", "back to the fire", "too cold to")],
)
def test_a_heat_that_was_read_too_high_is_not_quenched_nor_one_too_low(
    read: str, label: str, first: str
) -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.temperature", read)
    for chosen in range(5):
        assert (_then(session, chosen).label, _then(session, chosen).lines[0]) == (label, first)
    session.read("chisel.temperature", "800")  # once it is black, normalised and heated again
    assert _then(session).lines[0] == "quench now:"


def test_what_was_too_hot_and_is_too_cold_by_now_is_not_sent_to_be_hotter() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.temperature", "900")
    session.read("chisel.temperature", "700")
    assert (_then(session).label, _then(session).lines[0]) == ("too hot", "do not quench:")


@pytest.mark.parametrize("hot", ["900", "1000"])
def test_a_slip_behind_a_heat_that_was_too_high_leaves_what_is_told_first(hot: str) -> None:
    """`25` meant for the soak hid "do not quench" behind "soaked too short"."""
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.temperature", hot)
    told = _then(session)
    session.read("chisel.temperature", "25")
    assert session.standing().questioned
    assert _then(session) == told
    assert told.lines[0] == "do not quench:"


def test_a_slip_behind_a_good_heat_leaves_what_is_told_first() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.temperature", "800")
    assert _then(session).lines[0] == "quench now:"
    session.read("chisel.temperature", "25")
    assert session.standing().questioned
    assert _then(session).lines[0] == "quench now:"


def test_a_magnet_that_holds_stands_while_what_was_read_after_it_is_questioned() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.magnet", "fail")
    told = _then(session)
    assert told.lines[0] == "a shade brighter,"
    session.read("chisel.temperature", "600")
    session.read("chisel.magnet", "pass")  # at 600 °C no steel lets go
    assert session.standing().questioned
    assert _then(session) == told


def test_what_is_a_little_over_its_heat_is_let_fall_as_its_answer_says() -> None:
    """The large text said "do not quench" beside "let it fall to it and quench it from there"."""
    session = at_step_of("cold-chisel", 9)  # to be quenched at 780 to 810 °C
    session.heat()
    answer = session.read("edge.temperature", "825")
    assert "let it fall" in answer_text(answer, MM)
    assert _then(session).lines[0] == "let it fall to"
    assert "Do not quench" not in _labels(session)


def _labels(session: Session) -> list[str]:
    return [line.label for line in summary(session.standing(), (), MM).body if isinstance(line, Line)]


def test_reopened_what_was_too_hot_is_told_not_to_be_quenched_before_its_temper() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.heat()
    session.read("chisel.temperature", "900")
    told = _labels(session)
    assert told.index("Do not quench") < told.index("If quenched")
    assert glance(session.standing(), (), MM).do_now == "do not quench"
    session.read("chisel.file_test", "pass")  # so it was quenched after all
    assert "Do not quench" not in _labels(session)
    assert glance(session.standing(), (), MM).do_now == "temper now"


def test_what_a_file_bites_is_not_sent_to_the_quench_but_tried_again_on_a_clean_spot() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    session.read("chisel.file_test", "fail")
    assert _then(session).lines[0] == "grind a spot,"
    for chosen in range(5):
        then = _then(session, chosen)
        assert "quench" not in " ".join(map(str, (*then.lines, then.caption)))


def test_at_a_quench_the_magnet_is_tried_first_and_the_file_after() -> None:
    session = begun(CHISEL.replace("do: harden", "do: harden\n    temperature: 800 °C"))
    session.done()
    magnet = session.standing().checks[0]
    assert magnet.label == "chisel magnet"
    _, before, *_ = bench_blocks(session.standing(), magnet, None, MM)
    assert (before.label, before.caption) == ("first: magnet", "soak at least 5 min")
    session.heat()
    standing = session.standing()
    _, out, *_ = bench_blocks(standing, standing.checks[0], None, MM)
    assert out.lines == ("quench now:", "oil", "then file test")
    told = [line.label for line in do_lines(standing, _in_hand(standing), MM, 80, standing.checks[0])]
    assert told.index("Test") < told.index("Quench"), "on the page too"
    told = [line.label for line in do_lines(standing, _in_hand(standing), MM, 80, standing.checks[3])]
    assert told.index("Quench") < told.index("Test")


def _in_hand(standing: Standing) -> StepToDo:
    assert standing.step is not None
    return standing.step


def test_a_weld_nearer_to_the_burn_than_an_eye_tells_says_how_near() -> None:
    session = at_step(7)
    step = _in_hand(session.standing())
    assert step.hot is not None
    assert step.hot.welds is not None
    for heat_c, told in (
        (1250.0, "+10 °C burns C80"),
        (1200.0, "1260 burns C80"),
        (1265.0, "1260 burns C80"),
    ):
        welds = step.hot.welds._replace(burns_above=celsius(1260.0), burns_first="C80")
        near = step._replace(temperature=celsius(heat_c), hot=step.hot._replace(welds=welds))
        assert heat_block(near, MM).caption == told
    welds = step.hot.welds._replace(burns_above=celsius(1320.0), burns_first="mild steel")
    block = heat_block(step._replace(temperature=celsius(1200.0), hot=step.hot._replace(welds=welds)), MM)
    assert (block.caption, block.narrow[1]) == ("1320 burns mild steel", "1320 burns"), "no word is cut"


def test_more_heats_than_are_planned_are_no_share_of_them() -> None:
    session = begun(CHISEL)
    session.done()
    for heats, figure in ((0, "0/1"), (1, "1/1"), (2, "2"), (3, "3")):
        while session.standing().heats < heats:
            session.heat()
        _, _, clock, _ = bench_blocks(session.standing(), None, None, MM)
        assert clock.figure == figure


def test_a_number_kept_for_a_size_of_another_step_says_so() -> None:
    session = at_step(2)
    other = session.standing().checks[0]
    session.done()
    assert to_go_block(session.standing(), other, MM).caption == "of another step"


def test_where_there_is_little_room_a_limit_is_told_without_its_small_words() -> None:
    session = at_step(2)  # the poll is drawn to 34 ±1
    session.heat()
    session.read("poll.side", "31", insist=True)
    check = session.standing().checks[0]
    block = to_go_block(session.standing(), check, MM)
    assert (block.caption, block.narrow[1]) == ("under the least 33", "least 33")


@pytest.mark.parametrize(("to_go", "sign"), [("?50", "not counted"), ("▼12", "to go"), ("▲7.4", "to go")])
def test_beside_a_long_aim_how_far_it_is_to_go_stays_a_figure(to_go: str, sign: str) -> None:
    """Words are not read from the anvil: the limits of the aim go to its caption before that."""
    aim = Block("edge length", "57.3", first="≥51.8", last="mm", weight=Weight.HEAVY, caption="last 50 mm")
    clock = Block("clock", lines=("F2 as it", "comes out"))
    blocks = (aim, Block(sign, to_go), clock, Block("ON PLAN", "✓", weight=Weight.SIGN))
    told = [line.plain for line in face_lines(blocks, 80, MIDDLE)]
    assert not any(to_go in line for line in told), told
    beside = [line[24:45] for line in told[1:-1]]
    assert sum("█" in line or "▀" in line for line in beside) >= SMALL
    assert "51.8" in "".join(told)


def test_heats_that_are_counted_in_the_clocks_place_are_not_told_beside_it_too() -> None:
    """At a normalising the heat to come to stays what is worked to, however many heats are marked."""
    session = at_step_of("cold-chisel", 6)
    for marked in range(3):
        aim, _, clock, _ = bench_blocks(session.standing(), None, None, MM)
        assert (aim.label, clock.label) == ("edge", "heats"), marked
        assert aim.figure == ("855", "845", "845")[marked]  # "a little lower", as its steel says
        assert clock.caption == ("F2 counts one" if marked < 2 else "all marked")
        session.heat()


def test_a_tight_verdict_without_a_chance_names_the_key_that_says_why() -> None:
    standing = at_step_of("cold-chisel", 2).standing()._replace(verdict=PlanState.TIGHT, chance=0.99)
    assert verdict_block(standing._replace(to_right=())).caption == "why: *"
    assert verdict_block(standing._replace(chance=0.9)).caption == "90 %"
    assert verdict_block(standing._replace(verdict=PlanState.ON_PLAN)).caption == "99 %"


async def test_the_aim_is_of_the_step_in_hand_though_a_number_of_another_stands_in_the_box(
    shop: Shop, job: Session
) -> None:
    job.done(2)
    async with at_the_bench(shop, job) as (bench, pilot):
        await pilot.press("9", "f8")  # takes the end of step 1 back
        await settled(bench.coach, pilot)
        assert screen_text(bench.coach).splitlines()[1].startswith(" point side")
        assert "shank side" in screen_text(bench.coach).splitlines()[-2], "what is typed keeps its size"
