"""Quench and temper each keep what was read of them: neither takes the place of the other on the sheet."""

from __future__ import annotations

from coach.bench.session import Session
from coach.operations.shop_test import Result
from coach.telling.page import Table
from coach.telling.sheet import apart_section, treatment_section
from coach.telling.sheet import shop_tests_section as section_of_tests
from coach.telling.writing import Shown
from tests.bench.jobs import shop as a_shop

_KNIFE = """\
recipe: Small blade
units: mm
pieces:
  blade:
    metal: C80
    bar: 25 x 4, long 120
    zones:
      blade: 25 ±2 x 4 ±1, long 120 ±10
steps:
  - harden: blade, at 780 to 810 °C, soak 5 to 10 min, 1 heat, quench oil
    title: Harden it
    check: magnet, temperature, soak, file test
  - temper: blade, at 200 to 240 °C, soak at least 1 h
    title: Temper it
    check: temperature, soak, file test
"""
_MM = Shown("mm")


def _treated() -> Session:
    session = a_shop().begin(_KNIFE, "blade.yaml")
    session.heat()
    for name, typed in (("magnet", "1"), ("temperature", "795 °C"), ("soak", "7 min"), ("file_test", "1")):
        session.read(f"blade.{name}", typed)
    session.done()
    for name, typed in (("temperature", "220 °C"), ("soak", "70 min"), ("file_test", "3")):
        session.read(f"blade.{name}", typed)
    session.done()
    return session


def test_the_sheet_tells_heat_and_soak_of_the_quench_beside_those_of_the_temper() -> None:
    sheet = _treated().sheet()
    came = {(one.dimension, one.step): one.came.value for one in sheet.apart if one.came is not None}
    assert came == {
        ("temperature", 1): 795.0,
        ("soak", 1): 420.0,
        ("temperature", 2): 220.0,
        ("soak", 2): 4200.0,
    }
    table = apart_section(sheet, _MM).body[0]
    assert isinstance(table, Table)
    named = [row.cells[0] for row in table.rows]
    assert "✓ blade temperature, step 1" in named
    assert "✓ blade temperature, step 2" in named


def test_a_file_that_skated_on_the_quench_is_told_beside_what_it_did_on_the_temper() -> None:
    sheet = _treated().sheet()
    files = {one.step: one.result for one in sheet.tests if one.test == "file_test"}
    assert files == {1: Result.PASS, 2: Result.FAIL}
    table = section_of_tests(sheet).body[0]
    assert isinstance(table, Table)
    assert [row.cells[2] for row in table.rows if "file test" in row.cells[0]] == ["1", "2"]


def test_how_the_steel_was_treated_names_both_steps() -> None:
    table = treatment_section(_treated().sheet(), _MM).body[0]
    assert isinstance(table, Table)
    assert [row.cells[0].strip() for row in table.rows] == ["1 Harden it", "2 Temper it"]


def test_a_temper_that_is_done_again_takes_the_place_of_the_one_that_was_wrong() -> None:
    session = a_shop().begin(_KNIFE, "blade.yaml")
    session.heat()
    session.read("blade.temperature", "795 °C")
    session.done()
    session.read("blade.temperature", "180 °C")  # too cool: it is left too hard
    session.done()
    way = next(one for one in session.ways_back() if "again" in one.name)
    session.take(way.name)
    session.read("blade.temperature", "230 °C")
    session.done()
    came = {
        one.step: one.came.value
        for one in session.sheet().apart
        if one.came and one.dimension == "temperature"
    }
    assert came == {1: 795.0, 3: 230.0}
