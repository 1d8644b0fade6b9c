"""The cross-peen hammer: its metal by plain arithmetic, and a whole job with what goes wrong in one."""

from __future__ import annotations

import random
from math import exp, pi, sqrt

import pytest

from coach.bench.checks import Check
from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.places import bundled_recipes
from coach.quantities import Kind
from coach.recipe.reader import read_recipe_file
from tests.bench.jobs import in_hand, shop
from tests.told import entry_text, said, summary_of, why, worries

FILE = bundled_recipes() / "cross-peen-hammer.yaml"

OPENED, DRIFTED, LOOKED_OVER = "Open the eye", "Drift the eye to the haft", "Look it over cold"
PEEN_WELD = "Weld the tongue in the peen"
FACE_HARD, PEEN_HARD = "Harden the face", "Harden the peen"
FACE_TEMPER, PEEN_TEMPER = "Temper the face", "Temper the peen"
RUNG = "Ring it and look for cracks"


@pytest.fixture(scope="module")
def plan() -> Plan:
    return look_back(read_recipe_file(FILE))


def _step(plan: Plan, title: str) -> int:
    return next(step.number for step in plan.recipe.steps if step.title == title)


# ── the metal, by hand ──────────────────────────────────────────────────────────────────────────

#: g/mm³: steel of every kind here (EN 1993-1-1 §3.2.2).
STEEL = 7.85e-3


def _taper_mm3(wide: float, thick: float, end_thick: float, length: float) -> float:
    """A taper that keeps its width: a trapezium, that wide."""
    return wide * (thick + end_thick) / 2 * length


def _oval_hole_mm3() -> float:
    """The eye's hole by the prismatoid formula, its middle section from the mean of the two mouths."""
    near, middle, far = (pi / 4 * a * b for a, b in ((26, 18), (26.75, 18.75), (27.5, 19.5)))
    return 38 / 6 * (near + 4 * middle + far)


FINISHED_MM3 = {
    "peen": _taper_mm3(34, 34, 12, 50),
    "eye": 44 * 38 * 42 - _oval_hole_mm3(),
    "poll": 35 * 35 * 38.0,
}


def _loss_mm(temperature_c: float, minutes: float) -> float:
    """What a heat takes off a face: Païdassi 1958 (from memory), 0.564 mm of metal to 1 mm of scale, and the
    30 % of it that a smith's fire takes (judgement)."""
    k_cm2_s = 6.1 * exp(-169450 / (8.314 * (temperature_c + 273.15)))
    return 0.3 * 0.564 * 10 * sqrt(k_cm2_s * minutes * 60)


# White 2200 °F and light yellow 1975 °F: White and Taylor's colours (from memory).
WHITE, LIGHT_YELLOW = _loss_mm(1204, 3), _loss_mm(1079, 3)
TACKED, WELDED, NORMALISED = _loss_mm(1200, 4), _loss_mm(1250, 4), _loss_mm(850, 5)


def _before(after: float, heats: float, loss: float, girth: float, area: float, ends: float = 0.0) -> float:
    """The volume before so many heats, of a bar of this girth and section."""
    return after + heats * loss * (girth / area * after + ends * area)


def _bar_of_poll_mm() -> float:
    area, girth = 36.0**2, 4 * 36.0  # between the 40 mm of the bar and the finished 35
    metal = 35**2 * (38 + 1.4)  # and the skin that is ground off
    for heats, loss in ((3, NORMALISED), (2, LIGHT_YELLOW), (3, WELDED)):
        metal = _before(metal, heats, loss, girth, area, 1)
    metal = metal / 0.99 - 37 * 37 * 11  # squeezed out; the steel face brings the rest
    for heats, loss in ((1, TACKED), (3, WHITE)):
        metal = _before(metal, heats, loss, girth, area, 1)
    return metal * 1.03 / 40**2


