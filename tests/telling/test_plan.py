"""A plan is told once, for the command line and the screen, in the units asked for."""

from __future__ import annotations

import pytest

from coach.bench.planned import Planned, planned_tool
from coach.cli.page import set_page
from coach.ledger.looking_back import look_back
from coach.quantities.figure import Figure, Kind, mm
from coach.screens.page_content import page_content
from coach.telling.page import Line, Page, Section, Table, Tone
from coach.telling.plan import Drawings, brought_in, fire_words, plan_page
from coach.telling.step import working_words
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER
from tests.ledger.recipes import DRAW, LAID, recipe

METRIC = Shown()


def the_plan(text: str) -> Planned:
    return planned_tool(look_back(recipe(text)))


def headed(page: Page, heading: str) -> Section:
    return next(part for part in page.sections if part.heading == heading)


def cells(part: Section) -> list[tuple[str, ...]]:
    return [row.cells for table in part.body if isinstance(table, Table) for row in table.rows]


def labelled(part: Section, label: str) -> list[str]:
    return [line.words for line in part.body if isinstance(line, Line) and line.label == label]


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_stock_is_told_with_every_mark_and_where_to_punch() -> None:
    page = plan_page(the_plan(HAMMER), METRIC)
    part = headed(page, "Stock for the body")
    first = part.body[0]
    assert isinstance(first, Line)
    assert first.words.startswith("Wrought iron, square 36 mm: ")
    told = cells(part)
    assert ("middle of the eye, for its hole") in [row[-1] for row in told]
    assert [row[1] for row in told if row[0].startswith("mark at")] == [
        "poll ends, eye begins",
        "eye ends: cut here",
    ]


def test_every_step_tells_its_caution_what_it_leaves_and_what_it_takes() -> None:
    plan = the_plan(LAID)
    page = plan_page(plan, METRIC)
    for step in plan.steps:
        part = headed(page, f"{step.step.number}. {step.step.title}")
        assert labelled(part, "Caution") == list(step.step.cautions)
        assert len(labelled(part, "Takes")) == bool(step.taken)
    weld = headed(page, "4. Weld the bit on the blade")
    assert "squeeze " in labelled(weld, "Takes")[0]
    assert labelled(weld, "Leaves")[0].startswith("blade width ")


def test_a_step_that_may_not_be_left_says_so() -> None:
    plan = the_plan(LAID)
    first = plan.steps[0]
    held = plan._replace(steps=(first._replace(step=first.step._replace(may_rest=False)),))
    page = plan_page(held, METRIC)
    assert labelled(headed(page, f"1. {first.step.title}"), "Rest") == ["not after this step"]


def test_the_plan_is_told_in_inches_where_they_are_asked_for() -> None:
    inches = "\n".join(set_page(plan_page(the_plan(DRAW), Shown("in"))))
    assert " mm" not in inches
    assert "°C" not in inches
    assert " in " in inches


@pytest.mark.parametrize(
    ("length", "told", "tone"),
    [
        # 240 mm of 40 × 8 are 160 mm of 40 × 12, as nothing scales.
        (200, "40 mm of the bar in hand is left over.", Tone.PLAIN),
        (150, "10 mm of the bar in hand is missing.", Tone.BAD),
    ],
)
def test_what_the_bar_in_hand_has_or_lacks_is_told(length: int, told: str, tone: Tone) -> None:
    text = DRAW.replace("thickness: 12}", f"thickness: 12, length: {length}}}")
    part = headed(plan_page(the_plan(f"{text}scale: none\n"), METRIC), "Stock for the strap")
    assert Line(told, tone=tone) in part.body


def test_a_piece_is_cut_shorter_than_it_will_be_drawn_by_what_drawing_gives() -> None:
    text = """
title: Pin
pieces:
  pin: {metal: mild steel, stock: {form: square, side: 16.4}}
drawing:
  pin: {form: square, side: 16 ±0.5, length: 100 ±3}
steps:
  - {do: cut, zone: pin}
  - {do: draw, zone: pin, to: drawing}
scale: none
"""
    told = [
        cell for part in plan_page(the_plan(text), METRIC).sections for row in cells(part) for cell in row
    ]
    # 100 mm of 16 mm square are 100 × 16² / 16.4² = 95.2 mm of the bar.
    assert "cut at 95.2 mm" in told
    assert "4.8 mm shorter than it will be drawn" in told


def test_a_piece_that_is_drawn_before_its_cut_is_not_told_to_be_cut_0_mm_shorter() -> None:
    text = """
title: Pin
pieces:
  pin: {metal: mild steel, stock: {form: square, side: 16.4}}
drawing:
  pin: {form: square, side: 16 ±0.5, length: 100 ±3}
steps:
  - {do: draw, zone: pin, to: drawing}
  - {do: cut, zone: pin, cold: yes}
scale: none
"""
    plan = the_plan(text)
    nearly = plan._replace(cuts=tuple(cut._replace(short_by=mm(0.02)) for cut in plan.cuts))
    told = [cell for part in plan_page(nearly, METRIC).sections for row in cells(part) for cell in row]
    assert "cut at 100 mm" in told
    assert not [cell for cell in told if "shorter" in cell]


