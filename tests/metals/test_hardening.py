"""Tests of the advice on hardening."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from coach.metals.grade import grade, grades
from coach.metals.grade_file import Grade, Quench, Share
from coach.metals.hardening import (
    COUPON_TEST,
    CannotHarden,
    Hardening,
    hardening_advice,
)
from coach.metals.quenches import QUENCHES
from coach.metals.transformation import fitted_c, lower_critical, martensite_points, upper_critical
from coach.quantities import COVERAGE
from coach.telling.words import write
from coach.telling.writing import Shown

SOFT = ("wrought iron", "mild steel")
HARDENING = [one for one in grades() if one.name not in (*SOFT, "unknown spring steel")]


def sentences(advice: Hardening, shown: Shown) -> tuple[str, ...]:
    return (*(write(words, shown) for _, words in advice.steps), QUENCHES[advice.quench])


def without_heats(one: Grade) -> Grade:
    return replace(one, hardening_low_c=None, hardening_high_c=None)


@pytest.mark.parametrize(
    ("name", "low_c", "high_c", "medium"),
    [
        ("1075", 800, 830, "fast oil"),  # published practice, confirmed second-hand
        ("1084", 800, 830, "fast oil"),  # published practice, confirmed second-hand
        ("1095", 790, 815, "fast oil"),  # published practice, confirmed second-hand
        ("O1", 790, 815, "oil"),  # property sheet, 1450 to 1500 °F, confirmed second-hand
        ("W1", 760, 845, "water"),  # property sheet, 1400 to 1550 °F, confirmed second-hand
        ("5160", 830, 855, "oil"),  # heat treaters' handbooks, from memory
        ("C45", 830, 860, "water"),  # Indian Standard 45C8, confirmed second-hand
    ],
)
def test_the_heats_are_the_published_ones(name: str, low_c: float, high_c: float, medium: str) -> None:
    advice = hardening_advice(grade(name))
    assert (advice.low.value, advice.high.value) == (low_c, high_c)
    assert advice.quench == medium
    assert advice.source == grade(name).sources["hardening_low_c"]


@pytest.mark.parametrize("one", HARDENING, ids=lambda one: one.name)
def test_what_is_published_lies_above_where_the_steel_turns(one: Grade) -> None:
    advice = hardening_advice(one)
    assert lower_critical(one.nominal).celsius < advice.low.value
    assert upper_critical(one.nominal).celsius < advice.high.value


@pytest.mark.parametrize("one", HARDENING, ids=lambda one: one.name)
def test_what_is_reckoned_errs_cold_by_a_shade_of_colour_at_most(one: Grade) -> None:
    # No tolerance is published. Measured, middle of the range against middle: 15 to 49 °C colder (1084 the
    # most), but 42 °C hotter for 9260, whose silicon lifts Ac3. A fire held that near by eye is held well.
    published, reckoned = hardening_advice(one), hardening_advice(without_heats(one))
    apart_c = (reckoned.low.value + reckoned.high.value - published.low.value - published.high.value) / 2
    if one.name == "silicon-manganese spring steel":
        assert 0 < apart_c < 50
    else:
        assert -50 < apart_c < 0


def test_without_a_published_range_the_heats_are_reckoned_from_the_composition() -> None:
    # 1095 of C 0.95 Mn 0.40 Si 0.20: Ac1 724.54 °C, Andrews 1965, reckoned apart from this code.
    advice = hardening_advice(without_heats(grade("1095")))
    assert (advice.low.value, advice.high.value) == pytest.approx((754.54, 784.54), abs=0.005)
    assert advice.source == "reckoned from composition, Andrews 1965 + 30 to 60 °C (common practice)"
    # 5160: Ac3 763.93 °C.
    assert hardening_advice(without_heats(grade("5160"))).low.value == pytest.approx(793.93, abs=0.005)


def test_a_range_of_ones_own_needs_no_composition() -> None:
    own = replace(grade("1084"), composition={})
    advice = hardening_advice(own)
    assert (advice.low.value, advice.high.value) == (800, 830)
    assert advice.retained is None
    assert write(advice.told("magnet")).startswith("Steel lets go of the magnet at 770 °C at the latest: ")


@pytest.mark.parametrize("name", SOFT)
def test_iron_and_mild_steel_are_said_not_to_harden(name: str) -> None:
    with pytest.raises(CannotHarden, match=rf"^{name} has .+ % carbon, and below about 0\.3 % .+\.$"):
        hardening_advice(grade(name))


def test_a_soft_steel_whose_file_says_how_it_hardens_is_believed() -> None:
    case = replace(grade("mild steel"), hardening_low_c=780.0, hardening_high_c=820.0)
    case = replace(case, sources={**case.sources, "hardening_low_c": "a", "hardening_high_c": "b"})
    advice = hardening_advice(case)
    assert (advice.low.value, advice.source) == (780.0, "a; b")


def test_unknown_steel_is_sent_to_the_coupon_test() -> None:
    with pytest.raises(
        CannotHarden, match=r"^At what heat unknown spring steel hardens .+ coupon test, .+\.$"
    ):
        hardening_advice(grade("unknown spring steel"))


@pytest.mark.parametrize("one", HARDENING, ids=lambda one: one.name)
def test_every_temperature_in_a_sentence_can_be_told_in_fahrenheit(one: Grade) -> None:
    for sentence in sentences(hardening_advice(one), Shown("in")):
        assert "°C" not in sentence
        assert sentence.endswith(".")
    assert "°F" in write(hardening_advice(one).told("magnet"), Shown("in"))
    assert all("°" not in sentence for sentence in COUPON_TEST)
    assert one.quench is not None
    assert "°" not in one.quench.words


def test_the_magnet_is_told_apart_from_the_hardening_heat() -> None:
    assert write(hardening_advice(grade("1084")).told("magnet")) == (
        "Steel lets go of the magnet between about 721 °C and 770 °C: that is not yet hot enough, so go on "
        "to 800 °C to 830 °C; test the edge, for an iron body holds the magnet up to 770 °C."
    )


def test_a_steel_with_much_ferrite_holds_the_magnet_as_long_as_iron_does() -> None:
    # Iron-carbon diagram: under 0.77 % carbon ferrite is left up to Ac3, by Andrews 1965 for C45
    # (C 0.45, Si 0.25) 910 - 203·√0.45 + 44.7·0.25 = 785.0 °C; ferrite is magnetic up to 770 °C, its Curie
    # point (from memory).
    magnet = write(hardening_advice(grade("C45")).told("magnet"))
    assert "holds the magnet up to 770 °C: that is not yet hot enough, so go on to 830 °C to 860 °C" in magnet
    assert "785 °C" in magnet
    assert "between" not in magnet
    # 5160 and 1060 turn whole below that, at 764 and 764 °C or less.
    assert "between about" in write(hardening_advice(grade("5160")).told("magnet"))


def test_a_steel_that_turns_above_the_curie_point_lets_go_too_early() -> None:
    # 2 % of silicon puts Ac1 at 772 °C, Andrews 1965.
    magnet = write(hardening_advice(grade("9260")).told("magnet"))
    assert magnet.startswith("This steel lets go of the magnet at 770 °C, before it turns: ")


def test_only_the_carbon_that_dissolves_counts_for_the_martensite() -> None:
    dissolved = {**grade("W1").nominal, "C": 0.85}
    start = martensite_points(grade("W1").nominal)[0]
    assert start.celsius == fitted_c("Ms of van Bohemen", dissolved)
    assert "0.85 % carbon dissolved" in start.source
    retained = hardening_advice(grade("W1")).retained
    assert retained is not None
    assert retained.value == pytest.approx(0.112, abs=0.0005)


def test_o1_is_soaked_longer_than_plain_steel() -> None:
    assert "10 to 30 min" in write(hardening_advice(grade("O1")).told("soak"))
    for name in ("1084", "1095", "W1", "5160"):
        assert "5 to 10 min" in write(hardening_advice(grade(name)).told("soak"))


def test_normalising_falls_from_heat_to_heat() -> None:
    advice = hardening_advice(grade("1084"))
    assert write(advice.told("normalise")).endswith(
        "first from 870 °C, each time from a little less, last from 845 °C."
    )
    assert write(hardening_advice(grade("5160")).told("normalise")).endswith("each time from 870 °C.")


def test_o1_is_not_normalised_and_the_reason_is_given() -> None:
    advice = hardening_advice(grade("O1"))
    assert write(advice.told("normalise")) == grade("O1").unknown["normalising_low_c"]


def test_tempering_is_told_to_follow_at_once() -> None:
    words = write(hardening_advice(grade("1084")).told("temper"))
    for part in (
        "at once",
        "between 50 °C and 65 °C",
        "within about an hour",
        "two cycles",
        "175 °C to 290 °C",
    ):
        assert part in words
    bare = replace(grade("1084"), tempering_low_c=None, tempering_high_c=None)
    assert "1 to 2 h. Left" in write(hardening_advice(bare).told("temper"))


@pytest.mark.parametrize(
    ("medium", "start"),
    [
        ("oil", "Oil at 50 °C to 65 °C: "),
        ("fast oil", "Fast oil at 50 °C to 65 °C: "),
        ("water", "Water at 20 °C to 30 °C: "),
        ("brine", "Brine of 5 to 10 % salt at 20 °C to 30 °C, "),
        ("air", "Hang it in still air, "),
    ],
)
def test_each_medium_is_told_how_to_use(medium: str, start: str) -> None:
    advice = hardening_advice(replace(grade("1084"), quench=Quench(medium, "Mind it.")))
    assert write(advice.told("quench")).startswith(start)
    assert advice.quench == medium


def test_where_the_quench_is_not_known_the_reason_is_given() -> None:
    bare = replace(grade("1084"), quench=None, unknown={"quench": "Never tried."})
    advice = hardening_advice(bare)
    assert write(advice.told("quench")) == "Never tried."
    assert advice.quench == ""


@pytest.mark.parametrize("medium", [*QUENCHES, "salt"])
def test_every_medium_has_its_caution(medium: str) -> None:
    caution = QUENCHES[medium]
    assert caution.endswith(".")
    assert len(re.findall(r"[.!]", caution)) <= 2


@pytest.mark.parametrize(
    ("medium", "danger"),
    [
        ("oil", "no water on an oil fire"),
        ("water", "burst"),
        ("brine", "burst"),
        ("salt", "explodes"),
        ("air", "hot|cold"),
    ],
)
def test_the_danger_of_each_medium_is_named(medium: str, danger: str) -> None:
    assert re.search(danger, QUENCHES[medium])


def test_the_coupon_test_is_a_short_list_that_keeps_the_smith_safe() -> None:
    steps = COUPON_TEST
    assert 5 <= len(steps) <= 7
    assert all(step.endswith(".") and len(step) < 110 for step in steps)
    told = " ".join(steps)
    for word in ("same bar", "magnet", "warm oil", "file", "vice", "eyes covered", "water", "temper"):
        assert word in told
    assert told.index("oil") < told.index("water")


def test_a_carbon_steel_of_ones_own_is_advised_from_its_composition_alone() -> None:
    own = replace(without_heats(grade("1084")), composition={"C": Share(0.6, 0.7, 0.8)}, carbon_share=0.7)
    advice = hardening_advice(own)
    # Ac1 723, Ac3 910 - 203 sqrt(0.7) = 740.2 °C: Andrews 1965, short form.
    assert advice.low.value == pytest.approx(770.2, abs=0.05)
    assert lower_critical(own.nominal).celsius == 723


def test_the_austenite_that_is_left_has_a_doubt() -> None:
    # 10 to 20 % is told of 1095 as quenched, by its heat (from memory).
    retained = hardening_advice(grade("1095")).retained
    assert retained is not None
    assert retained.doubt is not None
    reach = COVERAGE * retained.doubt
    assert retained.value - reach <= 0.10
    assert retained.value + reach >= 0.20


def test_reckoned_heats_begin_with_coupons() -> None:
    assert not hardening_advice(grade("1084")).reckoned
    assert hardening_advice(without_heats(grade("1084"))).reckoned


def test_no_heat_is_reckoned_for_more_alloy_than_the_equations_know() -> None:
    # D2 hardens from 1010 to 1040 °C (from memory); Ac1 and 30 to 60 °C would be no such thing.
    much = replace(without_heats(grade("1084")), name="D2")
    much = replace(much, composition={**much.composition, "Cr": Share(11.0, 12.0, 13.0)})
    with pytest.raises(CannotHarden, match="coupon test"):
        hardening_advice(much)


def test_a_published_heat_below_where_the_steel_is_all_turned_says_which_end_to_keep_to() -> None:
    # Andrews 1965 by hand for 9260 of 0.60 % C and 2.0 % Si: 910 - 203·√0.60 + 44.7·2.0 = 842 °C, above the
    # 830 of its property sheet.
    told = write(hardening_advice(grade("9260")).told("magnet"))
    assert "all turned only at about 842 °C: keep to the upper end" in told
    assert "all turned" not in write(hardening_advice(grade("5160")).told("magnet"))


@pytest.mark.parametrize("name", ["O1", "5160"])
def test_a_steel_that_water_cracks_says_so_in_its_quench(name: str) -> None:
    assert "Never water" in write(hardening_advice(grade(name)).told("quench"))


def test_structural_bar_may_have_more_carbon_than_the_grades_by_carbon() -> None:
    # ASTM A36, bars: 0.26 % to 3/4 in, 0.29 % over 4 in at most (confirmed second-hand).
    mild = grade("A36")
    assert mild.composition["C"].high >= 0.29
    assert "0.26 to 0.29 %" in mild.notes