def _bar_of_peen_mm() -> float:
    area, girth = 35 * 26.0, 2 * (35 + 26.0)
    metal = _taper_mm3(34, 34, 14, 50 + 1.3)  # 12 at its end when 1 mm is ground off either side
    for heats, loss in ((3, NORMALISED), (2, LIGHT_YELLOW), (3, WELDED)):
        metal = _before(metal, heats, loss, girth, area, 1)
    metal = metal / 0.99 - _taper_mm3(35, 15.5, 4, 28)
    for heats, loss in ((1, TACKED), (2, LIGHT_YELLOW), (4, WHITE)):
        metal = _before(metal, heats, loss, girth, area, 1)
    return metal * 1.03 / 40**2


def _bar_of_eye_mm() -> float:
    # Two cheeks, each with an outside and an inside; the slug is 8 mm of a slot of 24 by 9.
    skins = 2 * (44 + 38) * 42 - 2 * pi / 4 * 26.75 * 18.75 + 70 * 38.0
    metal = FINISHED_MM3["eye"] + 0.5 * 38 * 42 + 70 * 38 * 0.2  # the skin, and 0.4 mm filed out of the hole
    metal += skins * (3 * NORMALISED + 2 * LIGHT_YELLOW + 5 * WHITE)
    metal += ((24 - 9) * 9 + pi / 4 * 9**2) * 8
    return metal * 1.02 / 40**2


@pytest.mark.parametrize(
    ("zone", "by_hand_mm"),
    [("peen", _bar_of_peen_mm()), ("eye", _bar_of_eye_mm()), ("poll", _bar_of_poll_mm())],
)
def test_the_bar_marked_out_is_what_plain_arithmetic_gives(plan: Plan, zone: str, by_hand_mm: float) -> None:
    # Half a millimetre: the surfaces by hand are rough, and a mark is no better.
    assert plan.start_mm3[zone] / 40**2 == pytest.approx(by_hand_mm, abs=0.5)


def test_the_head_weighs_what_its_drawing_does_and_what_a_forging_hammer_does(plan: Plan) -> None:
    # What normalising and hardening scale off the finished faces: some 100 cm² of them, 0.03 mm deep, 3 g.
    as_drawn_g = sum(FINISHED_MM3.values()) * STEEL
    assert as_drawn_g - plan.finished_mass.value == pytest.approx(3.0, abs=1.5)
    # 0.5 to 1.8 kg are hammers (from memory); 900 to 1200 g was asked for.
    assert 900 < plan.finished_mass.value < 1200


def test_the_body_is_cut_short_by_about_what_the_steel_and_the_drawing_add(plan: Plan) -> None:
    cut = next(cut for cut in plan.cuts if cut.zone == "poll")
    # 11 mm of face on 37 mm square, then drawn to 35 mm square: 1.118 times as long; some is lost.
    assert (cut.length.value + 11) * (37 / 35) ** 2 == pytest.approx(38 + 1.4, abs=3.5)
    assert cut.short_by.value > 8


def test_the_cheeks_stay_sound_and_the_eye_is_not_stretched_too_far(plan: Plan) -> None:
    eye = plan.recipe.drawing["eye"].limits
    # Two fifths of the hammer's width: US Simplified Practice Recommendation, forged tools (second-hand).
    assert eye["hole_width"].nominal / eye["width"].nominal == pytest.approx(0.40, abs=0.03)
    # Up to 1.3 times the slot's rim: judgement. The ellipse's rim by the root mean square of its axes.
    slot_mm = 2 * (24 - 9) + pi * 9
    assert pi * sqrt((27.5**2 + 19.5**2) / 2) / slot_mm < 1.3


def test_the_kerf_is_two_thirds_of_the_eye_s_depth(plan: Plan) -> None:
    haft = next(step for step in plan.recipe.steps if step.operation == "haft")
    depth_mm = plan.recipe.drawing["eye"].limits["thickness"].nominal
    assert haft.targets["kerf_depth"].contains(depth_mm * 2 / 3)  # from memory


