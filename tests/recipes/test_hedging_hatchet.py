"""The hedging hatchet: its metal by plain arithmetic, and a whole job with a bit cut too short."""

from __future__ import annotations

import random
from math import exp, pi, sqrt

import pytest

from coach.bench.checks import Check
from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.finish.bevel import BarToBevel, bevel_range
from coach.finish.laid import cleft_faults
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.metals.tempering import tempered_hrc
from coach.metals.tempering_table import tempering_row
from coach.places import bundled_recipes
from coach.quantities import Kind
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe_file
from tests.bench.jobs import in_hand, shop
from tests.told import said, why, worries

FILE = bundled_recipes() / "hedging-hatchet.yaml"
CUT, LOOKED_OVER, STEEL_BEGINS = "Cut the head from the bar", "Look it over cold", "Mark out the steel"
TACKED, WELDED = "Drive the steel in and close the lips", "Weld the steel in"
HARD, TEMPERED = "Harden the edge", "Temper the edge"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return look_back(read_recipe_file(FILE))


def _step(plan: Plan, title: str) -> Step:
    return next(step for step in plan.recipe.steps if step.title == title)


# ── the metal, by hand ──────────────────────────────────────────────────────────────────────────

#: g/mm³ (docs/recipes.md, Pieces).
IRON, STEEL = 7.70e-3, 7.85e-3
BAR_MM2 = 36 * 25.0


def _taper_mm3(wide: float, thick: float, end_wide: float, end_thick: float, length: float) -> float:
    """A taper on both faces and both edges: the prismatoid formula."""
    return length / 6 * (wide * thick + (wide + end_wide) * (thick + end_thick) + end_wide * end_thick)


def _hole_mm3() -> float:
    """The eye's hole, its middle section from the mean of the two mouths."""
    near, middle, far = (pi / 4 * a * b for a, b in ((34, 17), (34.75, 17.75), (35.5, 18.5)))
    return 35 / 6 * (near + 4 * middle + far)


FINISHED_MM3 = {
    "poll": 34 * 24 * 18.0,
    "eye": 35 * 31 * 50 - _hole_mm3(),
    "blade": _taper_mm3(34, 17, 54, 9, 38),
    "bit": _taper_mm3(56, 8.5, 82, 1.6, 58),
}
STEEL_MM3 = _taper_mm3(48, 7, 48, 2, 32)


def _loss_mm(temperature_c: float, minutes: float) -> float:
    """What a heat takes off a face: Païdassi 1958 (from memory), 0.564 mm of metal to 1 mm of scale, and the
    30 % of it that a smith's fire takes (judgement)."""
    k_cm2_s = 6.1 * exp(-169450 / (8.314 * (temperature_c + 273.15)))
    return 0.3 * 0.564 * 10 * sqrt(k_cm2_s * minutes * 60)


# White 2200 °F, light yellow 1975 °F, yellow 1825 °F, light orange 1725 °F: White and Taylor's colours (from
# memory). Minutes in the fire by the kind of heat: common practice, no source.
WHITE, LIGHT_YELLOW, YELLOW, LIGHT_ORANGE = (_loss_mm(heat_c, 3) for heat_c in (1204, 1079, 996, 941))
TACKING, WELDING, NORMALISING = _loss_mm(1100, 4), _loss_mm(1140, 4), _loss_mm(855, 5)
TRUING = _loss_mm(910, 3)


def _before(after: float, lost_mm: float, wide: float, thick: float, ends: int = 0) -> float:
    """The volume before all that was lost off each face, of a bar of about this section meanwhile."""
    return after + lost_mm * (2 * (wide + thick) / (wide * thick) * after + ends * wide * thick)


def _bar_of_poll_mm() -> float:
    metal = _before(FINISHED_MM3["poll"], 3 * NORMALISING + 3 * WHITE, 34, 24.5, 1)
    return metal * 1.03 / BAR_MM2


def _bar_of_eye_mm() -> float:
    # Four sides less two mouths, and the hole's wall; the rim of an ellipse by its axes' root mean square.
    slot = (30 - 9) * 9 + pi / 4 * 9**2
    skins = 2 * (35.5 + 30) * 49 - 2 * 330 + 35.5 * pi * sqrt((32**2 + 14**2) / 2)
    metal = FINISHED_MM3["eye"] + 6 * slot
    metal += skins * (3 * NORMALISING + 3 * LIGHT_YELLOW + 6 * WHITE)
    return metal * 1.02 / BAR_MM2


