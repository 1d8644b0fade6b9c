"""Looking back to the stock and forward again: the two cannot disagree."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.planned import planned_tool
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError, layer_of
from coach.ledger.workpiece import at_stock
from coach.operations.does import Cause
from tests.ledger.recipes import DRAW, EYE, LAID, NEIGHBOURS, planned, recipe

#: Every kind of step in one job, all forms that a bar commonly becomes.
MEDLEY = """
title: Medley
pieces:
  body:
    metal: C45
    stock: {form: square, side: 30}
    zones: [tang, eye, blade]
drawing:
  tang: {form: taper, width: 18, thickness: 14, end width: 10, end thickness: 8, length: 90}
  eye: {form: eyed, hole: oval, width: 38, thickness: 30, length: 44, hole length: 28, hole width: 16}
  blade: {form: flat, width: 62 ±3, thickness: 6 ±0.6, length: 130 ±6, take up: [length, width]}
steps:
  - {do: mark out, piece: body}
  - {do: taper, zone: tang, to: drawing, heats: 3}
  - {do: punch, zone: eye, hole: round, to: {hole length: 14, thickness: 30, length: 44}, heats: 3}
  - {do: drift, zone: eye, to: drawing, heats: 2}
  - {do: set down, zone: blade, form: flat, to: {width: 31, thickness: 14}, heats: 2}
  - {do: cut, zone: blade, heats: 1}
  - {do: spread, zone: blade, to: {thickness: 6.5 ±0.5, length: 128 ±4}, heats: 3}
  - {do: bend, zone: blade, to: {angle: 10}, heats: 1}
  - {do: normalise, zone: blade, heated: [blade, eye, tang], heats: 2}
  - {do: grind, zone: blade, to: {thickness: 6 ±0.4, length: 127 ±4}}
"""
JOBS = {"draw": DRAW, "neighbours": NEIGHBOURS, "eye": EYE, "laid": LAID, "medley": MEDLEY}


def from_stock(plan: Plan) -> Forecast:
    return forecast(plan, None, at_stock(plan), 1)


@pytest.mark.parametrize("name", [name for name in JOBS if name != "medley"])
def test_what_is_looked_back_for_comes_out_when_looking_forward(name: str) -> None:
    plan = planned(JOBS[name])
    # A bar as wide as its drawing cannot be forged fuller: the tack's heat takes 0.08 mm off each face. Two
    # heats to normalise take 0.01 each, too little against the limits to be forged fuller for.
    beside = {("laid", "bit.width"): -2 * 0.08}
    beside |= {("laid", f"blade.{name}"): -2 * 2 * 0.01 for name in ("width", "thickness")}
    for zone in from_stock(plan).zones.values():
        for size in zone.sizes:
            wanted_mm = size.wanted.limits.nominal + beside.get((name, size.name), 0.0)
            assert size.expected.value == pytest.approx(wanted_mm, rel=1e-6), (zone.zone, size)


@pytest.mark.parametrize("name", JOBS)
def test_the_forecast_walks_the_plan_s_own_way(name: str) -> None:
    plan = planned(JOBS[name])
    after = from_stock(plan).after
    for number, stages in plan.by_step.items():
        for zone, stage in stages.items():
            for dimension, size_mm in stage.form_after.sizes_mm().items():
                reckoned = after[number].size(zone, dimension).value
                assert reckoned == pytest.approx(size_mm, rel=1e-6), (number, zone, dimension)


@pytest.mark.parametrize("name", JOBS)
def test_the_metal_marked_out_is_the_metal_finished_and_the_metal_taken(name: str) -> None:
    plan = planned(JOBS[name])
    for zone, way in plan.stages.items():
        laid = sum(stage.laid_mm3 for stage in way)
        taken = sum(sum(stage.taken_mm3.values()) for stage in way)
        end = way[-1].after_mm3 if way else plan.start_mm3[zone]
        assert plan.start_mm3[zone] + laid == pytest.approx(end + taken, rel=1e-9)
        if not any(stage.step.operation == "grind" for stage in way):
            assert end == pytest.approx(plan.wanted_mm3[zone], rel=1e-6)


def test_marks_are_measured_from_one_end_and_a_hole_s_centre_is_marked() -> None:
    plan = planned(MEDLEY)
    piece = plan.pieces["body"]
    lengths = [plan.start_mm3[zone] / 900.0 for zone in ("tang", "eye", "blade")]
    assert [mark.at.value for mark in piece.marks] == pytest.approx(
        [lengths[0], lengths[0] + lengths[1], sum(lengths)]
    )
    assert [(mark.ends, mark.begins) for mark in piece.marks] == [
        ("tang", "eye"),
        ("eye", "blade"),
        ("blade", None),
    ]
    (eye,) = piece.centres
    assert eye.zone == "eye"
    assert eye.at.value == pytest.approx(lengths[0] + lengths[1] / 2)
    assert piece.length.value == pytest.approx(sum(lengths))


def test_a_cut_is_as_long_as_the_rest_of_the_job_needs() -> None:
    plan = planned(MEDLEY)
    (cut,) = plan.cuts
    stage = plan.by_step[6]["blade"]
    # By hand: what comes after must be in it, at the section that the heat of the cut leaves of 31 × 14.
    later = sum(sum(s.taken_mm3.values()) for s in plan.stages["blade"] if s.step.number > 6)
    finished = plan.stages["blade"][-1].after_mm3
    off = 2 * layer_of(plan.recipe, stage.step, 1)
    assert cut.length.value == pytest.approx((finished + later) / ((31 - off) * (14 - off)), rel=1e-9)
    assert cut.finished.value == 130.0
    assert cut.short_by.value == pytest.approx(130.0 - cut.length.value)
    # A hot cut of what was marked out leaves nothing over.
    assert stage.taken_mm3.get(Cause.OFFCUT, 0.0) == 0.0


def test_a_cut_at_a_stated_length_marks_out_the_kerf_and_the_offcut_too() -> None:
    plan = planned(
        """