def test_face_and_peen_are_asked_to_be_as_hard_as_a_hammer_and_the_eye_never_quenched(plan: Plan) -> None:
    tempers = [step for step in plan.recipe.steps if step.operation == "temper"]
    for step in tempers:
        # DIN 1041, engineers' hammers: 50 to 58 HRC on the face, at most 30 in the eye (confirmed).
        assert 50 <= step.targets["hardness"].low < step.targets["hardness"].high <= 58
        # Struck tools stay below 260 °C: tempered-martensite embrittlement (from memory).
        assert step.targets["temperature"].high <= 260
    hardened = [zone for step in plan.recipe.steps if step.operation == "harden" for zone in step.heated]
    assert hardened == ["poll", "peen"]


# ── a day at the forge ──────────────────────────────────────────────────────────────────────────


def _measured(check: Check, hand: random.Random) -> str:
    """What a good hand brings about: a tenth of the limits' width either way, nearly always."""
    if check.kind is Kind.TEST:
        return "pass"
    if check.kind is Kind.GAP:
        return f"{hand.uniform(0.1, 0.35):.1f}"
    wanted = check.wanted
    aim = wanted.limits.nominal if wanted is not None else None
    if check.expected is not None:
        aim = check.expected.value
    assert aim is not None, check.name
    spread = aim * 0.004
    if wanted is not None and wanted.limits.is_two_sided:
        spread = (wanted.limits.high - wanted.limits.low) / 20
    return f"{hand.gauss(aim, spread):.1f}"


def _work(session: Session, hand: random.Random, but: dict[str, str] | None = None) -> None:
    """Heat and measure as the step in hand asks, but for what is to come out otherwise."""
    step = session.standing().step
    assert step is not None
    for _ in range(step.heats_planned):
        session.heat()
    for check in session.standing().checks:
        session.read(check.name, (but or {}).get(check.name) or _measured(check, hand))


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


@pytest.fixture
def hand() -> random.Random:
    return random.Random(3)


def test_an_eye_drifted_too_wide_is_told_at_once_and_can_be_hafted_thicker(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, DRIFTED, hand)
    for _ in range(2):
        session.heat()
    told = session.read("eye.hole_width", "19.6")  # the drift went one blow too far: 17.6 was wanted
    assert told.bad_news
    assert "gone past" in said(told)
    assert "18.1 mm" in said(told)
    assert session.standing().verdict == "off plan"
    assert "hole width" in why(session.standing())

    best = session.ways_back()[0]
    assert best.name == "accept-eye-hole-width"
    assert (best.verdict, best.heats, best.soundness.value) == ("on plan", 0, "good practice")
    session.take(best.name)
    assert session.standing().verdict == "on plan"
    wanted = next(size.wanted for size in session.standing().sizes if size.name == "eye.hole_width")
    assert wanted.limits.high >= 19.6
    # The recipe's other sizes are as they were: the far mouth still takes the haft that was meant.
    far = next(size.wanted for size in session.standing().sizes if size.name == "eye.far_hole_width")
    assert far.limits.nominal == 19.5


def test_an_eye_opened_too_wide_for_its_step_but_not_for_the_hammer_loses_nothing(
    hand: random.Random,
) -> None:
    session = _begun()
    _go_to(session, OPENED, hand)
    _work(session, hand, {"eye.hole_width": "17.0"})  # 15 was wanted, and 17.6 is where it ends
    check = next(check for check in session.standing().checks if check.name == "eye.hole_width")
    assert check.verdict == "past step"
    # Too wide for this step, not for the hammer: nothing is lost, so nothing is off plan.
    assert session.standing().verdict == "on plan"


