"""Every form's volume and surface against a solid built without its formulae."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import trimesh
from shapely import affinity
from shapely.geometry import Point, Polygon, box

from coach.forms import Form, kinds
from coach.forms.eyed import Eyed
from coach.forms.profile import Profile
from coach.forms.row_of_holes import COUNTS
from tests.forms.solids import (
    FACETS,
    MESH_TOLERANCE,
    frustum_corners,
    hole_polygon,
    hull,
    pierced_block,
    revolved,
    surface_mm2,
    swept_rectangle,
)
from tests.made import make


def agrees(form: Form, solid: tuple[float, float], tolerance: float = 1e-9) -> None:
    """The form has the solid's volume and area."""
    volume, area = solid
    assert form.volume_mm3() == pytest.approx(volume, rel=tolerance)
    assert surface_mm2(form) == pytest.approx(area, rel=tolerance)


def measures(mesh: trimesh.Trimesh) -> tuple[float, float]:
    """A mesh's volume and area."""
    assert mesh.is_watertight
    return float(mesh.volume), float(mesh.area)


def test_a_flat_is_a_box() -> None:
    agrees(
        make("flat", {"width": 40, "thickness": 8, "length": 130}),
        measures(trimesh.creation.box((40, 8, 130))),
    )


def test_a_square_is_a_box() -> None:
    agrees(make("square", {"side": 16, "length": 90}), measures(trimesh.creation.box((16, 16, 90))))


def test_a_round_is_a_cylinder() -> None:
    cylinder = trimesh.creation.cylinder(radius=9.5, height=120, sections=FACETS)
    agrees(make("round", {"diameter": 19, "length": 120}), measures(cylinder), MESH_TOLERANCE)


def test_an_octagon_is_a_square_with_its_corners_taken_off() -> None:
    inset = 25 / 2 - 25 / (2 + 2**0.5)  # eight equal sides: the corner cut leaves 25/(1 + √2)
    edge = [(x, y) for x in (-12.5, 12.5) for y in (-inset, inset)]
    edge += [(y, x) for x, y in edge]
    octagon = make("octagon", {"across_flats": 25, "length": 70})
    assert len(set(edge)) == 8
    agrees(octagon, hull([(z, x, y) for z in (0, 70) for x, y in edge]))


def test_a_hexagon_is_where_three_strips_cross() -> None:
    # Three strips as wide as the bar, turned by a third of half a turn: their common part, by shapely alone.
    strip = box(-100, -12.5, 100, 12.5)
    across = strip & affinity.rotate(strip, 60, (0, 0)) & affinity.rotate(strip, 120, (0, 0))
    corners = list(across.exterior.coords)[:-1]
    hexagon = make("hexagon", {"across_flats": 25, "length": 70})
    assert len(corners) == 6
    agrees(hexagon, hull([(z, x, y) for z in (0, 70) for x, y in corners]))
    assert across.symmetric_difference(Polygon(hexagon.section(0).outline)).area == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("start", "finish", "length"),
    [((30, 10), (50, 3), 80), ((20, 20), (8, 8), 60), ((12, 25), (30, 6), 15), ((40, 8), (40, 1), 55)],
)
def test_a_taper_is_the_hull_of_its_ends(
    start: tuple[float, float], finish: tuple[float, float], length: float
) -> None:
    sizes = {"width": start[0], "thickness": start[1], "end_width": finish[0], "end_thickness": finish[1]}
    agrees(make("taper", {**sizes, "length": length}), hull(frustum_corners(start, finish, 0, length)))


def test_a_taper_to_an_edge_is_a_wedge() -> None:
    agrees(kinds()["taper"](30, 20, 50, 0, 60), hull(frustum_corners((30, 20), (50, 0), 0, 60)))


@pytest.mark.parametrize(("start", "finish", "length"), [(20, 12, 50), (8, 30, 20)])
def test_a_round_taper_is_a_turned_trapezoid(start: float, finish: float, length: float) -> None:
    form = make("round taper", {"diameter": start, "end_diameter": finish, "length": length})
    agrees(form, revolved([(0, 0), (start / 2, 0), (finish / 2, length), (0, length)]), MESH_TOLERANCE)


def test_a_ring_is_an_annulus() -> None:
    annulus = trimesh.creation.annulus(r_min=38, r_max=51, height=13, sections=FACETS)
    form = make("ring", {"outer_diameter": 102, "inner_diameter": 76, "thickness": 13})
    agrees(form, measures(annulus), MESH_TOLERANCE)


def test_a_round_ring_is_a_torus() -> None:
    torus = trimesh.creation.torus(major_radius=56, minor_radius=6, major_sections=FACETS, minor_sections=360)
    agrees(make("round ring", {"inner_diameter": 100, "diameter": 12}), measures(torus), 2 * MESH_TOLERANCE)


