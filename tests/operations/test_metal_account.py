"""Every operation's metal account: nothing appears, and what goes is told by its cause."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coach.forms import Form, FormError
from coach.operations import Operation, Shape, Work, names_of, operation, operations
from coach.operations.does import Cause
from tests.forms.samples import bowls, eyed_forms, forms, pierced_bars
from tests.made import make, options_of

FLOWING = sorted(name for name, todo in operations().items() if not todo.FIXES)
FIXING = sorted(name for name, todo in operations().items() if todo.FIXES)
#: What each operation takes by itself, stated as nothing.
TAKES_NOTHING: Mapping[str, Mapping[str, float]] = {
    "punch": {"slug_mm": 0.0},
    "pierce": {"slug_mm": 0.0},
    "weld": {"squeeze_share": 0.0},
    "weld shut": {"squeeze_share": 0.0},
}


def shape_of(form: Form) -> Shape:
    return Shape(form.KIND, options_of(form), getattr(form, "stations", ()))


def work_to(form: Form, free: str, **more: object) -> Work:
    """Work to the sizes of a form, all but the free one."""
    sizes = {name: size for name, size in form.sizes_mm().items() if name != free}
    return Work(shape_of(form), sizes, free)._replace(**more)  # type: ignore[arg-type]


def targets(todo: Operation) -> st.SearchStrategy[Form]:
    """Solids that an operation may leave."""
    if todo.FORM == "pierced bar":
        return pierced_bars()
    if todo.FORM == "bowl":
        return bowls()
    return eyed_forms(tapered=False) if todo.FORM == "eyed" else forms()


@pytest.mark.parametrize("name", FLOWING)
@settings(max_examples=25)
@given(st.data())
def test_an_operation_that_takes_nothing_keeps_the_volume(name: str, data: st.DataObject) -> None:
    todo = operation(name)
    before, wanted = data.draw(forms()), data.draw(targets(todo))
    work = work_to(wanted, wanted.FREE, amounts=TAKES_NOTHING.get(name, {}))
    try:
        worked = todo.work(before, before.volume_mm3(), work)
    except FormError:
        assume(False)
    assert sum(worked.taken_mm3.values()) == 0.0
    assert worked.volume_mm3 == pytest.approx(before.volume_mm3(), rel=1e-12)
    assert worked.form.volume_mm3() == pytest.approx(before.volume_mm3(), rel=1e-9)
    for dimension, size_mm in work.sizes_mm.items():
        assert worked.form.size_mm(dimension) == size_mm


@pytest.mark.parametrize("name", FLOWING)
@settings(max_examples=15)
@given(st.data(), st.floats(0.0, 0.02), st.floats(0.0, 0.02), st.floats(0.0, 3.0))
def test_more_heats_and_more_loss_never_add_metal(
    name: str, data: st.DataObject, loss_share: float, face_loss_mm: float, heats: float
) -> None:
    todo = operation(name)
    before, wanted = data.draw(forms()), data.draw(targets(todo))
    usual = work_to(wanted, wanted.FREE, heats=heats, face_loss_mm=face_loss_mm, loss_share=loss_share)
    try:
        worked = todo.work(before, before.volume_mm3(), usual)
        hotter = todo.work(before, before.volume_mm3(), usual._replace(heats=heats + 1.0))
        dearer = todo.work(before, before.volume_mm3(), usual._replace(loss_mm3=0.01 * before.volume_mm3()))
    except FormError:
        assume(False)
    assert worked.volume_mm3 == pytest.approx(before.volume_mm3() - sum(worked.taken_mm3.values()), rel=1e-9)
    assert worked.volume_mm3 <= before.volume_mm3()
    assert all(volume >= 0.0 for volume in worked.taken_mm3.values())
    assert hotter.volume_mm3 <= worked.volume_mm3
    assert dearer.volume_mm3 <= worked.volume_mm3


@pytest.mark.parametrize("name", FIXING)
@settings(max_examples=25)
@given(forms(), st.floats(0.3, 1.5), st.floats(0.0, 0.02))
def test_cutting_and_grinding_only_take_away_and_tell_all_they_took(
    name: str, before: Form, share: float, loss_share: float
) -> None:
    todo = operation(name)
    free = "length" if "length" in before.DIMENSIONS else before.FREE
    work = work_to(before, free, free_mm=before.size_mm(free) * share, loss_share=loss_share)
    try:
        worked = todo.work(before, before.volume_mm3(), work)
    except FormError:
        assume(False)
    assert worked.volume_mm3 == pytest.approx(before.volume_mm3() - sum(worked.taken_mm3.values()), rel=1e-9)
    assert worked.volume_mm3 <= before.volume_mm3() * (1.0 + 1e-12)
    assert worked.form.volume_mm3() == pytest.approx(worked.volume_mm3, rel=1e-9)


FLAT = make("flat", {"width": 40.0, "thickness": 10.0, "length": 200.0})


def test_scale_is_the_mean_bare_surface_times_the_loss_per_face_and_heat() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 8.0}, "length", 2.0, 0.03, (True, False))
    worked = operation("draw").work(FLAT, FLAT.volume_mm3(), work)
    # By hand: sides 2(w + t)·L and one end w·t, before and after; the length after is the volume left by w·t.
    before = 2 * (40 + 10) * 200 + 40 * 10
    length = worked.volume_mm3 / (40 * 8)
    after = 2 * (40 + 8) * length + 40 * 8
    assert worked.taken_mm3 == {"scale": pytest.approx(2 * 0.03 * (before + after) / 2, rel=1e-6)}


def test_a_cut_without_a_stated_length_keeps_all_but_kerf_and_offcut() -> None:
    work = Work(
        Shape("flat"),
        {"width": 40.0, "thickness": 10.0},
        "length",
        amounts={"kerf_mm": 3.0, "offcut_mm": 20.0},
    )
    worked = operation("cut").work(FLAT, FLAT.volume_mm3(), work)
    assert worked.form.size_mm("length") == pytest.approx(177.0)
    assert worked.taken_mm3 == pytest.approx({"kerf": 1200.0, "offcut": 8000.0})


def test_a_cut_to_length_leaves_the_rest_as_offcut() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 10.0}, "length", free_mm=120.0)
    worked = operation("cut").work(FLAT, FLAT.volume_mm3(), work)
    assert worked.form.size_mm("length") == pytest.approx(120.0)
    assert worked.taken_mm3 == pytest.approx({"offcut": 32000.0})


def test_a_cut_cannot_lengthen_a_bar_that_is_too_short() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 10.0}, "length", free_mm=250.0)
    worked = operation("cut").work(FLAT, FLAT.volume_mm3(), work)
    assert worked.form.size_mm("length") == pytest.approx(200.0)
    assert not worked.taken_mm3


def test_a_stone_takes_the_section_down_and_leaves_the_length() -> None:
    work = Work(Shape("flat"), {"width": 39.0, "thickness": 9.0}, "length")
    worked = operation("grind").work(FLAT, FLAT.volume_mm3(), work)
    assert worked.form.size_mm("length") == pytest.approx(200.0)
    assert worked.taken_mm3 == pytest.approx({"ground": (400.0 - 351.0) * 200.0})


def test_a_stone_cannot_add_metal_to_reach_a_size() -> None:
    work = Work(Shape("flat"), {"width": 41.0, "thickness": 10.0}, "length")
    worked = operation("grind").work(FLAT, FLAT.volume_mm3(), work)
    assert worked.volume_mm3 == pytest.approx(FLAT.volume_mm3())


def test_a_punch_takes_a_slug_of_a_fifth_of_the_depth_unless_told() -> None:
    block = make("square", {"side": 38.0, "length": 40.0})
    sizes = {
        "thickness": 38.0,
        "length": 40.0,
        "hole_length": 12.0,
        "hole_width": 12.0,
        "far_hole_length": 12.0,
        "far_hole_width": 12.0,
    }
    work = Work(Shape("eyed", {"hole": "round", "through": "thickness"}), sizes, "width")
    area = 3.141592653589793 * 6.0**2
    usual = operation("punch").work(block, block.volume_mm3(), work)
    told = operation("punch").work(block, block.volume_mm3(), work._replace(amounts={"slug_mm": 38.0}))
    # Common practice, no source: a slug driven from both sides is about a fifth as thick as the bar.
    assert usual.taken_mm3[Cause.SLUG] == pytest.approx(area * 7.6)
    assert told.taken_mm3[Cause.SLUG] == pytest.approx(area * 38.0)  # drilled: the whole hole leaves


def test_a_weld_loses_a_share_of_both_metals_and_scales_the_joined_solid() -> None:
    work = Work(Shape("flat"), {"width": 40.0, "thickness": 14.0}, "length", 2.0, 0.08)
    both = FLAT.volume_mm3() + 20_000.0
    worked = operation("weld").work(FLAT, both, work)
    length = worked.form.size_mm("length")
    assert worked.taken_mm3[Cause.SQUEEZE] == pytest.approx(0.01 * both)  # common practice, no source
    assert worked.taken_mm3[Cause.SCALE] == pytest.approx(2 * 0.08 * 2 * (40 + 14) * length, rel=1e-4)


def test_every_operation_says_what_it_is_in_one_sentence() -> None:
    for name, todo in operations().items():
        assert name == todo.NAME
        assert todo.SUMMARY.endswith(".")
        assert todo.SCOPE in ("zone", "piece", "join")
        assert todo.HEAT_KIND in ("forging", "welding", "treatment", "cold")
        assert (todo.HEATS == 0) == (todo.HEAT_KIND == "cold")


def test_the_trade_s_words_are_all_there() -> None:
    wanted = (
        "draw, upset, square, taper, spread, set down, punch, drift, cut, groove, scarf, bend, straighten, "
        "weld, grind, file, anneal, normalise, harden, temper, fit, inspect, tack, mark out, sharpen, haft"
    )
    assert set(wanted.split(", ")) <= set(operations())
    with pytest.raises(KeyError):
        operation("conjure")


def test_a_quench_and_a_tack_may_not_be_left() -> None:
    unsafe = {
        name: set(names_of(todo.UNSAFE_UNTIL)) for name, todo in operations().items() if todo.UNSAFE_UNTIL
    }
    assert unsafe == {"harden": {"temper"}, "tack": {"weld"}}