title: Two cuts
scale: none
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20}}
drawing:
  bar: {form: square, side: 20, length: 200}
steps:
  - {do: cut, zone: bar, to: {length: 200}, heat: cold, kerf: 2 mm, offcut: 15 mm}
"""
    )
    assert plan.pieces["bar"].length.value == pytest.approx(217.0)
    assert plan.by_step[1]["bar"].taken_mm3 == pytest.approx({"kerf": 800.0, "offcut": 6000.0})


def test_an_end_to_hold_it_by_may_be_longer_than_the_tool() -> None:
    plan = planned(
        """
title: Small point
scale: none
pieces:
  point: {metal: C45, stock: {form: square, side: 10}}
drawing:
  point: {form: square, side: 10, length: 40}
steps:
  - {do: cut, zone: point, offcut: 400 mm}
"""
    )
    assert plan.pieces["point"].length.value == pytest.approx(440.0)


def test_grinding_an_end_marks_out_its_skin() -> None:
    plan = planned(
        """
title: Ground bar
scale: none
pieces:
  bar: {metal: mild steel, stock: {form: flat, width: 40, thickness: 10}}
drawing:
  bar: {form: flat, width: 40, thickness: 9, length: 200}
steps:
  - {do: grind, zone: bar, to: {thickness: 9, length: 200}}