def test_a_dull_ring_before_hardening_sends_the_smith_back_to_the_weld(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, LOOKED_OVER, hand)
    heats = session.standing().heats_total
    told = session.read("eye.ring_test", "fail")
    assert told.bad_news
    assert "open joint" in said(told)
    assert "eye ring test is failed" in worries(session.done_warning())

    while session.standing().step is not None and in_hand(session) > _step(session.plan, PEEN_WELD):
        session.back()
    assert "another welding heat" in said(session.read("peen.weld_line", "fail"))
    assert "peen weld line is failed" in worries(session.done_warning())
    assert said(session.heat()) == "Heat 4 is marked; 3 were planned."
    session.read("peen.weld_line", "pass")
    for check in session.standing().checks:
        if check.is_open:  # the heat has worked it since it was read
            session.read(check.name, _measured(check, hand))
    assert worries(session.done_warning()) == ""
    session.done()

    _go_to(session, LOOKED_OVER, hand)
    _work(session, hand)
    assert worries(session.done_warning()) == ""
    # One more welding heat, and what came after it done twice: 2 + 2 + 2 + 3 heats.
    assert session.standing().heats_total == heats + 1 + 9
    assert session.standing().verdict == "on plan"


def test_no_rest_from_the_first_quench_until_both_ends_are_tempered(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, FACE_HARD, hand)
    assert not session.standing().rest_reason
    for title in (PEEN_HARD, FACE_TEMPER, PEEN_TEMPER):
        _go_to(session, title, hand)
        assert session.standing().rest_reason
        with pytest.raises(EntryFault):
            session.rest()
        assert session.standing().state == "under way"
    _go_to(session, RUNG, hand)
    session.rest()
    assert session.standing().state == "resting"


def test_a_rest_insisted_on_before_the_temper_is_kept_and_told_on_return(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, FACE_TEMPER, hand)
    with pytest.raises(EntryFault, match=PEEN_HARD):
        session.rest()
    assert session.standing().state == "under way"

    assert session.rest(force=True).bad_news
    kept = entry_text(session.history()[-1])
    assert "against advice" in kept
    assert "cracks by itself" in kept
    session.resume()
    assert any("followed by its temper" in line for line in summary_of(session))


def test_the_colour_that_the_temper_reached_can_be_taken_down_though_nothing_asks_for_it(
    hand: random.Random,
) -> None:
    session = _begun()
    _go_to(session, FACE_TEMPER, hand)
    told = session.read("poll.temperature", "dark straw")
    assert not told.bad_news
    assert "248 °C" in said(told)  # the mean of four published tables' dark straw (from memory)
    session.done()
    assert in_hand(session) == _step(session.plan, PEEN_TEMPER)


def test_a_whole_hammer_with_a_wide_eye_and_a_crack_ends_finished(hand: random.Random) -> None:
    session = _begun()
    _go_to(session, DRIFTED, hand)
    _work(session, hand, {"eye.hole_width": "19.6"})
    session.take("accept-eye-hole-width")
    session.done()
    session.rest()
    session.resume()

    _go_to(session, RUNG, hand)
    _work(session, hand, {"poll.ring_test": "fail"})
    assert "poll ring test is failed" in worries(session.done_warning())
    session.note("The wire lay against the cheek. Rung again on a string.")
    session.read("poll.ring_test", "pass")
    assert worries(session.done_warning()) == ""

    while session.standing().step is not None:
        if session.standing().checks and all(check.reading for check in session.standing().checks):
            session.done()
            continue
        # The last step asks for the eye, which would be in doubt unmeasured: the file has left it as drawn.
        filed = {"eye.hole_length": "26", "eye.far_hole_length": "27.5", "eye.far_hole_width": "19.5"}
        _work(session, hand, {"eye.width": "44", **filed})
        session.done()
    standing = session.standing()
    assert standing.state == "finished"
    assert len(standing.done) == standing.steps
    assert standing.verdict == "on plan"
    assert [note.text for note in standing.notes] == [
        "The wire lay against the cheek. Rung again on a string."
    ]
