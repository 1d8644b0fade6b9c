"""Tests of the grades of iron and steel."""

from __future__ import annotations

import math
import re
import tomllib
from itertools import pairwise
from pathlib import Path
from typing import Any

import pint
import pytest

import coach.metals.grade as grade_module
from coach.metals import look_in
from coach.metals.grade import grade, grades
from coach.metals.grade_file import (
    ELEMENTS,
    MARKS,
    NOT_SAID,
    PROPERTIES,
    Grade,
    GradeFaults,
    Quench,
    Share,
    grade_in,
    read_grade,
    template_text,
)
from coach.metals.quenches import QUENCHES
from coach.quantities.refusal import NotKnown

FILES = sorted((Path(grade_module.__file__).parent / "grades").glob("*.toml"))

WANTED = (
    "wrought iron",
    "mild steel",
    "C45",
    "1060",
    "1075",
    "1084",
    "C80",
    "1095",
    "4140",
    "5160",
    "silicon-manganese spring steel",
    "O1",
    "W1",
    "unknown spring steel",
)

PLAIN = """
name = "test steel"
aliases = ["ts"]
standard = "none"
notes = "Invented."

[density_kg_m3]
value = 7850
source = "weighed (confirmed)"

[carbon_share]
value = 0.5
source = "invented (judgement)"

[forging_low_c]
value = 800
source = "invented (judgement)"

[forging_high_c]
value = 1150
source = "invented (judgement)"

[welding_low_c]
unknown = "Never tried."

[welding_high_c]
unknown = "Never tried."
"""


FULL = (
    PLAIN
    + """
[composition]
source = "invented (judgement)"
C = [0.4, 0.5, 0.6]
Mn = [0.5, 0.7, 0.9]

[hardening_low_c]
value = 800
source = "invented (judgement)"

[hardening_high_c]
value = 830
source = "invented (judgement)"

[normalising_low_c]
value = 860
source = "invented (judgement)"

[normalising_high_c]
value = 870
source = "invented (judgement)"

[tempering_low_c]
value = 180
source = "invented (judgement)"

[tempering_high_c]
value = 290
source = "invented (judgement)"

[quench]
medium = "oil"
words = "Slowly."
source = "invented (judgement)"
"""
)

BARE = """
name = "bare steel"
standard = "none"
notes = "Weighed, no more."

[density_kg_m3]
value = 7850
source = "weighed (own shop)"
"""


