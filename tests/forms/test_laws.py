"""Laws that hold for every form there is."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from coach.forms import Form, FormError, kinds
from tests.forms.samples import forms, hole_dimension
from tests.forms.solids import surface_mm2
from tests.made import make, options_of


@given(forms(), st.data())
@settings(max_examples=300, deadline=None)
def test_a_dimension_solved_from_the_forms_own_volume_is_unchanged(form: Form, data: st.DataObject) -> None:
    dimension = data.draw(st.sampled_from(form.DIMENSIONS))
    settled = form.solved(dimension, form.volume_mm3())
    assert settled.sizes_mm() == pytest.approx(form.sizes_mm(), rel=1e-7)


@given(forms(), st.data(), st.floats(0.9, 1.1))
@settings(max_examples=300, deadline=None)
def test_a_settled_form_holds_the_volume_asked_for(form: Form, data: st.DataObject, factor: float) -> None:
    dimension = data.draw(st.sampled_from(form.DIMENSIONS))
    wanted = form.volume_mm3() * factor
    try:
        settled = form.solved(dimension, wanted)
    except FormError:  # a hole or an end that cannot give that much; test_solving has the cases
        reject()
    assert settled.volume_mm3() == pytest.approx(wanted, rel=1e-9)
    assert settled.faults() == []
    kept = {name: size for name, size in form.sizes_mm().items() if settled.size_mm(name) == size}
    partners = 2 if options_of(form).get("hole") == "round" else 1
    assert len(kept) >= len(form.DIMENSIONS) - partners


@given(forms(), st.data(), st.floats(1.001, 1.05))
@settings(max_examples=300, deadline=None)
def test_metal_grows_with_a_dimension_and_shrinks_with_a_hole(
    form: Form, data: st.DataObject, factor: float
) -> None:
    dimension = data.draw(st.sampled_from(form.DIMENSIONS))
    grown = form.with_sizes({dimension: form.size_mm(dimension) * factor})
    if hole_dimension(form, dimension):
        assert grown.volume_mm3() < form.volume_mm3()
    else:
        assert grown.volume_mm3() > form.volume_mm3()


@given(forms(), st.floats(0.2, 5.0))
@settings(max_examples=200, deadline=None)
def test_volume_goes_by_the_cube_and_surface_by_the_square(form: Form, factor: float) -> None:
    scaled = form.with_sizes({name: size * factor for name, size in form.sizes_mm().items()})
    assert scaled.volume_mm3() == pytest.approx(form.volume_mm3() * factor**3, rel=1e-9)
    assert surface_mm2(scaled) == pytest.approx(surface_mm2(form) * factor**2, rel=1e-9)


@given(forms())
@settings(max_examples=200, deadline=None)
def test_no_form_has_less_surface_than_a_ball_of_its_volume(form: Form) -> None:
    # The isoperimetric inequality: A³ ≥ 36·π·V².
    assert surface_mm2(form) ** 3 >= 36 * 3.141592653589793 * form.volume_mm3() ** 2


@given(forms())
@settings(max_examples=100, deadline=None)
def test_a_form_made_again_from_what_it_says_of_itself_is_the_same(form: Form) -> None:
    stations = getattr(form, "stations", ())
    assert make(form.KIND, form.sizes_mm(), options_of(form), stations) == form


@given(forms())
@settings(max_examples=50, deadline=None)
def test_changing_nothing_gives_an_equal_form(form: Form) -> None:
    assert form.with_sizes({}) == form
    assert hash(form.with_sizes({})) == hash(form)


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_the_fields_of_a_form_are_its_dimensions_then_its_choices(kind: str) -> None:
    form = kinds()[kind]
    expected = [f"{dimension}_mm" for dimension in form.DIMENSIONS] + list(form.OPTIONS)
    expected += ["stations"] if form.STATIONS else []
    assert [field.name for field in dataclasses.fields(form)] == expected  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_a_form_speaks_of_itself(kind: str) -> None:
    form = kinds()[kind]
    assert kind == form.KIND
    assert form.SUMMARY
    assert form.FREE in form.DIMENSIONS
    assert set(form.FALLBACKS) <= set(form.DIMENSIONS)
    assert set(form.FALLBACKS.values()) <= set(form.DIMENSIONS)
    assert form.__doc__
    assert "=" in form.__doc__, "the class docstring gives the formula"


@given(forms())
@settings(max_examples=30, deadline=None)
def test_a_form_cannot_be_changed_in_place(form: Form) -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        setattr(form, f"{form.DIMENSIONS[0]}_mm", 1.0)
    assert not hasattr(form, "__dict__")


#: What has the same section all along, and nothing but lengths beside it.
_EVEN_BARS = ("flat", "hexagon", "link", "octagon", "ring", "round", "round ring", "square", "strap eye")


@given(forms(), st.floats(1e-5, 1e-3))
@settings(max_examples=400, deadline=None)
def test_what_scale_takes_off_the_sides_comes_off_the_sizes_between_them(form: Form, share: float) -> None:
    # A layer off every side is its surface times how thick it is, to first order (geometry); along a taper
    # the sides are longer than what lies between them, so there it is less and never more.
    skin_mm = share * min((form.size_mm(name) for name in form.SHEDS), default=0.0)
    thinner = form.with_sizes({name: form.size_mm(name) + by * skin_mm for name, by in form.SHEDS.items()})
    taken_mm3 = form.volume_mm3() - thinner.volume_mm3()
    layer_mm3 = form.side_surface_mm2() * skin_mm
    assert 0.0 < taken_mm3 < 1.25 * layer_mm3
    if form.KIND in _EVEN_BARS:
        assert taken_mm3 == pytest.approx(layer_mm3, rel=4.0 * share)
