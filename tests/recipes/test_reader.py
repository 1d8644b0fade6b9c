"""What a sound recipe file becomes.

Sizes and limits are those written in the file; the limits of bare sizes are the table of docs/recipes.md
(common practice, no source).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.operations import Shape
from coach.quantities import Limits
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Loss, Piece, Recipe, Scale, Stock
from coach.recipe.reader import read_recipe, read_recipe_file
from coach.recipe.tree import read_plain
from tests.recipes.texts import HAMMER, PIN, WEDGE


@pytest.fixture(scope="module")
def hammer() -> Recipe:
    return read_recipe(HAMMER, "hammer.yaml")


def limits(low: float, nominal: float, high: float, *, stated: bool = True) -> Limits:
    return Limits(nominal, low, high, stated)


def test_the_head_of_the_file_is_kept(hammer: Recipe) -> None:
    assert hammer.title == "Riveter's hammer"
    assert hammer.name == "riveters-hammer"
    assert hammer.forge == "Tarn End Forge"
    assert hammer.summary == "A small hammer: iron body, steel face."
    assert hammer.duration == "two days"
    assert hammer.system == "mm"
    assert hammer.tools == ("slot punch", "oval drift")
    assert hammer.scale == Scale(forging_mm=0.05, welding_mm=0.1, doubt_share=0.3)
    assert hammer.mark_doubt_mm == 0.5
    assert hammer.source == "hammer.yaml"
    assert hammer.text == HAMMER


def test_a_piece_has_its_metal_its_stock_and_its_zones_in_order(hammer: Recipe) -> None:
    stock = Stock(Shape("square"), {"side": 30.0}, length_mm=400.0, doubt_share=0.01)
    assert hammer.pieces["body"] == Piece("body", "wrought iron", stock, ("poll", "eye", "peen"))


def test_a_piece_that_names_no_zones_is_one_zone_of_its_own_name(hammer: Recipe) -> None:
    assert hammer.pieces["face"].zones == ("face",)
    assert hammer.drawing["face"].piece == "face"


def test_a_metal_is_known_by_its_alias_and_kept_by_its_name() -> None:
    text = PIN.replace("mild steel", "AISI 1045")
    assert read_recipe(text, "pin.yaml").pieces["pin"].metal == "C45"


def test_stated_limits_are_kept_and_bare_sizes_take_the_usual_ones(hammer: Recipe) -> None:
    eye = hammer.drawing["eye"]
    assert eye.limits["width"] == limits(30.0, 32.0, 34.0)
    assert eye.limits["thickness"] == limits(26.6, 28.0, 29.4, stated=False)  # ±5 %
    assert hammer.drawing["face"].limits["length"] == limits(26.5, 28.0, 29.5, stated=False)  # ±1.5 mm


def test_a_size_left_unsaid_takes_size_and_limits_of_the_one_it_goes_with(hammer: Recipe) -> None:
    eye = hammer.drawing["eye"]
    assert eye.limits["far_hole_length"] == eye.limits["hole_length"]
    assert tuple(eye.limits) == eye.shape.dimensions


def test_the_choices_of_a_form_and_the_take_up_are_kept(hammer: Recipe) -> None:
    eye = hammer.drawing["eye"]
    assert eye.shape == Shape("eyed", {"hole": "oval", "through": "thickness"})
    assert eye.take_up == ("width", "length")
    assert eye.allowance_share == 0.02


def test_the_take_up_is_the_usual_free_dimension_when_nothing_is_said(hammer: Recipe) -> None:
    assert hammer.drawing["peen"].take_up == ("length",)


def test_steps_are_numbered_from_one_and_titled_by_what_they_do(hammer: Recipe) -> None:
    assert [(step.number, step.title) for step in hammer.steps] == [
        (1, "Mark out the body"),
        (2, "Punch the eye"),
        (3, "Drift the eye"),
        (4, "Draw the poll"),
        (5, "Taper the peen"),
        (6, "Draw the face"),
        (7, "Tack the poll"),
        (8, "Weld the face on the poll"),
        (9, "Harden the poll"),
        (10, "Temper the poll"),
    ]


def test_a_mark_out_works_on_all_zones_of_its_piece_and_checks_their_marks(hammer: Recipe) -> None:
    mark_out = hammer.steps[0]
    assert mark_out.zones == ("poll", "eye", "peen")
    assert mark_out.checks == ("poll.mark", "eye.mark", "peen.mark")
    assert mark_out.heats == 0


def test_a_punch_has_its_sizes_its_slug_its_heats_and_its_words(hammer: Recipe) -> None:
    punch = hammer.steps[1]
    assert punch.shape == Shape("eyed", {"hole": "slot", "through": "thickness"})
    assert punch.targets == {
        "hole_length": limits(19.4, 20.0, 20.6, stated=False),  # ±3 %
        "hole_width": limits(7.5, 8.0, 8.5, stated=False),  # ±0.5 mm
    }
    assert punch.amounts == {"slug_mm": 6.0}
    assert punch.heats == 4
    assert punch.colour == "light orange"
    assert punch.temperature_c == 941.0  # White and Taylor: 1725 °F
    assert punch.how == "Go half through.\nTurn it over."
    assert punch.watch == "The punch sticks."
    assert punch.checks == ("eye.hole_length", "eye.hole_width")


def test_to_drawing_asks_for_the_shape_and_every_size_of_the_drawing(hammer: Recipe) -> None:
    drift = hammer.steps[2]
    assert drift.shape == hammer.drawing["eye"].shape
    assert drift.targets == hammer.drawing["eye"].limits
    assert drift.free == "width"
    assert drift.checks == ("eye.width", "eye.hole_length", "poll.side")
    assert drift.gauge == "rule"


def test_the_drawing_may_be_asked_for_in_words_and_its_form_named_beside_it(hammer: Recipe) -> None:
    text = HAMMER.replace("drift: eye,", "drift: eye, eyed, to the drawing,")
    assert read_recipe(text, "hammer.yaml").steps == hammer.steps


def test_a_profile_may_be_worked_towards_with_the_stations_of_its_drawing() -> None:
    text = WEDGE.replace("draw: wedge", "draw: wedge, profile, thick 26, wide 50")
    recipe = read_recipe(text, "x")
    assert recipe.steps[0].shape == recipe.drawing["wedge"].shape


def test_a_step_that_names_no_form_keeps_the_shape(hammer: Recipe) -> None:
    assert hammer.steps[3].shape is None
    assert hammer.steps[3].heated == ("poll", "eye")


def test_a_checkpoint_asks_the_free_dimension_last_and_no_size_twice() -> None:
    text = PIN.replace("taper: pin", "taper: pin, long 100, end diameter 6, diameter 12")
    assert read_recipe(text, "x").steps[0].checks == ("pin.end_diameter", "pin.diameter", "pin.length")
    eyed = HAMMER.replace("    check: width, hole length, poll.side\n", "")
    assert read_recipe(eyed, "x").steps[2].checks == (
        "eye.thickness",
        "eye.length",
        "eye.hole_length",
        "eye.hole_width",
        "eye.width",
    )


def test_an_empty_checkpoint_asks_for_nothing() -> None:
    for nothing in ("none", "[]"):
        assert read_recipe(f"{PIN}    check: {nothing}\n", "x").steps[0].checks == ()


@pytest.mark.parametrize(
    ("written", "loss"),
    [
        ("5 g", Loss(mass_g=5.0)),
        ("1 oz", Loss(mass_g=28.349523125)),  # avoirdupois ounce, 1959 agreement
        ("2 %", Loss(share=0.02)),
        ("3 mm", Loss(length_mm=3.0)),
        ("3/8 in", Loss(length_mm=9.525)),  # international inch, 25.4 mm
    ],
)
def test_a_loss_is_a_mass_a_share_or_a_length(written: str, loss: Loss) -> None:
    text = PIN.replace("taper: pin", f"taper: pin, loses {written}")
    assert read_recipe(text, "x").steps[0].loses == loss


def test_a_weld_lays_a_zone_of_another_piece_and_heats_both(hammer: Recipe) -> None:
    weld = hammer.steps[7]
    assert weld.zones == ("poll",)
    assert weld.lays == "face"
    assert weld.heated == ("poll", "face")
    assert weld.heat_kind == "welding"
    assert weld.amounts == {"squeeze_share": 0.02}


def test_the_caution_of_an_operation_comes_before_those_of_the_recipe(hammer: Recipe) -> None:
    first, *_, last = hammer.steps[7].cautions
    assert first.startswith("Flux and scale spray")
    assert last == "Nobody stands in line."


def test_a_caution_that_is_repeated_stands_once_in_the_place_it_was_given() -> None:
    draw = "Hot scale flies: eyes and arms covered"
    text = PIN.replace("taper: pin", f"draw: pin\n    caution: ['It is heavy.', '{draw}']")
    told = read_recipe(text, "x").steps[0].cautions
    assert told[-2:] == ("It is heavy.", draw)
    assert sum("Hot scale" in caution for caution in told) == 1


def test_a_usual_caution_within_a_longer_one_of_the_recipe_is_not_told_twice() -> None:
    longer = "What burns at once: Hot scale flies: eyes and arms covered. It is heavy."
    text = PIN.replace("taper: pin", f"draw: pin\n    caution: ['{longer}']")
    told = read_recipe(text, "x").steps[0].cautions
    assert told[-1] == longer
    assert sum("Hot scale" in caution for caution in told) == 1


def test_there_is_no_rest_between_a_quench_and_its_temper_or_on_a_tack(hammer: Recipe) -> None:
    may_rest = {step.operation: step.may_rest for step in hammer.steps}
    assert not may_rest["harden"]
    assert not may_rest["tack"]
    assert may_rest["weld"]
    assert not may_rest["temper"]  # the recipe says rest: no
    assert may_rest["drift"]


def test_work_in_between_does_not_make_a_quenched_edge_safe() -> None:
    steps = HAMMER.replace("  - temper", "  - inspect: eye\n  - temper")
    assert not read_recipe(steps, "x").steps[9].may_rest


def test_keys_take_blanks_underscores_hyphens_and_capitals_alike(hammer: Recipe) -> None:
    other = HAMMER.replace("oval hole:", "Oval_hole:").replace("takes up:", "takes-up:")
    assert read_recipe(other, "hammer.yaml").drawing == hammer.drawing


def test_trade_words_take_blanks_underscores_and_capitals_alike() -> None:
    other = HAMMER.replace("mark out", "Mark_out").replace("gauge: rule", "gauge: Rule")
    assert read_recipe(other, "x").steps[0].operation == "mark out"


def test_bare_sizes_are_inches_where_the_file_says_so() -> None:
    text = PIN.replace("recipe:", "units: in\nrecipe:").replace("round 12\n", "round 1/2\n")
    text = text.replace("round 12 to 6 ±0.5, long 100", "round 1/2 in to 1/4 ±1/32 in, long 100").replace(
        "±3", "±3 mm"
    )
    recipe = read_recipe(text, "pin.yaml")
    assert recipe.system == "in"
    assert recipe.pieces["pin"].stock.sizes_mm == {"diameter": 12.7}
    assert recipe.drawing["pin"].limits["end_diameter"] == limits(5.55625, 6.35, 7.14375)
    assert recipe.drawing["pin"].limits["length"] == limits(97.0, 100.0, 103.0)


def test_no_scale_at_all_can_be_asked_for() -> None:
    text = PIN.replace("recipe:", "scale: none\nrecipe:")
    assert read_recipe(text, "x").scale == Scale(0.0, 0.0, 0.0, 0.0, 0.0)


def test_angles_take_degrees_and_other_measured_things_their_own_limits() -> None:
    text = PIN + "  - bend: pin, angle 90, radius 20 ±2\n"
    bend = read_recipe(text, "x").steps[1]
    assert bend.targets == {"angle": limits(88.0, 90.0, 92.0, stated=False), "radius": limits(18, 20, 22)}
    assert bend.shape is None
    assert bend.gauge == "template"


def test_a_profile_is_drawn_from_stations_up_to_its_length() -> None:
    profile = "profile 12 x 12, then 14 x 12 at 40, then 7 x 3 at 100"
    text = PIN.replace("round 12 to 6 ±0.5", profile).replace("bar: round", "bar: square")
    text = text.replace("taper: pin", "draw: pin")
    drawing = read_recipe(text, "x").drawing["pin"]
    assert drawing.limits["length"] == limits(97.0, 100.0, 103.0)
    assert drawing.limits["width"] == limits(13.0, 14.0, 15.0, stated=False)  # the widest station, ±1 mm
    assert drawing.shape.stations == ((0.0, 12 / 14, 1.0), (0.4, 1.0, 1.0), (1.0, 0.5, 0.25))


def test_cold_work_needs_no_heats_though_its_operation_has_some() -> None:
    text = PIN + "  - straighten: pin, cold\n"
    assert read_recipe(text, "x").steps[1].heats == 0


def test_a_temper_colour_is_not_looked_up_among_the_heat_colours(hammer: Recipe) -> None:
    temper = hammer.steps[9]
    assert (temper.colour, temper.temperature_c) == ("dark straw", None)


def test_a_colour_with_its_temperature_may_be_any_colour() -> None:
    text = PIN.replace("taper: pin", "taper: pin, at hay, at 1093 °C")
    step = read_recipe(text, "x").steps[0]
    assert step.colour == "hay"
    assert step.temperature_c == 1093.0


@pytest.mark.parametrize(
    ("title", "source", "name"),
    [
        ("Carpenter's adze", "x.yaml", "carpenters-adze"),
        ("Überlange Säge 2", "x.yaml", "uberlange-sage-2"),
        ("斧", "/shop/Small axe.yaml", "small-axe"),
        ("斧", "斧.yaml", "recipe"),
    ],
)
def test_the_short_name_comes_from_the_title_or_else_the_file(title: str, source: str, name: str) -> None:
    assert read_recipe(PIN.replace("Drift pin", title), source).name == name


def test_a_file_with_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    path = tmp_path / "pin.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + PIN.encode())
    recipe = read_recipe_file(path)
    assert recipe.title == "Drift pin"
    assert recipe.source == str(path)
    assert recipe.text == PIN


def test_line_ends_of_other_systems_are_read(tmp_path: Path) -> None:
    path = tmp_path / "pin.yaml"
    path.write_bytes(PIN.replace("\n", "\r\n").encode())
    assert read_recipe_file(path).drawing == read_recipe(PIN, "x").drawing


def test_a_file_that_is_not_utf_8_is_refused_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "pin.yaml"
    path.write_bytes(b"\xef\xbb\xbf" + PIN.encode("latin-1"))
    with pytest.raises(RecipeFaults) as refused:
        read_recipe_file(path)
    (fault,) = refused.value.faults
    line, row = next((n, row) for n, row in enumerate(PIN.splitlines(), 1) if "±" in row)
    assert (fault.line, fault.column) == (line, row.index("±") + 1)
    assert f"byte {3 + PIN.index('±')} (0xB1)" in str(fault.message)
    assert "UTF-8" in str(fault.message)


def test_a_missing_file_and_a_folder_are_refused_plainly(tmp_path: Path) -> None:
    with pytest.raises(RecipeFaults, match="there is no such file"):
        read_recipe_file(tmp_path / "none.yaml")
    with pytest.raises(RecipeFaults, match="folder"):
        read_recipe_file(tmp_path)
    with pytest.raises(RecipeFaults, match="name"):
        read_recipe_file(tmp_path / "a\0b.yaml")


def test_the_tree_is_mappings_lists_and_text_alone() -> None:
    def plain(part: object) -> bool:
        if isinstance(part, dict):
            return all(isinstance(key, str) and plain(value) for key, value in part.items())
        return all(map(plain, part)) if isinstance(part, list) else isinstance(part, str)

    tree = read_plain(HAMMER, "hammer.yaml").tree
    assert plain(tree)
    assert tree["pieces"]["body"]["zones"]["peen"] == "28 x 28 to 28 x 6 ±1, long 60 ±3"  # type: ignore[index]


def test_a_thickness_asked_of_a_ring_leaves_it_a_ring() -> None:
    text = """
recipe: Band
pieces:
  band:
    metal: mild steel
    bar: 6 x 25
    size: ring, outside 108, inside 96, thick 25
steps:
  - bend: band, ring, inside 96, thick 25
  - weld shut: band, thick 25
"""
    assert read_recipe(text, "band.yaml").steps[1].shape is None