def _bar_of_blade_mm() -> float:
    metal = _before(FINISHED_MM3["blade"], 3 * NORMALISING + TRUING, 44, 13)
    metal = _before(metal, 4 * WHITE, 37, 17)
    return metal * 1.03 / BAR_MM2


def _bar_of_bit_mm() -> float:
    metal = FINISHED_MM3["bit"]
    # Ground: the wedge between an edge of 3.2 and of 1.6 mm, and 1 mm off the length of the edge.
    metal += _taper_mm3(56, 8.5, 82, 3.2, 58) - metal + 82 * 3.2
    metal = _before(metal, 3 * NORMALISING + TRUING + 2 * YELLOW, 68, 6, 1)
    metal = _before(metal, 5 * LIGHT_YELLOW, 60, 9, 1)
    metal = (
        _before(metal, 4 * WELDING, 50, 14.5, 1) / 0.99 - STEEL_MM3
    )  # 1 % squeezed out; the steel comes in
    metal = _before(metal, TACKING + 3 * LIGHT_YELLOW, 48, 14, 1)
    metal = _before(metal, 3 * WHITE, 45, 17, 1)
    return metal * 1.12 / BAR_MM2


@pytest.mark.parametrize(
    ("zone", "by_hand_mm"),
    [
        ("poll", _bar_of_poll_mm()),
        ("eye", _bar_of_eye_mm()),
        ("blade", _bar_of_blade_mm()),
        ("bit", _bar_of_bit_mm()),
    ],
)
def test_the_bar_marked_out_is_what_plain_arithmetic_gives(plan: Plan, zone: str, by_hand_mm: float) -> None:
    # 0.7 mm is what one mark is good to (judgement), and the sections by hand are rough.
    assert plan.start_mm3[zone] / BAR_MM2 == pytest.approx(by_hand_mm, abs=0.7)


def test_the_steel_is_marked_out_by_its_wedge_and_what_it_scales(plan: Plan) -> None:
    metal = _before(STEEL_MM3, TACKING + 4 * LIGHT_ORANGE, 49, 5, 2)
    assert plan.start_mm3["edge"] / (50 * 8) == pytest.approx(metal * 1.04 / (50 * 8), abs=0.5)


def test_the_head_weighs_what_its_drawing_does_and_what_a_hatchet_does(plan: Plan) -> None:
    as_iron_g = sum(FINISHED_MM3.values()) * IRON
    # All that the steel can add is that the whole bit were steel; what scale takes off the finished faces is
    # some 190 cm² of them, 0.03 mm deep, 4 g, for which the thin sizes alone are forged fuller.
    scaled_g = 4.0
    steel_g = FINISHED_MM3["bit"] * (STEEL - IRON)
    assert as_iron_g - scaled_g < plan.finished_mass.value < as_iron_g + steel_g
    # Hatchet heads of 0.45 to 0.8 kg (from memory); 600 to 800 g was asked for.
    assert 600 < plan.finished_mass.value < 800


def test_the_bit_is_cut_short_because_the_steel_and_the_spreading_lengthen_it(plan: Plan) -> None:
    cut = next(cut for cut in plan.cuts if cut.zone == "bit")
    assert 20 < cut.short_by.value < 30
    assert cut.length.value > _step(plan, "Split the end for the steel").targets["groove_depth"].high


def test_the_steel_goes_to_the_bottom_of_the_cleft_and_an_edge_of_it_stands_out(plan: Plan) -> None:
    weld = _step(plan, WELDED)
    cleft = _step(plan, "Split the end for the steel").targets["groove_depth"]
    inset_mm = weld.amounts["inset_mm"]
    assert inset_mm == cleft.nominal
    assert cleft_faults(cleft.nominal, inset_mm, 14.0) == ()
    assert plan.recipe.drawing["edge"].limits["length"].nominal - inset_mm > 10


def test_the_eye_keeps_its_cheeks_and_is_not_stretched_too_far(plan: Plan) -> None:
    eye = plan.recipe.drawing["eye"].limits
    # 6 mm beside the wider mouth, for a light one-handed head: common practice, no source.
    assert (eye["thickness"].nominal - eye["far_hole_width"].nominal) / 2 >= 6.0
    # Up to 1.3 times the slot's rim: judgement. The ellipse's rim by the root mean square of its axes.
    slot_mm = 2 * (30 - 9) + pi * 9
    assert pi * sqrt((35.5**2 + 18.5**2) / 2) / slot_mm < 1.3


def sagitta_mm(chord_mm: float, radius_mm: float) -> float:
    """How far the middle of a curve stands off its chord; elementary geometry."""
    return radius_mm - sqrt(radius_mm**2 - chord_mm**2 / 4)