@pytest.mark.parametrize(
    ("mouth", "end", "wall", "length"), [(32, 18, 3, 100), (30, 30, 2.5, 60), (20, 36, 4, 25)]
)
def test_a_socket_is_a_turned_parallelogram(mouth: float, end: float, wall: float, length: float) -> None:
    form = make("socket", {"mouth_diameter": mouth, "end_diameter": end, "wall": wall, "length": length})
    turned = [(mouth / 2 - wall, 0), (mouth / 2, 0), (end / 2, length), (end / 2 - wall, length)]
    agrees(form, revolved(turned), MESH_TOLERANCE)


def test_a_profile_is_its_stretches_set_end_to_end() -> None:
    # A hammer head's half, say: face, neck, cheek, peen to an edge.
    stations = ((0.0, 0.8, 0.9), (0.2, 0.6, 0.7), (0.5, 1.0, 1.0), (0.8, 0.5, 0.4), (1.0, 0.9, 0.0))
    form = Profile(110, 32, 28, stations)
    assert form.faults() == []
    volume = area = 0.0
    for (at, width, thickness), (to, end_width, end_thickness) in pairwise(stations):
        start, finish = (32 * width, 28 * thickness), (32 * end_width, 28 * end_thickness)
        part, skin = hull(frustum_corners(start, finish, 110 * at, 110 * to))
        volume, area = volume + part, area + skin
        if to < 1.0:
            area -= 2 * finish[0] * finish[1]  # the face between two stretches is inside the metal
    agrees(form, (volume, area))


@pytest.mark.parametrize(("width", "thickness", "turn"), [(10, 10, 50), (30, 6, 80), (12, 12, 25)])
def test_a_twisted_bar_is_its_section_turned_as_it_is_swept(
    width: float, thickness: float, turn: float
) -> None:
    form = make("twisted bar", {"width": width, "thickness": thickness, "turn": turn, "length": 100})
    wide, thick = (max(point[axis] for point in form.section(0).outline) for axis in (0, 1))
    agrees(form, measures(swept_rectangle(2 * wide, 2 * thick, turn, 100)), 3e-4)


@pytest.mark.parametrize(("sizes", "turn"), [((12, 12, 7, 7), 35), ((20, 8, 10, 6), 60)])
def test_a_twisted_taper_is_its_narrowing_section_turned_as_it_is_swept(
    sizes: tuple[float, ...], turn: float
) -> None:
    names = ("width", "thickness", "end width", "end thickness")
    form = make("twisted taper", {**dict(zip(names, sizes, strict=True)), "turn": turn, "length": 100})
    (wide, thick), end = _across(form, 0.0), _across(form, 100.0)  # as they have swollen
    agrees(form, measures(swept_rectangle(wide, thick, turn, 100, end)), 3e-3)


def _across(form: Form, at: float) -> tuple[float, float]:
    """The sides of its section, turned back."""
    x, y = form.section(at).outline[2]
    point = (x + 1j * y) * np.exp(-2j * np.pi * at / form.size_mm("turn"))
    return 2 * abs(point.real), 2 * abs(point.imag)


@pytest.mark.parametrize(("sides", "edge_at"), [("both", (-0.75, 0.75)), ("one", (-3.0, -1.5))])
def test_a_side_bevel_is_the_hull_of_its_corners(sides: str, edge_at: tuple[float, float]) -> None:
    sizes = {"width": 40, "thickness": 6, "reach": 18, "edge": 1.5, "length": 90}
    # By hand: the back at -20 and the bevel's root at 2, both 6 thick, the edge at 20; on one side it lies in
    # the lower face.
    corners = [(-20, -3), (-20, 3), (2, -3), (2, 3), *((20, y) for y in edge_at)]
    agrees(
        make("side bevel", sizes, {"sides": sides}), hull([(z, x, y) for z in (0, 90) for x, y in corners])
    )


@pytest.mark.parametrize(("heads", "far"), [("two", [(7, 16), (4, 21.5)]), ("one", [])])
def test_a_rivet_is_a_turned_outline(heads: str, far: list[tuple[float, float]]) -> None:
    sizes = {"diameter": 8, "grip": 10.5, "head diameter": 14, "head height": 5.5}
    shank = [(0.0, 0.0), (4.0, 0.0), (7.0, 5.5), (4.0, 5.5), (4.0, 16.0)]
    outline = [*shank, *far]
    form = make("rivet", sizes, {"heads": heads})
    agrees(form, revolved([*outline, (0, outline[-1][1])]), MESH_TOLERANCE)


EYES = [
    ("slot", (38, 12), (38, 12)),
    ("slot", (38, 12), (34, 9)),
    ("slot", (12, 30), (10, 26)),
    ("oval", (32, 20), (32, 20)),
    ("oval", (32, 20), (28, 17)),
    ("oval", (20, 26), (22, 26)),
    ("round", (22, 22), (22, 22)),
    ("round", (22, 22), (18, 18)),
    ("rectangle", (24, 14), (24, 14)),
    ("rectangle", (24, 14), (20, 10)),
    ("teardrop", (36, 20), (36, 20)),
    ("teardrop", (36, 20), (32.4, 18)),
    ("teardrop", (38, 18), (33, 17)),
]


