"""The reckoner tells bevels, edges and hafts, by published and derived examples."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Coach
from tests.cli.questions import assert_answered, assert_metric_in_json, assert_refused, assert_sourced
from tests.cli.test_lean import COSTLY, loaded_by

QUESTIONS = [
    ("bevel", "40x6mm", "1mm", "--bevel", "20mm"),
    ("bevel", "40x6mm", "0"),
    ("bevel", "40x6mm", "1mm", "--bevel", "20mm", "--sagitta", "6.35mm", "--chord", "100mm"),
    ("bevel", "40x6mm", "3mm", "--sagitta", "6mm", "--chord", "100mm", "--measured-width", "43mm"),
    ("edge", "--angle", "25°", "--thickness", "4mm", "--edge", "0.5mm"),
    ("edge", "--bevel", "12mm", "--thickness", "4mm", "--one-sided"),
    ("haft", "32x20mm", "--wood", "ash", "--moisture", "12", "--in-use", "8", "--depth", "50mm"),
    ("haft", "32x20mm", "--wood", "hickory", "--natural", "31x20.5mm", "--rings", "width"),
]


@pytest.mark.parametrize("words", QUESTIONS, ids=" ".join)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_every_question_is_answered_in_lines_that_fit_and_touches_no_log(
    coach: Coach, words: tuple[str, ...], units: str
) -> None:
    assert_answered(coach, words, units)


@pytest.mark.parametrize("words", QUESTIONS, ids=" ".join)
def test_figures_in_json_are_metric_whatever_is_shown(coach: Coach, words: tuple[str, ...]) -> None:
    assert_metric_in_json(coach, words)


# What is typed, and words that the sentence must have.
WRONG: list[tuple[list[str], list[str]]] = [
    (["bevel", "40x6"], ["EDGE"]),
    (["bevel", "hello", "1"], ["hello", "40x10"]),
    (["bevel", "round", "25", "1"], ["round 25 mm", "width by thickness"]),
    (["bevel", "40x6", "7"], ["7 mm", "6 mm"]),
    (["bevel", "40x6", "nan"], ["nan"]),
    (["bevel", "40x6", "1", "--bevel", "50"], ["50 mm", "40 mm"]),
    (["bevel", "40x6", "1", "--share", "2"], ["2", "50 %"]),
    (["bevel", "40x6", "1", "--share", "0"], ["share"]),
    (["bevel", "40x6", "1", "--sagitta", "3"], ["--chord"]),
    (["bevel", "40x6", "1", "--measured-width", "44"], ["--sagitta", "--chord"]),
    (["bevel", "40x6", "1", "--sagitta", "60", "--chord", "100"], ["half a circle"]),
    (
        ["bevel", "40x6", "3", "--sagitta", "6", "--chord", "100", "--measured-width", "90"],
        ["90 mm", "measure"],
    ),
    (["edge"], ["--thickness"]),
    (["edge", "--thickness", "4"], ["--angle", "--bevel"]),
    (["edge", "--thickness", "4", "--angle", "25", "--bevel", "9"], ["either"]),
    (["edge", "--thickness", "4", "--angle", "175"], ["170°"]),
    (["edge", "--thickness", "200", "--angle", "0.001"], ["1°", "0.001°"]),
    (["edge", "--thickness", "4", "--angle", "89", "--one-sided"], ["85°"]),
    (["edge", "--thickness", "1", "--edge", "2", "--angle", "25"], ["2 mm", "1 mm"]),
    (["edge", "--thickness", "0", "--angle", "25"], ["0"]),
    (["haft", "32x20"], ["--wood"]),
    (["haft", "32", "--wood", "ash"], ["32", "36x22"]),
    (["haft", "32x20", "--wood", "balsa"], ["balsa", "white ash"]),
    (["haft", "32x20", "--wood", "ash", "--rings", "round"], ["round", "length", "width"]),
    (["haft", "32x20", "--wood", "ash", "--moisture", "wet"], ["wet", "12"]),
    (["haft", "32x20", "--wood", "ash", "--depth", "10"], ["kerf", "saw deeper"]),
    (["haft", "0.4x0.4", "--wood", "ash"], ["no eye is left"]),
    (["haft", "3x2", "--wood", "ash", "--depth", "20"], ["wedge of 3.5 mm", "2 mm wide"]),
    (["haft", "3000x2000", "--wood", "ash"], ["3000", "fits no tool"]),
    (["haft", "32x20", "--wood", "ash", "--moisture", "0"], ["0", "3 to 100 %", "12"]),
    (["haft", "32x20", "--wood", "ash", "--moisture", "150"], ["150", "3 to 100 %"]),
]


@pytest.mark.parametrize(("words", "telling"), WRONG, ids=[" ".join(words) for words, _ in WRONG])
def test_a_question_without_an_answer_is_refused_in_one_sentence(
    coach: Coach, words: list[str], telling: list[str]
) -> None:
    assert_refused(coach, words, telling)


@pytest.mark.parametrize("verb", ["bevel", "edge", "haft"])
def test_help_names_the_sources_and_says_that_it_is_an_estimate(coach: Coach, verb: str) -> None:
    assert_sourced(coach, verb, "Sources:", ("(from memory)", "(judgement)"))


def test_a_bevel_curves_between_two_models_that_nobody_has_measured(coach: Coach) -> None:
    # 40 × 6, a bevel of 20 down to 1, half of it lengthwise: 163.293 by the plain model, 80.0 by the second,
    # straight again from 192.000; derived, checked once by integrating the curved body.
    said = coach("bevel", "40x6", "1", "--bevel", "20", "--json")
    assert said.part("widest", "value") == pytest.approx(163.293, abs=1e-3)
    assert said.part("tightest", "value") == pytest.approx(80.0, abs=0.1)
    assert said.part("pre_curve_widest", "value") == pytest.approx(192.0, abs=1e-3)
    assert said.part("width", "value") == pytest.approx(47.1429, abs=1e-4)
    # 1.3 times as sharply as the plain model (judgement).
    assert said.part("radius", "value") == pytest.approx(163.293 / 1.3, abs=1e-3)
    assert "a factor of two at best" in " ".join(coach("bevel", "40x6", "1", "--bevel", "20").out.split())


def test_metal_that_all_goes_lengthwise_curves_the_bar_the_most(coach: Coach) -> None:
    # 62.667, straight from 96.0, by the plain model, and half of that for a bevel of half the width by the
    # second where little is thinned; derived.
    said = coach("bevel", "40x6", "1", "--bevel", "20", "--share", "100%", "--json")
    assert said.part("widest", "value") == pytest.approx(62.667, abs=1e-3)
    assert said.part("tightest", "value") == pytest.approx(62.667 / 2, abs=1e-3)
    assert said.part("pre_curve_widest", "value") == pytest.approx(96.0, abs=1e-3)


def test_a_bar_is_not_told_to_be_bent_tighter_than_it_is_wide(coach: Coach) -> None:
    bar = ("bevel", "40x6", "0", "--bevel", "20", "--share", "1")
    assert coach(*bar, "--json").part("pre_curve_tightest") is None
    assert "as tight as it will bend" in " ".join(coach(*bar).out.split())


def test_the_first_bevel_heat_measured_says_it_closer(coach: Coach) -> None:
    # A chord of 100 and a sagitta of 10 is a radius of 130.0: elementary geometry.
    bar = ("bevel", "40x6", "1", "--bevel", "20", "--measured-edge", "3", "--chord", "100")
    curved = coach(*bar, "--sagitta", "10", "--measured-width", "43.3333", "--json")
    assert curved.part("measured", "measured_radius", "value") == pytest.approx(130.0)
    # Widened by 3.3333 of 6.6667: half of the metal went lengthwise; derived.
    assert curved.part("measured", "share", "value") == pytest.approx(0.5, abs=1e-4)
    # The curve alone: 200 says 0.69277, and 106.83 at 1 mm; derived.
    sagitta = 200 - (200**2 - 50**2) ** 0.5
    alone = coach(*bar, "--sagitta", f"{sagitta:.6f}", "--json")
    assert alone.part("measured", "share", "value") == pytest.approx(0.69277, abs=1e-5)
    assert alone.part("measured", "radius", "value") == pytest.approx(106.83, abs=0.01)
    assert alone.part("measured", "factor") is None
    assert "a factor of two" not in " ".join(coach(*bar, "--sagitta", "6").out.split())


def test_a_bevel_not_yet_measured_is_doubted_by_how_far_its_models_lie_apart(coach: Coach) -> None:
    # The two models, 163.293 and 80.0, are told as the ends of a range: 1.645 standard uncertainties either
    # side (JCGM 100:2008, table G.1).
    said = coach("bevel", "40x6", "1", "--bevel", "20", "--json")
    for radius in ("radius", "tightest", "widest"):
        assert said.part(radius, "doubt") == pytest.approx((163.293 - 80.0) / 2 / 1.645, abs=0.02)
    # Where one end cannot be bent, by the other, 80.0, and what lies 1.3 times as sharp.
    keen = coach("bevel", "40x6", "0", "--bevel", "20", "--share", "1", "--json")
    assert keen.part("pre_curve", "doubt") == pytest.approx((80.0 - 80.0 / 1.3) / 1.645, abs=0.01)


def test_a_measured_bevel_is_doubted_by_the_reading_of_its_curve(coach: Coach) -> None:
    # A sagitta of 6 is read to 0.3 with a rule (judgement): 5 % of every radius that follows from it.
    said = coach("bevel", "40x6", "1", "--bevel", "20", "--sagitta", "6", "--chord", "100", "--json")
    assert said.part("measured", "measured_radius", "value") == pytest.approx(211.333, abs=1e-3)
    for radius in ("measured_radius", "radius", "pre_curve"):
        figure = said.part("measured", radius)
        assert isinstance(figure, dict)
        assert figure["doubt"] == pytest.approx(0.05 * figure["value"])


def test_a_chisel_with_a_blunt_edge_is_ground_less_steeply(coach: Coach) -> None:
    said = coach("edge", "--bevel", "20", "--thickness", "6", "--edge", "1", "--one-sided", "--json")
    # One slope of 5 mm over 20 mm: atan 1/4, elementary geometry.
    assert said.part("angle", "value") == pytest.approx(14.0362, abs=1e-4)


def test_a_short_wedge_is_told_with_its_tip(coach: Coach) -> None:
    # 13.3 mm long in an eye of 20 mm, 8 mm thick: 1 in 6 leaves 8 - 13.33 / 6 = 5.78 mm.
    blunt = " ".join(coach("haft", "36x22", "--wood", "ash", "--depth", "20", "--kerf", "6").out.split())
    assert "8.00 mm at its head and 5.78 mm at its tip" in blunt
    keen = " ".join(coach("haft", "36x22", "--wood", "ash", "--depth", "40").out.split())
    assert "3.50 mm at its head, thinned to nothing" in keen


def test_an_edge_is_a_wedge(coach: Coach) -> None:
    # 25°, half a millimetre at the edge, 10 mm behind it: 4.934 mm thick; elementary geometry.
    width = coach("edge", "--angle", "25", "--thickness", "4.934", "--edge", "0.5", "--json")
    assert width.part("bevel", "value") == pytest.approx(10.0, abs=1e-3)
    angle = coach("edge", "--bevel", "10", "--thickness", "4.934", "--edge", "0.5", "--json")
    assert angle.part("angle", "value") == pytest.approx(25.0, abs=5e-3)
    # A chisel of 30° on 4 mm has a face of 8 mm: sin 30° is a half.
    chisel = coach("edge", "--angle", "30", "--thickness", "4", "--one-sided", "--json")
    assert chisel.part("face", "value") == pytest.approx(8.0)
    back = coach(
        "edge", "--bevel", str(chisel.part("bevel", "value")), "--thickness", "4", "--one-sided", "--json"
    )
    assert back.part("angle", "value") == pytest.approx(30.0)


def test_the_stone_takes_two_triangles_off_a_flat_bar(coach: Coach) -> None:
    # 6 mm ground to 1 mm over 20 mm on both sides: 20 · 5 / 2 mm² of section; 7.85 g/cm³, the density of
    # steel in EN 10058 (from memory).
    said = coach("edge", "--bevel", "20", "--thickness", "6", "--edge", "1", "--json")
    assert said.part("section", "value") == pytest.approx(50.0)
    assert said.part("ground", "value") == pytest.approx(39.25)
    assert (
        "39.3 g for 100 mm of edge" in coach("edge", "--bevel", "20", "--thickness", "6", "--edge", "1").out
    )


def test_an_edge_is_told_beside_the_usual_angles(coach: Coach) -> None:
    usual = coach("edge", "--angle", "25", "--thickness", "4", "--json").part("usual")
    assert isinstance(usual, list)
    # A hatchet 20 to 30°, usual in the trade (from memory).
    assert usual[0]["tool"] == "hatchet"
    assert (usual[0]["low"]["value"], usual[0]["high"]["value"]) == (20, 30)


def test_an_eye_is_left_smaller_by_what_the_wood_will_shrink(coach: Coach) -> None:
    # 25 mm of pignut hickory along its rings loses 0.6176 mm from 12 to 6 %: Wood Handbook, FPL-GTR-190,
    # eq. 13-2 with table 4-3 (confirmed); 0.4 mm is left for the file (judgement).
    words = ("haft", "25x25", "--wood", "pignut hickory", "--moisture", "12", "--in-use", "6", "--json")
    along, across = coach(*words), coach(*words, "--rings", "width")
    assert along.part("hole_length", "value") == pytest.approx(25 - 0.61761 - 0.4)
    assert across.part("hole_width", "value") == pytest.approx(25 - 0.61761 - 0.4)
    # White ash, 0.4092 mm, likewise.
    ash = coach(
        "haft", "25x25", "--wood", "ash", "--moisture", "12", "--in-use", "6", "--spare", "0", "--json"
    )
    assert ash.part("hole_length", "value") == pytest.approx(25 - 0.40915)
    assert "Let the haft dry to 6 %" in str(ash.part("seat_when"))


def test_a_riven_haft_counts_where_it_is_smaller(coach: Coach) -> None:
    words = ("haft", "32x20", "--wood", "ash", "--natural", "31x21", "--json")
    # Half a millimetre tighter still for what lies between its two places (judgement).
    assert coach(*words).part("hole_length", "value") == pytest.approx(31 - 0.4 - 0.5)
    assert coach(*words).part("hole_width", "value") == pytest.approx(20 - 0.4 - 0.5)


def test_a_wedge_fills_the_flare_of_the_eye(coach: Coach) -> None:
    # An eye 50 mm deep is sawn 33 mm deep, and the wedge thins 1 in 6 (from memory): flare 2 and kerf 1.5
    # make a wedge 3.5 thick and 21 long.
    said = coach("haft", "32x20", "--wood", "ash", "--depth", "50", "--json")
    assert said.part("wedge", "kerf_depth", "value") == pytest.approx(33.3, abs=0.05)
    assert said.part("wedge", "thickness", "value") == pytest.approx(3.5)
    assert said.part("wedge", "length", "value") == pytest.approx(21.0)
    assert said.part("far_width", "value") == pytest.approx(20 - 0.4 + 2)
    thin = coach("haft", "32x20", "--wood", "ash", "--depth", "50", "--flare", "1", "--kerf", "2", "--json")
    assert thin.part("wedge", "thickness", "value") == pytest.approx(3.0)
    assert coach("haft", "32x20", "--wood", "ash", "--json").part("wedge") is None


def test_a_question_of_finish_needs_nothing_costly(coach: Coach) -> None:
    wanted = COSTLY | {"platformdirs", "sqlite3"}
    assert loaded_by("edge", "--angle", "25", "--thickness", "4") & wanted == set()
    assert loaded_by("bevel", "40x6", "1") & wanted == set()
    assert loaded_by("haft", "32x20", "--wood", "ash") & wanted == set()