def test_the_swing_that_the_smith_is_told_of_is_that_of_the_bevel(plan: Plan) -> None:
    bend, bevel = _step(plan, "Set the edge line back"), _step(plan, "Forge the bevels")
    before = plan.by_step[bevel.number]["bit"].form_before.sizes_mm()
    back_mm = before["length"]
    found = bevel_range(BarToBevel(back_mm, before["thickness"], 3.2, bevel.amounts["bevel_mm"]))
    least_mm = sagitta_mm(80, found.widest.value + back_mm)
    most_mm = sagitta_mm(80, found.tightest.value + back_mm)
    assert least_mm == pytest.approx(2.5, abs=0.4)
    assert most_mm == pytest.approx(4.5, abs=0.4)
    assert "2.5 to 4.5 mm over 80 mm" in bend.how
    # Set back no further than the bevel swings out even if it does least: no hatchet ends hollow.
    assert bend.targets["curve_height"].nominal <= least_mm


def test_the_edge_is_as_hard_as_a_hatchet_s_and_the_eye_is_never_quenched(plan: Plan) -> None:
    temper = _step(plan, TEMPERED)
    wanted = temper.targets["hardness"]
    row = tempering_row("1084")
    assert row is not None
    assert temper.temperature_c is not None
    # 53 to 57 HRC was asked for; DIN 7287 has 51 to 56 for hatchets of grade A (confirmed second-hand).
    assert (wanted.low, wanted.high) == (53, 57)
    assert wanted.contains(tempered_hrc(row, temper.temperature_c, 2.0).hrc)
    assert [step.heated for step in plan.recipe.steps if step.operation == "harden"] == [("bit",)]


def test_the_haft_is_kerfed_two_thirds_of_the_eye_s_depth_and_wedged_into_the_wider_mouth(plan: Plan) -> None:
    haft, eye = _step(plan, "Haft the hatchet"), plan.recipe.drawing["eye"].limits
    assert haft.targets["kerf_depth"].contains(eye["width"].nominal * 2 / 3)  # from memory
    assert eye["far_hole_width"].low > eye["hole_width"].high


# ── two days at the forge ───────────────────────────────────────────────────────────────────────


def _measured(check: Check, hand: random.Random) -> str:
    """What a fair hand brings about: a tenth of the limits' width either way, most of the time."""
    if check.kind is Kind.TEST:
        return "pass"
    if check.kind is Kind.GAP:
        return f"{hand.uniform(0.1, 0.35):.1f}"
    wanted = check.wanted
    aim = wanted.limits.nominal if wanted is not None else None
    if check.expected is not None:
        aim = check.expected.value
    assert aim is not None, check.name
    if check.kind is Kind.TIME:
        return f"{aim / 60:.0f}"
    if check.kind is not Kind.LENGTH:
        return f"{aim:.0f}"
    spread = aim * 0.004
    if wanted is not None and wanted.limits.is_two_sided:
        spread = min((wanted.limits.high - wanted.limits.low) / 12, 0.3)
    return f"{hand.gauss(aim, spread):.1f}"


def _work(session: Session, hand: random.Random) -> None:
    """Heat and measure as the step in hand asks, in what has not been read yet."""
    step = session.standing().step
    assert step is not None
    for _ in range(step.heats_planned - session.standing().heats):
        session.heat()
    while (name := session.standing().next_check) is not None:
        check = next(check for check in session.standing().checks if check.name == name)
        session.read(name, _measured(check, hand))


def _go_to(session: Session, title: str, hand: random.Random) -> None:
    """Work through every step before that one."""
    while True:
        step = session.standing().step
        assert step is not None, f"no step {title!r}"
        if step.title == title:
            return
        _work(session, hand)
        session.done()


def _begun() -> Session:
    return shop().begin(FILE.read_text(encoding="utf-8"), FILE.name)


def _cut_short(hand: random.Random) -> Session:
    """Cut some 8 mm too short, not measured, and split; measured when it is looked over cold."""
    session = _begun()
    _go_to(session, CUT, hand)
    session.heat()
    assert worries(session.done_warning()) == "bit length is not measured"
    session.done()
    _go_to(session, LOOKED_OVER, hand)
    told = session.read("bit.length", "23.4")
    assert told.bad_news
    assert "that is not what was expected" in said(told)
    assert session.standing().verdict == "on plan"  # nobody believes it yet
    told = session.read("bit.length", "23.4")
    assert told.bad_news
    assert "under the" in said(told)
    assert session.standing().verdict == "off plan"
    assert why(session.standing()).startswith("Bit:")
    return session