@pytest.mark.parametrize("through", ["thickness", "width"])
@pytest.mark.parametrize(("shape", "near", "far"), EYES)
def test_an_eyed_zone_is_a_pierced_block(
    shape: str, near: tuple[float, float], far: tuple[float, float], through: str
) -> None:
    across, depth, length = 40, 34, 48
    sizes = {
        "width": across if through == "thickness" else depth,
        "thickness": depth if through == "thickness" else across,
        "length": length,
        "hole_length": near[0],
        "hole_width": near[1],
        "far_hole_length": far[0],
        "far_hole_width": far[1],
    }
    form = make("eyed", sizes, {"hole": shape, "through": through})
    assert isinstance(form, Eyed)
    agrees(form, pierced_block(across, depth, length, shape, near, far), MESH_TOLERANCE)


@pytest.mark.parametrize(("shape", "near", "far"), [eye for eye in EYES if eye[1] != eye[2]])
def test_the_wall_of_a_steeply_tapered_hole(
    shape: str, near: tuple[float, float], far: tuple[float, float]
) -> None:
    # A shallow block makes the taper steep, 20° and more, so that the slope of the wall counts.
    sizes = {"width": 40, "thickness": 6, "length": 48, "hole_length": near[0], "hole_width": near[1]}
    sizes |= {"far_hole_length": far[0], "far_hole_width": far[1]}
    form = make("eyed", sizes, {"hole": shape})
    agrees(form, pierced_block(40, 6, 48, shape, near, far), 2 * MESH_TOLERANCE)


@pytest.mark.parametrize(("count", "diameter"), [("two", 7.0), ("three", 12.0), ("eight", 5.5)])
def test_a_row_of_holes_is_cut_out_of_its_bar(count: str, diameter: float) -> None:
    width, thick, length = 38.0, 5.5, 120.0
    number = COUNTS.index(count) + 2
    plate = box(0, -width / 2, length, width / 2)
    for hole in range(number):
        plate = plate.difference(Point((hole + 0.5) * length / number, 0).buffer(diameter / 2, FACETS // 4))
    solid = (
        plate.area * thick,
        2 * plate.area + plate.length * thick,
    )  # faces and all edges
    sizes = {"width": width, "thickness": thick, "length": length, "hole_diameter": diameter}
    form = make("pierced bar", sizes, {"holes": count})
    agrees(form, solid, MESH_TOLERANCE)


@pytest.mark.parametrize("shape", ["rectangle", "slot", "oval"])
@pytest.mark.parametrize(("count", "long", "wide"), [("two", 9.0, 5.0), ("four", 6.0, 12.0)])
def test_a_row_of_oblong_holes_is_cut_out_of_its_bar(
    shape: str, count: str, long: float, wide: float
) -> None:
    width, thick, length = 38.0, 5.5, 120.0
    number = COUNTS.index(count) + 2
    plate = box(0, -width / 2, length, width / 2)
    for hole in range(number):
        outline = affinity.translate(hole_polygon(shape, long, wide), (hole + 0.5) * length / number)
        plate = plate.difference(outline)
    solid = (plate.area * thick, 2 * plate.area + plate.length * thick)
    sizes = {"width": width, "thickness": thick, "length": length, "hole_length": long, "hole_width": wide}
    agrees(make("slotted bar", sizes, {"holes": count, "hole": shape}), solid, MESH_TOLERANCE)


def test_a_disc_is_a_low_cylinder() -> None:
    cylinder = trimesh.creation.cylinder(radius=48, height=2.5, sections=FACETS)
    agrees(make("disc", {"diameter": 96, "thickness": 2.5}), measures(cylinder), MESH_TOLERANCE)


@pytest.mark.parametrize(("across", "depth", "wall"), [(88, 26, 2.1), (60, 27, 3.0), (120, 8, 4.0)])
def test_a_bowl_is_a_turned_crescent(across: float, depth: float, wall: float) -> None:
    # The circle through both ends of the rim and the bottom, and one a wall smaller about the same middle,
    # both cut at the rim: by points alone.
    high = depth + wall
    outer = (across**2 / 4 + high**2) / (2 * high)
    inner, rim = outer - wall, outer - high
    turns = np.linspace(0, 1, 240)
    outside = [(outer * np.sin(one), -outer * np.cos(one)) for one in turns * np.arccos(rim / outer)]
    inside = [(inner * np.sin(one), -inner * np.cos(one)) for one in turns * np.arccos(rim / inner)]
    form = make("bowl", {"across": across, "depth": depth, "wall": wall})
    agrees(form, revolved([*outside, *reversed(inside)]), MESH_TOLERANCE)