def written(folder: Path, text: str, name: str = "test-steel.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def faults_of(path: Path) -> tuple[str, ...]:
    with pytest.raises(GradeFaults) as found:
        read_grade(path)
    assert str(found.value) == "\n".join(found.value.faults)
    return found.value.faults


# ── what the catalogue holds ─────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", WANTED)
def test_each_usual_grade_is_found_by_its_name(name: str) -> None:
    assert grade(name).name == name


def test_there_is_one_file_for_each_grade() -> None:
    assert len(FILES) == len(grades()) >= len(WANTED)
    assert {read_grade(path).name for path in FILES} == {one.name for one in grades()} >= set(WANTED)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_number_in_a_file_has_its_source_with_a_mark(path: Path) -> None:
    content = tomllib.loads(path.read_text(encoding="utf-8"))
    assert set(content) == {"name", "aliases", "standard", "notes", *PROPERTIES, "composition", "quench"}
    found = read_grade(path)
    for key in (*PROPERTIES, "composition", "quench"):
        if getattr(found, key) in (None, {}):
            assert found.unknown[key].endswith(".")
            assert found.unknown[key] != NOT_SAID
            assert key not in found.sources
        else:
            assert key not in found.unknown
            # What one shop has found is for that shop's own files.
            published = tuple(f"({mark})" for mark in MARKS if mark != "own shop")
            assert found.sources[key].endswith(published)
            assert key not in found.unknown


@pytest.mark.parametrize("one", grades(), ids=lambda one: one.name)
def test_forging_and_welding_heats_stand_in_order(one: Grade) -> None:
    heats = (one.forging_low_c, one.forging_high_c, one.welding_high_c)
    known = [heat for heat in heats if heat is not None]
    assert known == sorted(known)
    assert one.forging_low_c is not None
    assert one.forging_high_c is not None
    assert one.forging_low_c < one.forging_high_c
    if one.welding_low_c is not None:
        assert one.welding_high_c is not None
        assert one.forging_low_c < one.welding_low_c < one.welding_high_c


@pytest.mark.parametrize("one", grades(), ids=lambda one: one.name)
def test_no_grade_is_worked_near_its_melting(one: Grade) -> None:
    # Straight lines between the iron-carbon invariants (1538 °C, 0.09 % at 1494.6, 0.17 % at 1494.6,
    # 2.14 % at 1148.4 °C; published phase diagram, confirmed), good to 15 °C; commercial steel burns
    # 80 to 150 °C below the line (from memory), so 100 °C are kept.
    if one.carbon_share is None:
        return
    if one.carbon_share <= 0.09:
        solidus_c = 1538 - 482.2 * one.carbon_share
    else:
        solidus_c = min(1494.6, 1494.6 - 175.7 * (one.carbon_share - 0.17))
    for heat_c in (one.forging_high_c, one.welding_high_c):
        assert heat_c is None or heat_c <= solidus_c - 100


def test_more_carbon_never_bears_a_hotter_weld() -> None:
    # The solidus falls with carbon: iron-carbon diagram.
    ceilings = [one.welding_high_c for one in grades() if one.welding_high_c is not None]
    assert len(ceilings) >= 5
    assert all(softer >= harder for softer, harder in pairwise(ceilings))


def test_nominal_carbon_lies_within_the_standards() -> None:
    # Per cent by mass. SAE J403 and J404 and EN ISO 4957 from memory, EN 10083-2 (C45), ASTM A681 (O1),
    # ASTM A686 suffix 10 (W1), 1095, 5160 and 9260 seen in published property sheets.
    ranges = {
        "wrought iron": (0.0, 0.08),
        "C45": (0.42, 0.50),
        "1060": (0.55, 0.65),
        "1075": (0.70, 0.80),
        "1084": (0.80, 0.93),
        "C80": (0.75, 0.85),
        "1095": (0.90, 1.03),
        "4140": (0.38, 0.43),
        "5160": (0.56, 0.64),
        "9260": (0.56, 0.64),
        "O1": (0.85, 1.00),
        "W1": (1.00, 1.10),
    }
    for name, (low, high) in ranges.items():
        carbon_share = grade(name).carbon_share
        assert carbon_share is not None
        assert low <= carbon_share <= high, name


def test_forging_ranges_are_those_of_the_sheets_that_were_seen() -> None:
    def forging(name: str) -> tuple[float | None, float | None]:
        return grade(name).forging_low_c, grade(name).forging_high_c

    assert forging("C45") == (850, 1150)  # Indian Standard 50C8: 1150 to 850 °C
    assert forging("9260") == (850, 1050)  # property sheet of 9260: 1050 to 850 °C
    assert forging("5160") == pytest.approx(((1600 - 32) / 1.8, (2200 - 32) / 1.8), abs=2)  # handbook, °F
    assert forging("O1") == pytest.approx(((1550 - 32) / 1.8, (1950 - 32) / 1.8), abs=2)  # sheet of O1, °F


def test_wrought_iron_weighs_ten_pounds_to_the_yard_and_square_inch() -> None:
    # "Area in square inches times ten is pounds to the yard": builders' handbooks of about 1900, confirmed.
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    by_rule = (10 * units.pound / (units.yard * units.inch**2)).to("kg/m**3").magnitude
    by_foot = (480 * units.pound / units.foot**3).to("kg/m**3").magnitude
    assert by_rule == pytest.approx(7688.86, abs=0.005)
    assert by_foot == pytest.approx(by_rule, rel=1e-12)
    assert grade("wrought iron").density_kg_m3 == pytest.approx(by_rule, rel=0.002)


def test_bars_weigh_what_the_bar_tables_say() -> None:
    # Nominal masses of EN 10060 and EN 10058, kg/m; from memory.
    density_kg_m3 = grade("mild steel").density_kg_m3
    assert density_kg_m3 * math.pi / 4 * 0.025**2 == pytest.approx(3.853, abs=5e-4)
    assert density_kg_m3 * 0.040 * 0.010 == pytest.approx(3.140, abs=5e-4)


def test_unknown_spring_steel_says_what_cannot_be_known() -> None:
    unknown = grade("unknown spring steel")
    assert unknown.carbon_share is None
    known = {"density_kg_m3", "forging_low_c", "forging_high_c"}
    assert set(unknown.unknown) == PROPERTIES.keys() - known | {"composition", "quench"}
    assert "coupon" in unknown.notes


def test_unknown_spring_steel_is_forged_where_every_spring_steel_may_be() -> None:
    unknown = grade("unknown spring steel")
    assert unknown.forging_low_c is not None
    assert unknown.forging_high_c is not None
    for name in ("1060", "1075", "1095", "5160", "9260"):
        known = grade(name)
        assert known.forging_low_c is not None
        assert known.forging_high_c is not None
        assert known.forging_low_c <= unknown.forging_low_c < unknown.forging_high_c <= known.forging_high_c


# ── asking for a grade ───────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", ["c45", "C 45", " c-45 ", "1045", "AISI 1045", "sae 1045", "Ck45"])
def test_a_grade_answers_to_its_aliases_in_any_case(name: str) -> None:
    assert grade(name).name == "C45"


@pytest.mark.parametrize("key", ["forging_high_c", "welding_high_c"])
def test_a_heat_that_melts_the_steel_is_no_heat_of_a_grade(key: str) -> None:
    # Steel of 0.5 % carbon begins to melt at 1494.6 - 175.7 · 0.33 = 1437 °C, and burns 80 to 150 °C below
    # that (from memory).
    text = PLAIN.replace('[welding_high_c]\nunknown = "Never tried."', "").replace(
        "value = 1150", "value = 1100"
    )
    text = text.replace("[forging_high_c]\nvalue = 1100", f"[{key}]\nvalue = 1400")
    with pytest.raises(GradeFaults, match="it must not be above 1357"):
        grade_in(text, "melted.toml")


def test_a_misspelt_grade_names_the_nearest() -> None:
    with pytest.raises(NotKnown, match=r"^There is no grade “wrougt iron”; the nearest is wrought iron\.$"):
        grade("wrougt iron")


@pytest.mark.parametrize("name", ["", "   ", "unobtainable", "x" * 10_000, "\n\n", "[/] [b", "鉄"])
def test_a_strange_name_is_answered_in_one_short_sentence(name: str) -> None:
    with pytest.raises(NotKnown) as refused:
        grade(name)
    sentence = str(refused.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert len(sentence) < 300


def test_grades_stand_softest_first_with_the_unknown_last() -> None:
    names = [one.name for one in grades()]
    assert names[0] == "wrought iron"
    assert names[-1] == "unknown spring steel"


def test_a_grade_can_be_kept_in_a_set() -> None:
    assert grade("C45") in {grade("c45"), grade("W1")}


def grades_beside(folder: Path) -> tuple[Grade, ...]:
    look_in(folder)
    try:
        return grades()
    finally:
        look_in()


def grade_beside(folder: Path, name: str) -> Grade:
    look_in(folder)
    try:
        return grade(name)
    finally:
        look_in()


# ── a shop's own grades ──────────────────────────────────────────────────────────────────────────


def test_a_shop_adds_a_grade_by_adding_a_file(tmp_path: Path) -> None:
    written(tmp_path, PLAIN)
    assert grade_beside(tmp_path, "TS").forging_high_c == 1150
    assert len(grades_beside(tmp_path)) == len(grades()) + 1
    with pytest.raises(NotKnown):
        grade("test steel")


def test_a_shops_own_figures_take_the_place_of_the_published(tmp_path: Path) -> None:
    written(tmp_path, PLAIN.replace("test steel", "Wrought Iron").replace("7850", "7640"))
    assert grade_beside(tmp_path, "wrought iron").density_kg_m3 == 7640
    assert len(grades_beside(tmp_path)) == len(grades())


def test_two_grades_with_one_alias_are_refused(tmp_path: Path) -> None:
    written(tmp_path, PLAIN.replace('"ts"', '"1045"'))
    with pytest.raises(GradeFaults, match=r"^Both C45 and test steel answer to the name '1045'\.$"):
        grades_beside(tmp_path)


def test_one_grade_in_two_files_is_refused(tmp_path: Path) -> None:
    written(tmp_path, PLAIN, "a.toml")
    written(tmp_path, PLAIN, "b.toml")
    with pytest.raises(GradeFaults, match=r"^b\.toml: another file .* already describes test steel\.$"):
        grades_beside(tmp_path)


@pytest.mark.parametrize(
    "text",
    [
        FULL.replace('name = "test steel"', 'name = "C45"').replace("[density_kg_m3]", "[density]"),
        'name = "C45',
        'aliases = ["1045"]',
    ],
)
def test_a_grade_that_a_broken_file_means_is_not_answered_from_another(tmp_path: Path, text: str) -> None:
    written(tmp_path, text)
    with pytest.raises(GradeFaults, match=r"test-steel\.toml"):
        grade_beside(tmp_path, "1045" if "1045" in text else "C45")
    assert grade_beside(tmp_path, "1084").name == "1084"


def test_a_folder_that_was_never_made_holds_no_grades(tmp_path: Path) -> None:
    assert grades_beside(tmp_path / "nowhere") == grades()
    assert grade_beside(tmp_path / "nowhere", "C45") == grade("C45")


def test_a_file_in_the_place_of_the_folder_is_told_and_stops_no_other_grade(tmp_path: Path) -> None:
    with pytest.raises(GradeFaults, match=r"the folder of grades cannot be read: .+\.$"):
        grades_beside(written(tmp_path, PLAIN))
    assert grade_beside(written(tmp_path, PLAIN), "C45").name == "C45"
    with pytest.raises(GradeFaults, match="cannot be read"):
        grade_beside(written(tmp_path, PLAIN), "my own")


def test_a_small_file_of_ones_own_is_enough(tmp_path: Path) -> None:
    bare = read_grade(written(tmp_path, BARE))
    assert bare.density_kg_m3 == 7850
    assert (bare.carbon_share, bare.forging_high_c, bare.hardening_low_c, bare.quench) == (None,) * 4
    assert bare.nominal == {}
    assert bare.unknown == dict.fromkeys(
        (PROPERTIES.keys() - {"density_kg_m3"}) | {"composition", "quench"}, NOT_SAID
    )


def test_carbon_that_is_only_in_the_composition_counts_for_the_grade(tmp_path: Path) -> None:
    sheet = BARE + '\n[composition]\nsource = "sheet (own shop)"\nC = [0.9, 1.0, 1.1]\n'
    found = read_grade(written(tmp_path, sheet))
    assert found.carbon_share == 1.0
    assert found.sources["carbon_share"] == "sheet (own shop)"
    assert "carbon_share" not in found.unknown


def test_a_full_file_gives_composition_and_quench(tmp_path: Path) -> None:
    full = read_grade(written(tmp_path, FULL))
    assert full.composition == {"C": Share(0.4, 0.5, 0.6), "Mn": Share(0.5, 0.7, 0.9)}
    assert full.nominal == {"C": 0.5, "Mn": 0.7}
    assert full.quench == Quench("oil", "Slowly.")
    assert (full.hardening_low_c, full.hardening_high_c) == (800, 830)
    assert set(full.unknown) == {"welding_low_c", "welding_high_c"}


def test_the_files_that_the_guide_shows_read_as_they_stand(tmp_path: Path) -> None:
    guide = (Path(__file__).parents[2] / "docs" / "grades.md").read_text(encoding="utf-8")
    small, whole = re.findall(r"```toml\n(.*?)```", guide, re.DOTALL)
    assert read_grade(written(tmp_path, small)).composition == {}
    shown = read_grade(written(tmp_path, whole))
    assert set(shown.unknown) == {"welding_low_c", "welding_high_c"}
    for word in (*PROPERTIES, *ELEMENTS, *QUENCHES, *(f"`({mark})`" for mark in MARKS)):
        assert word in guide


# ── a file to begin with ─────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    "name", ["W2", "old file steel", 'the "blue" bar', "back\\slash", "鉄", "#1 bar", "NAME"]
)
def test_the_starter_reads_as_it_stands(tmp_path: Path, name: str) -> None:
    begun = read_grade(written(tmp_path, template_text(name)))
    assert begun.name == name
    assert begun.hardening_low_c is None


def test_the_starter_reads_with_all_its_examples_taken_up(tmp_path: Path) -> None:
    lines = template_text("W2").splitlines()
    taken = [line[1:] if line.startswith("#") and not line.startswith("# ") else line for line in lines]
    found = read_grade(written(tmp_path, "\n".join(taken)))
    assert set(found.unknown) == {"welding_low_c", "welding_high_c"}
    assert found.nominal == {"C": 0.85, "Mn": 0.75, "Si": 0.20}


def test_the_starter_names_all_that_a_file_may_hold() -> None:
    text = template_text("W2")
    for word in (*ELEMENTS, *QUENCHES, *(f"({mark})" for mark in MARKS), *PROPERTIES):
        assert word in text or word == "carbon_share"  # composition gives the carbon


@pytest.mark.parametrize("name", ["", "  ", "two\nlines", "a\x00b", "\ud800", "\x7f"])
def test_a_name_that_cannot_be_printed_is_refused(name: str) -> None:
    with pytest.raises(GradeFaults, match=r"^A grade's name must be words that can be printed, .+\.$"):
        template_text(name)


def test_the_faults_of_all_files_come_at_once(tmp_path: Path) -> None:
    written(tmp_path, PLAIN.replace("7850", "785"), "a.toml")
    written(tmp_path, PLAIN.replace("0.5", "5"), "b.toml")
    with pytest.raises(GradeFaults) as found:
        grades_beside(tmp_path)
    assert [fault.split(":")[0] for fault in found.value.faults] == ["a.toml", "b.toml"]


# ── faults in a file ─────────────────────────────────────────────────────────────────────────────

MANGANESE = (
    "composition.Mn must be three numbers in order from 0 to 50: the least, the nominal and the most, in "
    "per cent by mass."
)


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('name = "test steel"', "", "name is missing or is not text."),
        ('name = "test steel"', "name = 1084", "name is missing or is not text."),
        ('standard = "none"', 'standard = " "', "standard is missing or is not text."),
        ('["ts"]', '"ts"', "aliases is not a list of names."),
        ('["ts"]', '["ts", 7]', "aliases holds something that is not a name."),
        (
            'notes = "Invented."',
            'notes = "Invented."\nalias = "x"',
            "'alias' is not part of a grade; the nearest is 'aliases'.",
        ),
        (
            "[forging_high_c]",
            "[forging_hihg_c]",
            "'forging_hihg_c' is not part of a grade; the nearest is 'forging_high_c'.",
        ),
        ("value = 7850", "value = 78500", "density_kg_m3.value must be a number from 1000 to 25000."),
        ("value = 7850", "value = true", "density_kg_m3.value must be a number from 1000 to 25000."),
        ("value = 7850", 'value = "7850"', "density_kg_m3.value must be a number from 1000 to 25000."),
        ("value = 0.5", "value = nan", "carbon_share.value must be a number from 0 to 2.14."),
        ("value = 800", "value = inf", "forging_low_c.value must be a number from 20 to 1538."),
        ("value = 800", "value = 1" + "0" * 400, "forging_low_c.value must be a number from 20 to 1538."),
        ("value = 800", "value = 1150", "forging_low_c (1150) must be below forging_high_c (1150)."),
        ("value = 800\n", "", "forging_low_c must have a value and a source, or only unknown."),
        (
            'value = 7850\nsource = "weighed (confirmed)"',
            'unknown = "?"',
            "density_kg_m3 must have a value and a source.",
        ),
        (
            '[density_kg_m3]\nvalue = 7850\nsource = "weighed (confirmed)"',
            "",
            "density_kg_m3 must have a value and a source.",
        ),
        ("value = 830", "value = 1526", "hardening_high_c.value must be a number from 600 to 1300."),
        ("value = 830", "value = 790", "hardening_low_c (800) must be below hardening_high_c (790)."),
        ("value = 860", "value = 880", "normalising_low_c (880) must not be above normalising_high_c (870)."),
        ("value = 290", "value = 180", "tempering_low_c (180) must be below tempering_high_c (180)."),
        (
            "C = [0.4, 0.5, 0.6]\n",
            "",
            "composition.C is missing: give the least, the nominal and the most carbon.",
        ),
        (
            "C = [0.4, 0.5, 0.6]",
            "C = [0.4, 0.55, 0.6]",
            "composition.C is nominally 0.55, but carbon_share is 0.5; they must be the same.",
        ),
        (
            'value = 0.5\nsource = "invented (judgement)"',
            'unknown = "No analysis."',
            "carbon_share is said to be unknown, but composition.C gives it.",
        ),
        (
            "Mn = [0.5",
            "Mm = [0.5",
            "'Mm' in composition is not one of C, Mn, Si, P, S, Cr, Ni, Mo, W, V, Cu, Al.",
        ),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = [0.7, 0.5, 0.9]", MANGANESE),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = [0.5, 0.9]", MANGANESE),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = 0.7", MANGANESE),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = [0.5, nan, 0.9]", MANGANESE),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = [50, 70, 90]", MANGANESE),
        ("Mn = [0.5, 0.7, 0.9]", "Mn = [0, true, 2]", MANGANESE),
        (
            '[composition]\nsource = "invented (judgement)"',
            "[composition]",
            "composition.source is missing or is not text.",
        ),
        (
            'medium = "oil"',
            'medium = "milk"',
            "quench.medium must be one of oil, fast oil, water, brine, salt, air.",
        ),
        (
            'medium = "oil"',
            "medium = []",
            "quench.medium must be one of oil, fast oil, water, brine, salt, air.",
        ),
        ('words = "Slowly."', 'words = " "', "quench.words is missing or is not text."),
        ('words = "Slowly."\n', "", "quench must have a medium, words and a source, or only unknown."),
        (
            "weighed (confirmed)",
            "weighed",
            (
                "density_kg_m3.source must end in how far it is confirmed: one of (confirmed), "
                "(confirmed second-hand), (from memory), (judgement), (own shop)."
            ),
        ),
        (
            '[welding_low_c]\nunknown = "Never tried."',
            "[welding_low_c]\nunknown = 3",
            "welding_low_c.unknown is missing or is not text.",
        ),
        (
            '[welding_high_c]\nunknown = "Never tried."',
            '[welding_high_c]\nvalue = 1100\nsource = "x (judgement)"',
            "forging_high_c (1150) must not be above welding_high_c (1100).",
        ),
    ],
)
def test_each_fault_is_one_sentence_with_the_files_name(
    tmp_path: Path, old: str, new: str, expected: str
) -> None:
    assert FULL.count(old) >= 1
    assert f"test-steel.toml: {expected}" in faults_of(written(tmp_path, FULL.replace(old, new, 1)))