@pytest.fixture
def hand() -> random.Random:
    return random.Random(11)


def test_a_bit_cut_too_short_is_off_plan_and_can_end_shorter_or_with_more_steel(hand: random.Random) -> None:
    session = _cut_short(hand)
    short = session.standing().chance
    ways = {way.name: way for way in session.ways_back()}
    best = session.ways_back()[0]
    assert best.name == "let-it-give-bit-length"
    assert (best.verdict, best.heats) == ("on plan", 0)
    # The steel is still on its bar, so more of it can be cut; it may not be enough by itself.
    assert ways["more-steel-edge-length"].chance > short
    assert ways["weld-on-more-bit"].heats == 3

    session.take(best.name)
    assert session.standing().verdict == "on plan"
    wanted = next(size.wanted for size in session.standing().sizes if size.name == "bit.length")
    assert wanted.limits.low < 52
    assert session.recipe.drawing["blade"] == _begun().recipe.drawing["blade"]

    session.strike()
    assert session.standing().verdict == "off plan"


def test_more_steel_is_cut_longer_from_its_bar(hand: random.Random) -> None:
    session = _cut_short(hand)
    before = session.standing().chance
    marked_mm = session.plan.pieces["edge"].length.value
    session.take("more-steel")
    assert session.standing().chance > before
    assert session.plan.pieces["edge"].length.value > marked_mm + 2


def test_a_heel_that_is_open_after_the_first_welding_heat_gets_another(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, WELDED, hand)
    session.heat()
    assert session.standing().heat_name == "weld"
    told = session.read("bit.weld line", "fail")
    assert told.bad_news
    assert "another welding heat" in said(told)
    assert "bit weld line is failed" in worries(session.done_warning())
    for _ in range(3):
        session.heat()
    assert session.standing().heat_name == "mend"
    assert "bit weld line is failed" in worries(session.done_warning())
    session.read("bit.weld line", "pass")
    _work(session, hand)
    assert worries(session.done_warning()) == ""
    assert said(session.heat()) == "Heat 5 is marked; 4 were planned."


def test_the_job_may_rest_after_the_first_day_but_not_on_the_tack_nor_before_the_temper(
    hand: random.Random,
) -> None:
    session = _begun()
    _go_to(session, STEEL_BEGINS, hand)
    session.rest()
    session.resume()
    for title, reason in (
        (TACKED, "not to rest"),
        (WELDED, "a tack lets go"),
        (TEMPERED, "must be followed by its temper"),
    ):
        _go_to(session, title, hand)
        assert session.standing().rest_reason
        with pytest.raises(EntryFault, match=reason):
            session.rest()
        assert session.standing().state == "under way"
    _work(session, hand)
    session.done()
    assert not session.standing().rest_reason


def test_an_edge_that_chips_over_the_rod_is_told_before_the_temper_is_called_done(
    hand: random.Random,
) -> None:
    session = _begun()
    _go_to(session, TEMPERED, hand)
    _work(session, hand)
    told = session.read("bit.flex test", "fail")
    assert told.bad_news
    assert "temper anew" in said(told)
    assert worries(session.done_warning()) == "bit flex test is failed"


def test_a_whole_hatchet_cut_short_and_welded_twice_ends_finished_and_on_plan(hand: random.Random) -> None:
    session = _cut_short(hand)
    session.take("let-it-give")
    _work(session, hand)
    session.note("Cut 8 mm short: the rule lay on the punch mark of the eye, not on the blade's.")
    session.done()
    session.rest()
    session.resume()

    _go_to(session, WELDED, hand)
    session.heat()
    session.read("bit.weld line", "fail")
    session.heat()
    session.read("bit.weld line", "pass")
    _go_to(session, HARD, hand)
    assert session.standing().verdict == "on plan"

    last = session.recipe.steps[-1].title
    _go_to(session, last, hand)
    # The bevels asked for the bit's width, as the blade's spread for the blade's: neither leaves it in doubt.
    asked = {check.name for check in session.standing().checks if check.is_open}
    assert not asked & {"bit.width", "blade.width"}
    _work(session, hand)
    session.done()
    standing = session.standing()
    assert in_hand(session) == 0
    assert (standing.state, standing.verdict) == ("finished", "on plan")
    assert not standing.trouble
    assert standing.to_right == ()
    assert [size.name for size in standing.sizes if size.state != "good"] == []
    length = next(size for size in standing.sizes if size.name == "bit.length")
    assert length.expected.value < 58  # shorter than it was drawn, and known to be