def test_a_bar_that_is_too_short_is_told_first_of_all() -> None:
    page = plan_page(the_plan(DRAW.replace("thickness: 12}", "thickness: 12, length: 100}")), METRIC)
    assert page.sections[1].heading == "To put right first"
    line = page.sections[1].body[0]
    assert isinstance(line, Line)
    assert line.words.startswith("The bar for strap is too short: ")


@pytest.mark.parametrize(
    ("heats", "told"),
    [
        (37, "37 heats, 3 to 7 h at the fire"),
        (1, "1 heat, up to 30 min at the fire"),
        (5, "5 heats, up to 1 h at the fire"),
        (0, "no heat"),
    ],
)
def test_the_time_at_the_fire_is_told_in_hours(heats: int, told: str) -> None:
    from coach.bench.planned import at_the_fire

    plan = the_plan(DRAW)._replace(heats=heats, at_the_fire=at_the_fire(heats))
    assert write(fire_words(plan)) == told


@pytest.mark.parametrize("width", [60, 80, 160])
def test_the_screen_tells_the_same_words_as_the_command_and_cuts_none_of_them_off(width: int) -> None:
    page = plan_page(the_plan(HAMMER), METRIC)
    shown = page_content(page, width)
    assert "…" not in shown.plain
    assert all(line.cell_length <= width for line in shown.split("\n"))
    for part in page.sections:
        for line in part.body:
            if isinstance(line, Line):
                assert flat(line.words) in flat(shown.plain)


def test_each_step_has_a_row_with_its_heats_its_time_and_how_well_what_decides_is_known() -> None:
    plan = the_plan(LAID)
    rows = cells(headed(plan_page(plan, METRIC), "Steps"))
    assert [row[1] for row in rows] == [one.step.title for one in plan.steps]
    assert [row[2].strip() for row in rows] == [str(one.step.heats_planned or "-") for one in plan.steps]
    for row, one in zip(rows, plan.steps, strict=True):
        # Five to ten minutes a heat (common practice, no source); of cold work nothing is known.
        least, most = 5 * one.step.heats_planned, 10 * one.step.heats_planned
        assert row[3] == ("not known" if one.at_the_fire is None else f"{least} to {most} min")
        assert bool(row[5]) == (one.doubt is not None)
    assert plan.decides is not None
    # What is told beside a ± covers 95 % (JCGM 100:2008, table G.1): 1.645 standard uncertainties.
    assert rows[-1][5] == f"±{1.645 * plan.decides.doubt.value:.0f} mm"


def test_what_the_steps_bring_in_and_the_marks_come_to_the_doubt_at_the_end() -> None:
    plan = the_plan(LAID)  # nothing is cut in it, so that doubt only grows
    assert plan.decides is not None
    assert plan.decides.doubt_marked is not None
    brought = [one.value**2 for one in brought_in(plan).values()]
    whole = plan.decides.doubt_marked.value**2 + sum(brought)
    assert whole == pytest.approx(plan.decides.doubt.value**2)
    part = headed(plan_page(plan, METRIC), "Steps")
    told = [line.words for line in part.body if isinstance(line, Line)]
    assert told[0].startswith("Where the doubt comes from: the blade length decides.")


def test_a_step_that_adds_little_beside_the_marked_bar_is_not_told_to_add() -> None:
    plan = the_plan(DRAW)
    (row,) = cells(headed(plan_page(plan, METRIC), "Steps"))
    assert row[4].startswith("±")
    assert plan.decides is not None
    # 30 mm of doubt in the marked bar, and what comes to 30.5 with it: 5.5 mm, 3 % of the square.
    told = plan._replace(
        decides=plan.decides._replace(doubt_marked=mm(30.0), doubt=mm(30.5)),
        steps=(plan.steps[0]._replace(doubt=mm(30.5)),),
    )
    (row,) = cells(headed(plan_page(told, METRIC), "Steps"))
    assert row[4:] == ("", "±50 mm")


def test_a_plan_that_no_size_decides_says_nothing_of_doubt() -> None:
    plan = the_plan(DRAW)._replace(decides=None)
    part = headed(plan_page(plan, METRIC), "Steps")
    assert [one for one in part.body if isinstance(one, Line)] == []


def test_what_is_drawn_stands_as_it_was_drawn() -> None:
    plan = the_plan(DRAW)
    page = plan_page(plan, METRIC, Drawings({"strap": "    ██ ░░"}, {"strap": "  ▄▄   ▄"}))
    told = set_page(page)
    assert "    ██ ░░" in told
    assert "  ▄▄   ▄" in told
    assert "  ▄▄   ▄" in page_content(page, 60).plain.splitlines()


def test_a_working_time_is_told_as_roughly_as_it_is_known() -> None:
    plan = the_plan(LAID.replace("{do: draw, zone: blade,", "{do: draw, temperature: 1100 °C, zone: blade,"))
    number, hot = next((one.step.number, one.step.hot) for one in plan.steps if one.step.hot is not None)
    assert hot is not None
    rough = hot._replace(working=Figure(71.3, Kind.TIME, 8.6))
    assert write(working_words(rough)).startswith("about 70 s of work, down to ")
    assert write(working_words(rough._replace(working=None))).startswith("back to the fire at ")
    page = plan_page(plan, METRIC)
    told = labelled(headed(page, f"{number}. {plan.steps[number - 1].step.title}"), "Time")
    assert told == [write(working_words(hot))]