"""
    )
    # Half a millimetre is left on an end (common practice, no source).
    assert plan.pieces["bar"].length.value == pytest.approx(200.5, abs=1e-6)
    taken = plan.by_step[1]["bar"].taken_mm3[Cause.GROUND]
    assert taken == pytest.approx(200.5 * 400 - 200 * 360)


def test_a_weld_shares_its_loss_between_the_metals_and_adds_no_steel_to_the_iron() -> None:
    plan = planned(LAID)
    stock = at_stock(plan)
    assert stock.zones["blade"].parts == ("blade",)
    after = from_stock(plan).after
    before_weld, welded, last = after[3], after[4], after[6]
    assert welded.zones["blade"].parts == ("blade", "bit")
    assert welded.zones["bit"].within == "blade"
    assert welded.volume_mm3("blade") < before_weld.volume_mm3("blade") + before_weld.volume_mm3("bit")

    def share(at: int) -> float:
        steel = after[at].belief.mean("bit volume")
        return steel / (steel + after[at].belief.mean("blade volume"))

    laid = before_weld.volume_mm3("bit") / (before_weld.volume_mm3("bit") + before_weld.volume_mm3("blade"))
    assert [share(4), share(5), share(6)] == pytest.approx([laid] * 3)
    # The bars carry only their own metal: what is marked out for the blade leaves room for the steel.
    assert plan.start_mm3["blade"] < plan.wanted_mm3["blade"]
    assert last.volume_mm3("blade") == pytest.approx(plan.wanted_mm3["blade"], rel=1e-6)


def test_the_finished_mass_counts_each_metal_after_its_own_losses() -> None:
    plan = planned(LAID)
    after = from_stock(plan).after[6]
    # Wrought iron 7.70 and steel 7.85 g/cm³, as the grades have them.
    by_hand = (
        after.belief.mean("shank volume") * 7.70e-3
        + after.belief.mean("blade volume") * 7.70e-3
        + after.belief.mean("bit volume") * 7.85e-3
    )
    assert plan.finished_mass.value == pytest.approx(by_hand, rel=1e-6)


def test_an_allowance_is_marked_out_on_top() -> None:
    bare = planned(DRAW)
    more = planned(DRAW.replace("take up: length", "take up: length, allowance: 5 %"))
    assert more.start_mm3["strap"] == pytest.approx(1.05 * bare.start_mm3["strap"])
    assert (
        from_stock(more).zones["strap"].spares[0].spare.value
        > from_stock(bare).zones["strap"].spares[0].spare.value
    )


def test_a_given_bar_tells_what_is_left_over_or_missing() -> None:
    need = planned(DRAW).pieces["strap"].length.value
    given_bar = DRAW.replace("thickness: 12}", "thickness: 12, length: 300}")
    enough = planned(given_bar).pieces["strap"].left_over
    assert enough is not None
    assert enough.value == pytest.approx(300.0 - need)
    short = planned(DRAW.replace("thickness: 12}", "thickness: 12, length: 100}"))
    missing = short.pieces["strap"].left_over
    assert missing is not None
    assert missing.value == pytest.approx(100.0 - need)
    warnings = [str(found.sentence) for found in planned_tool(short).findings]
    assert any("too short" in warning and "is missing" in warning for warning in warnings)
    assert planned(DRAW).pieces["strap"].left_over is None


def test_an_unworked_zone_takes_its_own_length_of_bar() -> None:
    plan = planned(NEIGHBOURS)
    assert plan.start_mm3["near"] == pytest.approx(20 * 20 * 100)


def test_a_finished_profile_straight_off_a_drawing_balances() -> None:
    plan = planned(
        """
title: Wedge head
pieces:
  head: {metal: C45, stock: {form: flat, width: 50, thickness: 30}}
drawing:
  head:
    form: profile
    stations: [[0, 50, 28], [60, 50, 26], [140, 70, 4]]
    take up: length
steps:
  - {do: taper, zone: head, form: profile, to: drawing, heats: 4}
"""
    )
    assert from_stock(plan).zones["head"].sizes[0].expected.value == pytest.approx(140.0, rel=1e-6)


@settings(max_examples=20, deadline=None)
@given(
    st.floats(20.0, 60.0),
    st.floats(6.0, 20.0),
    st.floats(0.4, 0.95),
    st.floats(80.0, 400.0),
    st.integers(0, 8),
)
def test_more_scale_needs_a_longer_bar(
    width: float, thickness: float, share: float, length: float, heats: int
) -> None:
    def bar_mm(scale: str, count: int) -> float:
        text = f"""
title: Any bar
scale: {scale}
pieces:
  bar: {{metal: mild steel, stock: {{form: flat, width: {width:.3f}, thickness: {thickness:.3f}}}}}
drawing:
  bar: {{form: flat, width: {width:.3f}, thickness: {share * thickness:.3f}, length: {length:.3f}}}
steps:
  - {{do: draw, zone: bar, to: drawing, heats: {count}}}
