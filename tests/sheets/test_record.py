"""The record of a job: everything the bench tells of it, in every form, and its pictures."""

from __future__ import annotations

import csv
import io
import json
import re
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image

from coach.bench.session import Session
from coach.bench.sizes_came import SizeVerdict
from coach.quantities import COVERAGE
from coach.sheets.record import record_html, spares
from coach.sheets.record_csv import record_csv
from coach.telling.figures import write_figure
from coach.telling.page import Line, Table
from coach.telling.sheet import picture_title, sheet_page
from coach.telling.values import json_values
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.sheets.test_job_sheet import root_of, words_of


def finished(recipe: str = "first-hook") -> Session:
    """A job with heats, readings, a note and a photograph, each step done."""
    session = at_step_of(recipe, 2)
    session.note("<script>alert(1)</script> =1+1")
    session.photograph("/pictures/hook 1.jpg", "the taper, before the bend")
    session.heat()
    session.heat()
    session.read("tip.thickness", "8.2")
    session.read("tip.end_thickness", "3.1")
    while session.standing().step is not None:
        session.done()
    return session


def html_of(session: Session, shown: Shown) -> str:
    return record_html(
        session.sheet(),
        sheet_page(session.sheet(), shown, to_show=True),
        session.plan,
        session.forms_came(),
        session.forms_by_step(),
        session.spare_gone(),
        shown,
    )


def cells_of(session: Session, shown: Shown) -> list[str]:
    """Every text of the sheet as the bench tells it."""
    found: list[str] = []
    for part in sheet_page(session.sheet(), shown, to_show=True).sections:
        for one in part.body:
            if isinstance(one, Line):
                found.append(one.words)
            else:
                assert isinstance(one, Table)
                found += [cell.strip() for row in one.rows for cell in row.cells]
    return [" ".join(one.split()) for one in found if one.strip()]


@pytest.mark.parametrize("shown", [Shown("mm"), Shown("in")], ids=["mm", "in"])
def test_every_figure_of_the_sheet_is_in_it_to_the_last_digit(shown: Shown) -> None:
    session = finished()
    told = words_of(root_of(html_of(session, shown)))
    assert len(cells_of(session, shown)) > 60
    assert [cell for cell in cells_of(session, shown) if cell not in told] == []


def test_what_is_told_of_a_photograph_stands_once_beneath_it(tmp_path: Path) -> None:
    file = tmp_path / "bend.png"
    Image.new("RGB", (4, 4)).save(file)
    session = at_step_of("first-hook", 2)
    session.photograph(str(file), "after the curl")
    assert html_of(session, Shown()).count("bend.png, after the curl") == 1
    file.unlink()  # then the line alone tells of it
    assert html_of(session, Shown()).count("bend.png, after the curl") == 1


def test_the_rows_for_a_spreadsheet_have_every_figure_too() -> None:
    session, shown = finished(), Shown()
    sheet = session.sheet()
    text = record_csv(sheet, sheet_page(sheet, shown, to_show=True), shown)
    assert ", ," not in text
    assert not [
        row for row in csv.reader(io.StringIO(text, newline="")) if any(one.endswith(", ") for one in row)
    ]
    rows = list(csv.reader(io.StringIO(text, newline="")))
    held = {cell.removeprefix("'") for row in rows for cell in row}
    signs = "✓✗·?~○»≈ "  # what they say is told in words beside them
    steps = {one.split(" ")[1] for one in held if re.fullmatch(r"step \d+", one)}  # of tests, with their head
    assert [cell for cell in cells_of(session, shown) if cell.lstrip(signs) not in held | steps] == []


def test_the_step_of_a_test_is_told_as_a_step_in_a_spreadsheet() -> None:
    session, shown = at_step_of("cold-chisel", 2), Shown()
    while session.standing().step is not None:
        session.done()
    sheet = session.sheet()
    text = record_csv(sheet, sheet_page(sheet, shown, to_show=True), shown)
    tests = [row for row in csv.DictReader(io.StringIO(text)) if row["kind"] == "Tests of the shop"]
    assert tests
    assert [row["told"] for row in tests] == [f"step {one.step}" for one in sheet.tests]


