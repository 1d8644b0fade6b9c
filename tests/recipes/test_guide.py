"""The guide to recipes tells every operation, form and name there is, and its example reckons as it says."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS
from coach.forms import listed, said
from coach.ledger.looking_back import look_back
from coach.ledger.working import USUAL_HEATS, face_loss_mm
from coach.operations import operations
from coach.operations.does import Cause, HeatKind
from coach.operations.gauges import GAUGES
from coach.operations.measures import MEASURED
from coach.quantities import Kind
from coach.recipe.keys import PIECE, RECIPE, SCALE, STEP, USUAL, ZONE
from coach.recipe.model import Recipe, Scale
from coach.recipe.naming import named
from coach.recipe.reader import read_recipe
from coach.recipe.says import Part
from coach.recipe.shapes import bar_kinds
from coach.recipe.sizes import DEFAULT_LIMITS
from coach.recipe.spelling import ADVICE

DOCS = Path(__file__).parents[2] / "docs"
GUIDE, WORDS = ((DOCS / name).read_text(encoding="utf-8") for name in ("recipes.md", "words.md"))


def section(title: str) -> str:
    found = re.search(rf"^##+ {title}\n(.*?)(?=^##+ |\Z)", GUIDE, re.MULTILINE | re.DOTALL)
    assert found, title
    return found[1]


def table(title: str) -> dict[str, list[str]]:
    rows = [
        re.split(r"\s*\|\s*", row.strip())[1:-1] for row in section(title).splitlines() if row.startswith("|")
    ]
    return {name: cells for names, *cells in rows for name in re.findall(r"`([^`]+)`", names)}


def names_of(cell: str) -> set[str]:
    return set(re.findall(r"`([^`]+)`", cell))


@pytest.fixture(scope="module")
def example() -> Recipe:
    found = re.search(r"<!-- example -->\n```yaml\n(.*?)```", GUIDE, re.DOTALL)
    assert found
    return read_recipe(found[1], "guide")


@pytest.mark.parametrize("part", [RECIPE, USUAL, SCALE, PIECE, ZONE, STEP], ids=lambda part: part.name)
def test_every_name_of_the_format_is_told_among_the_words(part: Part) -> None:
    told = set(re.findall(r"`([^`]+)`", WORDS))
    holes = {name for name in part.keys if name.endswith("hole")}
    assert {said(name) for name in part.keys.keys() - holes} <= told


def test_every_word_that_stands_below_a_step_alone_is_told_by_the_guide() -> None:
    assert set(ADVICE) <= table("Steps").keys()


def test_every_amount_that_an_operation_takes_is_told_by_the_guide() -> None:
    told = re.findall(r"`([a-z ]+) [\d.]+(?: %| mm| g)?`", section("Steps"))
    amounts = {name for todo in operations().values() for name in todo.AMOUNTS}
    assert amounts <= {named()[word].name for word in told if word in named()}


def test_every_bar_gauge_heat_and_colour_is_told() -> None:
    assert "(words.md#forms)" in section("The line of a zone")
    assert f"A bar, as stock is, is {listed(bar_kinds(), 'or')}." in WORDS
    assert f"{listed(GAUGES, 'or')}" in section("Steps")
    assert f"{listed(HeatKind, 'or')}: decides" in section("Steps")
    for colour in HEAT_COLOURS.table().colours:
        assert any(word in section("Steps") for word in (colour.name, *colour.aliases))


def test_the_limits_of_bare_sizes_are_the_ones_told() -> None:
    rows = [row for row in section("Sizes").splitlines() if "±" in row and " or ±" in row]
    told: dict[str, tuple[float, float]] = {}
    for row in rows:
        names, limits = re.split(r"\s*\|\s*", row.strip())[1:3]
        at_least, share = re.findall(r"±([\d.]+)", limits)
        told |= {name.strip(): (float(at_least), float(share) / 100) for name in names.split(",")}
    for name, margin in DEFAULT_LIMITS.items():
        assert told[said(name)] == (margin.at_least, margin.share)


def test_the_losses_to_scale_are_the_ones_told() -> None:
    usual = Scale()
    told = {name: cells[:3] for name, cells in _scale_rows().items()}
    assert told.pop("cold") == ["", "", "none"]
    assert told == {
        kind: [f"{heat.temperature_c:g} °C", f"{heat.minutes:g}", f"{face_loss_mm(usual, kind):.3f} mm"]
        for kind, heat in USUAL_HEATS.items()
    }
    shares = [f"{share:.0%}".replace("%", " %") for share in (usual.fire_share, usual.doubt_share)]
    assert f"`fire`, {shares[0]} unless said" in section("Scale")
    assert f"{shares[1]} unless said" in section("Scale")


def _scale_rows() -> dict[str, list[str]]:
    rows = [
        re.split(r"\s*\|\s*", row.strip())[1:-1]
        for row in section("Scale").splitlines()
        if row.startswith("|")
    ]
    return {name: cells for name, *cells in rows if name in set(HeatKind)}


def test_the_example_comes_out_as_it_is_worked_by_hand(example: Recipe) -> None:
    plan = look_back(example)
    # Frustum: the mensuration of the cone (Kern & Bland, Solid Mensuration, 1938, from memory).
    finished = math.pi * 100 / 12 * (12**2 + 12 * 6 + 6**2)
    section_mm2 = math.pi / 4 * 12**2
    bare_after = math.pi * 9 * math.hypot(100, 3) + math.pi / 4 * (12**2 + 6**2)
    length = (finished + 0.03 * (2 * section_mm2 + bare_after)) / (section_mm2 - 0.03 * math.pi * 12)
    (cut,) = plan.cuts
    assert cut.length.value == pytest.approx(length, abs=1e-4)
    assert plan.pieces["pin"].length.value == pytest.approx(length + 1.5, abs=1e-4)


def test_the_figures_of_the_example_are_the_ones_reckoned(example: Recipe) -> None:
    plan = look_back(example)
    worked = section("A small recipe, and its arithmetic")
    (cut,) = plan.cuts
    taper = plan.by_step[2]["pin"]
    scale = taper.taken_mm3[Cause.SCALE]
    assert f"**{plan.wanted_mm3['pin']:.1f} mm³**" in worked
    assert f"**{cut.length.value:.1f} mm**" in worked
    assert f"**{plan.pieces['pin'].length.value:.1f} mm**" in worked
    assert f"{plan.pieces['pin'].mass.value:.0f} g of it" in worked
    assert f"{cut.short_by.value:.1f} mm short" in worked
    assert f"The scale took {scale:.1f} mm³, or {scale / taper.before_mm3 * 100:.1f} %" in worked


def test_every_piece_of_recipe_in_the_guide_is_yaml_that_can_be_read() -> None:
    from coach.recipe.tree import read_plain

    blocks = re.findall(r"```yaml\n(.*?)```", GUIDE, re.DOTALL)
    assert len(blocks) >= 5
    for block in blocks:
        plain = read_plain(block, "guide")
        assert plain.findings.found == []


def test_the_limits_of_heat_and_hardness_are_the_ones_told() -> None:
    rows = table("Heat treatment and other figures")
    assert rows.keys() == {kind.value for kind in MEASURED.keys() - {Kind.LENGTH, Kind.MASS, Kind.TEST}}
    for kind in (Kind.ANGLE, Kind.TEMPERATURE, Kind.HARDNESS):
        assert f"±{MEASURED[kind].margin.at_least:g}" in rows[kind.value][2]
        assert f"{MEASURED[kind].doubt:g}" in rows[kind.value][3]
    assert f"±{MEASURED[Kind.TIME].margin.share * 100:g} %" in rows["time"][2]
    assert f"{COLOUR_DOUBT_C:g} °C by heat colour" in rows["temperature"][3]