def test_every_fault_of_a_file_is_told_at_once(tmp_path: Path) -> None:
    faults = faults_of(written(tmp_path, "colour = 3"))
    assert len(faults) == 1 + 3 + 1  # the strange key, the three words and the density
    assert all(fault.startswith("test-steel.toml: ") for fault in faults)


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"name = ", "is not TOML"),
        (b"name = 'a'\nname = 'b'", "is not TOML"),
        (b"\xff\xfe\x00", "is not UTF-8 text"),
        (b"x = " + b"[" * 50_000, "is nested too deep"),
        (b"x = " + b"9" * 5_000, "is not TOML"),
    ],
)
def test_a_file_that_cannot_be_parsed_is_refused(tmp_path: Path, content: bytes, expected: str) -> None:
    path = tmp_path / "broken.toml"
    path.write_bytes(content)
    (fault,) = faults_of(path)
    assert fault.startswith("broken.toml: ")
    assert expected in fault


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path / "absent.toml")
    assert fault.startswith("absent.toml: the file cannot be read: ")


@pytest.mark.parametrize("asked", ["52100", "C46", "1055"])
def test_a_steel_that_is_not_there_is_not_taken_for_one_whose_number_looks_alike(asked: str) -> None:
    # 52100 is a bearing steel of 1 % carbon and 1.5 % chromium (SAE J404, from memory), no spring steel.
    with pytest.raises(NotKnown) as refused:
        grade(asked)
    told = str(refused.value.words)
    assert "nearest" not in told
    assert "coach steel --template" in told
    assert "5160" in told
    assert "coupon test" in told


def test_the_number_of_a_grade_with_a_letter_more_is_that_grade() -> None:
    with pytest.raises(NotKnown, match="the nearest is 5160"):
        grade("5160H")


# L6 is a nickel tool steel, D2 one of 12 % chromium, EN45 a spring steel, 15N20 a nickel steel (handbooks,
# from memory): none of them is like a grade here of which the name has one of its figures.
@pytest.mark.parametrize("name", ["L6", "D2", "EN45", "15N20", "S7", "52100", "wedge"])
def test_a_grade_that_is_like_none_is_told_how_one_is_added(name: str) -> None:
    with pytest.raises(NotKnown) as refused:
        grade(name)
    told = str(refused.value)
    assert "nearest" not in told
    assert "there are 1060, 1075" in told
    assert "`coach steel --template`" in told


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("42CrMo", "4140"), ("60Si2Mm", "silicon-manganese spring steel"), ("mild steal", "mild")],
)
def test_a_slip_of_a_letter_is_told_the_grade_that_is_meant(typed: str, meant: str) -> None:
    with pytest.raises(NotKnown, match=f"the nearest is {meant}"):
        grade(typed)