@pytest.mark.parametrize("shown", [Shown("mm"), Shown("in")], ids=["mm", "in"])
def test_a_spreadsheet_reckons_with_the_figures_as_the_bench_shows_them(shown: Shown) -> None:
    session = finished()
    sheet = session.sheet()
    text = record_csv(sheet, sheet_page(sheet, shown, to_show=True), shown)
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [len(row) for row in rows] == [len(rows[0])] * len(rows), "one table under one head"
    by_name = {row["name"]: row for row in rows if row["kind"] == "The drawing and the tool"}
    unit = shown.system
    for size in sheet.sizes:
        row = by_name[size.label_among(sheet.sizes)]
        assert size.wanted is not None
        assert float(row[f"wanted from ({unit})"]) < float(row[f"wanted to ({unit})"])
        if size.came is not None:
            number = row[f"came ({unit})"]
            whole, _, part = row["came or taken"].removesuffix(f" {unit}").rpartition(" ")
            assert float(number) == float(sum(map(Fraction, whole.split()), Fraction(part)))
    heats = next(row for row in rows if row["name"] == "heats")
    assert int(heats["taken (heats)"]) == sheet.heats.taken
    took = {row["name"]: row for row in rows if row["kind"] == "What it took"}
    mass = "g" if shown.system == "mm" else "oz"
    assert sheet.metal is not None
    for name, figure in (("bar", sheet.metal.planned), ("tool", sheet.metal.planned_tool)):
        assert took[name][f"planned ({mass})"] == write_figure(figure, shown).removesuffix(f" {mass}")
    steps = [row for row in rows if row["kind"] == "Steps"]
    assert sum(int(row["taken (heats)"]) for row in steps) == sheet.heats.taken


def test_the_columns_of_numbers_stand_in_one_order_whatever_was_measured_first() -> None:
    """Whoever puts records under one another finds what came under what came."""
    heads = []
    for read in ("edge.length=53.2", "head.end_diameter=13"):
        session, shown = at_step_of("cold-chisel", 2), Shown()
        while session.standing().step is not None:
            session.done()
        session.read(*read.split("="))
        text = record_csv(session.sheet(), sheet_page(session.sheet(), shown, to_show=True), shown)
        table = list(csv.reader(io.StringIO(text, newline="")))
        heads.append([one for one in table[0] if one.endswith("(mm)")])
    assert heads == [["wanted from (mm)", "wanted to (mm)", "came (mm)", "reckoned (mm)"]] * 2