"""
        plan = planned(text)
        ended = from_stock(plan).zones["bar"]
        assert ended.volume.value == pytest.approx(plan.wanted_mm3["bar"], rel=1e-6)
        return plan.pieces["bar"].length.value

    none, usual, heavy = bar_mm("none", heats), bar_mm("{}", heats), bar_mm("{forging: 0.06 mm}", heats)
    assert none <= usual <= heavy
    if heats:
        assert none < usual < heavy
    assert bar_mm("{}", heats + 1) > usual


@settings(max_examples=15, deadline=None)
@given(st.integers(20, 60), st.integers(6, 20), st.integers(3, 5), st.integers(60, 300), st.booleans())
def test_a_recipe_in_inches_gives_the_plan_of_the_same_recipe_in_millimetres(
    width: int, thickness: int, less: int, length: int, upset: bool
) -> None:
    def text(units: str, size: float) -> str:
        work = "upset" if upset else "draw"
        across = width + 4 if upset else width
        thin = thickness + 2 if upset else thickness - less
        return f"""
title: Any bar
units: {units}
scale: {{forging: {0.02 * size:.6f}}}
marks: {0.4 * size:.6f}
pieces:
  bar: {{metal: C45, stock: {{form: flat, width: {width * size:.6f}, thickness: {thickness * size:.6f}}}}}
drawing:
  bar:
    form: flat
    width: {across * size:.6f} ±{0.5 * size:.6f}
    thickness: {thin * size:.6f} ±{0.25 * size:.6f}
    length: {length * size:.6f} ±{4 * size:.6f}
steps:
  - {{do: {work}, zone: bar, to: drawing, heats: 3}}
"""

    in_mm, in_inches = planned(text("mm", 1.5875)), planned(text("in", 0.0625))
    assert in_inches.pieces["bar"].length.value == pytest.approx(in_mm.pieces["bar"].length.value, rel=1e-6)
    one, other = from_stock(in_mm).zones["bar"], from_stock(in_inches).zones["bar"]
    assert one.chance == pytest.approx(other.chance, abs=1e-4)
    assert one.volume.doubt == pytest.approx(other.volume.doubt, rel=1e-4)


@pytest.mark.parametrize("name", JOBS)
def test_a_longer_bar_shows_more_spare(name: str) -> None:
    plan = planned(JOBS[name])
    longer = plan._replace(start_mm3={zone: 1.02 * volume for zone, volume in plan.start_mm3.items()})
    more, usual = from_stock(longer), from_stock(plan)
    for zone, one in usual.zones.items():
        if any(s.step.operation in ("cut", "grind") for s in plan.stages[zone]):
            continue  # what is over is cut off again
        for spare, bigger in zip(one.spares, more.zones[zone].spares, strict=True):
            assert bigger.spare.value > spare.spare.value
        assert more.zones[zone].chance >= one.chance


def test_steel_bigger_than_its_zone_is_refused_in_a_sentence() -> None:
    too_much = LAID.replace("thickness: 5 ±0.4, length: 60 ±4", "thickness: 5 ±0.4, length: 900")
    with pytest.raises(LedgerError, match=r"steel laid on blade .* as much as the whole finished blade"):
        planned(too_much)


def test_a_hole_that_leaves_no_wall_on_its_way_is_refused_in_a_sentence() -> None:
    text = """
title: Thin eye
pieces:
  block: {metal: C45, stock: {form: square, side: 38}}
drawing:
  block: {form: eyed, through: width, width: 38, thickness: 40, length: 60, hole length: 20, hole width: 12}
steps:
  - do: punch
    zone: block
    through: width
    free: length
    to: {width: 38, thickness: 9, hole length: 20, hole width: 12}
  - {do: drift, zone: block, to: drawing}
"""
    with pytest.raises(LedgerError, match=r"Step 1, Punch the block: .*leaves no wall"):
        planned(text)


def test_a_recipe_s_sizes_do_not_depend_on_the_order_of_its_pieces() -> None:
    first, *rest = LAID.split("pieces:")
    body, bit = rest[0].split("  bit: ", 1)
    bit_line, after = bit.split("\n", 1)
    swapped = f"{first}pieces:\n  bit: {bit_line}{body}{after}"
    assert planned(swapped).start_mm3 == pytest.approx(planned(LAID).start_mm3)


def test_heat_counts_add_up_over_the_recipe() -> None:
    view = planned_tool(planned(LAID))
    assert view.heats == 1 + 1 + 2 + 3 + 2
    assert recipe(LAID).steps[0].heats == 0