def test_the_limits_in_inches_that_a_spreadsheet_reckons_with_are_those_that_are_told() -> None:
    """In inches limits are told inward, so that what is told is allowed: the columns are no wider."""
    session, shown = finished(), Shown("in")
    sheet = session.sheet()
    text = record_csv(sheet, sheet_page(sheet, shown, to_show=True), shown)
    rows = {row["name"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}
    told = ("name", "wanted or planned", "wanted from (in)", "wanted to (in)")
    assert [
        tuple(rows[name][head] for head in told) for name in ("plate thickness", "plate hole length")
    ] == [
        # 4.2 to 5.8 mm are 0.1654 to 0.2283 in; 5 mm are 0.197.
        ("plate thickness", "0.197 ±0.031 in", "0.166", "0.228"),
        # 5 to 6 mm are 12.6 to 15.1 sixty-fourths, and 5.5 mm 13.9.
        ("plate hole length", "7/32 ±1/64 in", "0.203125", "0.234375"),
    ]
    for size in sheet.sizes:
        row, limits = rows[size.label_among(sheet.sizes)], size.wanted.limits if size.wanted else None
        assert limits is not None
        dust = 1e-7  # of what floats are
        assert float(row["wanted from (in)"]) >= limits.low / 25.4 - dust
        assert float(row["wanted to (in)"]) <= limits.high / 25.4 + dust


@pytest.mark.parametrize("shown", [Shown("mm"), Shown("in")], ids=["mm", "in"])
def test_a_mass_in_a_column_is_the_one_told_beside_it(shown: Shown) -> None:
    session = finished()
    sheet = session.sheet()
    text = record_csv(sheet, sheet_page(sheet, shown, to_show=True), shown)
    unit = "g" if shown.system == "mm" else "oz"
    took = [row for row in csv.DictReader(io.StringIO(text, newline="")) if row["kind"] == "What it took"]
    masses = {row["name"]: row for row in took if row[f"taken ({unit})"]}
    assert {"bar", "lost", "tool"} <= masses.keys()
    assert [one["came or taken"].split(" ")[0] for one in masses.values()] == [
        one[f"taken ({unit})"] for one in masses.values()
    ]


def test_what_was_written_down_is_never_a_tag_and_nothing_is_fetched() -> None:
    html = html_of(finished(), Shown())
    assert "<script" not in html
    names = {one.tag.rpartition("}")[2] for one in root_of(html).iter()}
    assert not names & {"script", "link", "img", "iframe", "object", "image", "use", "a"}


def test_a_photograph_is_told_by_its_file_and_can_be_struck_out() -> None:
    session = finished()
    (photograph,) = session.sheet().photographs
    assert (photograph.file, photograph.step) == ("/pictures/hook 1.jpg", 2)
    words = words_of(root_of(html_of(session, Shown())))
    assert "hook 1.jpg, the taper, before the bend" in words
    assert "/pictures" not in words  # a page that is shown tells nothing of the smith's folders
    session.strike(photograph.entry)
    assert session.sheet().photographs == ()


def test_each_treatment_is_told_as_it_was_planned_and_as_it_was_read() -> None:
    session = at_step_of("cold-chisel", 10)  # the temper
    session.heat()
    session.read("edge.temperature", "270 C")
    session.read("edge.soak", "1 h 10 min")
    treated = {one.step: one for one in session.sheet().treatments}
    assert treated[9].quench
    read = {one.dimension: one.size.value for one in treated[10].read}
    assert read == {"temperature": 270.0, "soak": 4200.0}


def test_balance_is_told_as_drawn_and_once_finished_as_it_came() -> None:
    session = at_step_of("carpenters-adze", 39)
    balance = session.sheet().balance
    assert balance is not None
    assert balance.came is None
    session.read("blade.length", "100", insist=True)  # 5 mm longer than drawn, so the bit lies farther out
    session.done()
    balance = session.sheet().balance
    assert balance is not None
    assert balance.came is not None
    assert balance.drawn.balance is not None
    assert balance.came.balance is not None
    assert balance.came.balance.value > balance.drawn.balance.value
    assert balance.came.mass == session.sheet().metal.left  # type: ignore[union-attr]


def test_the_spare_is_drawn_at_each_moment_with_its_doubt() -> None:
    gone = finished().spare_gone()
    drawn = {(one.label, point.heats, point.value_mm) for one in spares(gone) for point in one.points}
    assert drawn == {(point.label, point.heats, point.spare.value) for point in gone.points}
    first, told = gone.points[0], spares(gone)[0].points[0]
    assert told.high_mm - told.value_mm == pytest.approx(COVERAGE * (first.spare.doubt or 0.0))


def test_the_piece_is_drawn_after_each_step_that_shapes_it() -> None:
    session = finished()
    html = html_of(session, Shown())
    labels = [f"{one.step}. {one.title}" if one.step else one.title for one in session.forms_by_step()]
    assert len(labels) > 5
    drawn = [
        one for one in ElementTree.fromstring(html.partition("\n")[2]).iter() if one.tag.endswith("text")
    ]
    told = " ".join(one.text or "" for one in drawn)
    assert [label for label in labels if label not in told] == []


def test_the_picture_of_a_piece_counts_the_sizes_of_that_piece() -> None:
    session = at_step_of("ring-and-chain", 1)
    while session.standing().step is not None:
        session.done()
    recipe, sheet = session.plan.recipe, session.sheet()
    reckoned = [one.zone for one in sheet.sizes if one.verdict is SizeVerdict.NOT_MEASURED]
    told = {piece: picture_title(sheet, recipe, piece) for piece in recipe.finished}
    counts = {
        piece: sum(zone in recipe.pieces[piece].every_zone for zone in reckoned) for piece in recipe.finished
    }
    assert len(counts) > 1
    assert sum(counts.values()) == len(reckoned)
    assert all(told[piece].endswith(f", {count} sizes reckoned") for piece, count in counts.items()), told


def test_its_json_is_what_the_command_answers() -> None:
    json.dumps(json_values(finished().sheet(), Shown()), allow_nan=False)


@pytest.mark.parametrize("recipe", ["bolt-tongs", "hay-fork", "ring-and-chain", "folded-froe"])
def test_pieces_that_are_split_joined_and_closed_are_drawn(recipe: str) -> None:
    session = at_step_of(recipe, 1)
    while session.standing().step is not None:
        session.done()
    root_of(html_of(session, Shown()))
