"""A zone that splits into others: their metal is its own; what a crooked cut gives one the other lacks."""

from __future__ import annotations

import random
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.stepping import step_on
from coach.ledger.workpiece import Workpiece, at_stock, size_name, volume_name
from coach.operations.does import Cause
from coach.recipe.reader import read_recipe
from tests.recipes.texts import FORKED as FORK


def planned(text: str) -> Plan:
    return look_back(read_recipe(text, "fork.yaml"))


def after(plan: Plan, number: int) -> Workpiece:
    """The job once the step of that number is done, nothing measured."""
    now = at_stock(plan)
    for step in plan.recipe.steps[:number]:
        now = step_on(plan, now, step)
    return now


def test_the_bar_holds_what_the_longer_branch_needs_of_its_half() -> None:
    plan = planned(FORK)
    # By hand: left wants 6 · 6 · 100 = 3600 mm³, half of the end; so the end is 7200 mm³ and 45 mm of bar.
    assert plan.start_mm3["end"] == pytest.approx(7200)
    assert plan.bar_of("end").length_mm == pytest.approx(45)
    assert plan.pieces["fork"].length.value == pytest.approx(145)
    # The right one has as much, of which it needs 2880: at 6 mm square it is 100 mm long too.
    assert plan.stages["right"][-1].form_after.size_mm("length") == pytest.approx(100)
    first = plan.stages["left"][0].form_before
    assert first.sizes_mm() == pytest.approx({"width": 10, "thickness": 8, "length": 45})


def test_shares_that_fit_the_branches_leave_no_metal_over() -> None:
    plan = planned(FORK.replace("left and right", "left 55.6 % and right"))
    # By hand: 3600 and 2880 are 55.56 % and 44.44 % of 6480.
    assert plan.start_mm3["end"] == pytest.approx(6480, rel=2e-3)
    assert plan.stages["right"][-1].form_after.size_mm("length") == pytest.approx(80, rel=2e-3)


def test_a_saw_takes_its_slit_of_the_width() -> None:
    plan = planned(FORK.replace("split: end", "split: end, slit 2, cold"))
    cut = plan.by_step[2]["end"]
    # By hand: 2 mm · 8 mm · the length; either half is then 9 mm wide.
    assert cut.taken_mm3 == {Cause.KERF: pytest.approx(16 * cut.form_before.length_mm)}
    assert plan.stages["left"][0].form_before.size_mm("width") == pytest.approx(9)
    assert cut.after_mm3 == pytest.approx(7200)
    assert plan.stages["left"][0].form_before.length_mm == pytest.approx(cut.form_before.length_mm)


@given(
    share=st.floats(0.2, 0.8),
    slit=st.floats(0.0, 3.0),
    scale=st.sampled_from(("none", "{forging: 0.05 mm}")),
    number=st.integers(2, 4),
)
@settings(max_examples=25, deadline=None)
def test_no_metal_comes_or_goes_at_a_split(share: float, slit: float, scale: str, number: int) -> None:
    names = ["left", "right", "third", "fourth"][:number]
    each = "".join(f"      {name}: square 6, long 80\n" for name in names[2:])
    text = FORK.replace("scale: none", f"scale: {scale}").replace(
        "split: end", f"split: end, slit {slit:.2f} mm"
    )
    text = text.replace("left and right", f"left {100 * share:.2f} % and " + " and ".join(names[1:]))
    text = text.replace("long 80\nsteps", f"long 80\n{each}steps").replace(", slit 0.00 mm", "")
    plan = planned(text + "".join(f"  - draw: {name}\n" for name in names[2:]))
    before, now = after(plan, 1), after(plan, 2)
    stages = plan.by_step[2].values()
    taken = sum(sum(stage.taken_mm3.values()) for stage in stages)
    left = sum(now.volume_mm3(name) for name in names)
    assert left == pytest.approx(before.volume_mm3("end") - taken, rel=1e-9)
    assert now.volume_mm3("end") == 0.0
    for name in names:
        assert now.form(name).volume_mm3() == pytest.approx(now.volume_mm3(name), rel=1e-9)


def test_the_doubt_of_two_branches_together_is_that_of_the_whole() -> None:
    plan = planned(FORK)
    before, now = after(plan, 1), after(plan, 2)
    one, other = volume_name("left"), volume_name("right")
    both = now.belief.variance_of({one: 1.0, other: 1.0})
    assert both == pytest.approx(before.belief.variance(volume_name("end")), rel=1e-9)
    wide = {size_name("left", "width"): 1.0, size_name("right", "width"): 1.0}
    assert now.belief.variance_of(wide) == pytest.approx(
        before.belief.variance(size_name("end", "width")), rel=1e-9
    )
    # The cut's own doubt is far more than the bar's: what one has more the other has less.
    assert now.belief.covariance(one, other) < 0.0


def test_the_belief_agrees_with_a_thousand_crooked_cuts() -> None:
    plan = planned(FORK.replace("left and right", "left 60 % and right"))
    before, now = after(plan, 1), after(plan, 2)
    die = random.Random(7)
    names = [volume_name("end"), size_name("end", "width"), size_name("end", "thickness")]
    mean = [before.belief.mean(name) for name in names]
    cov = [[before.belief.covariance(a, b) for b in names] for a in names]
    lower = _cholesky(cov)
    rows = []
    for _ in range(20_000):
        chance = [die.gauss(0, 1) for _ in names]
        volume, wide, thick = (
            m + sum(f * c for f, c in zip(row, chance, strict=True))
            for m, row in zip(mean, lower, strict=True)
        )
        off = die.gauss(0, 1.0)  # mm: the doubt of a hot cut
        long = volume / (wide * thick)
        rows.append(((0.6 * wide + off) * thick * long, (0.4 * wide - off) * thick * long, 0.6 * wide + off))
    believed = [volume_name("left"), volume_name("right"), size_name("left", "width")]
    for i, a in enumerate(believed):
        for j, b in enumerate(believed):
            drawn = _covariance([row[i] for row in rows], [row[j] for row in rows])
            scale = now.belief.doubt(a) * now.belief.doubt(b)
            assert now.belief.covariance(a, b) / scale == pytest.approx(drawn / scale, abs=0.03), (a, b)


def _cholesky(cov: list[list[float]]) -> list[list[float]]:
    size = len(cov)
    lower = [[0.0] * size for _ in range(size)]
    for i in range(size):
        for j in range(i + 1):
            rest = cov[i][j] - sum(lower[i][k] * lower[j][k] for k in range(j))
            lower[i][j] = sqrt(max(rest, 0.0)) if i == j else rest / lower[j][j]
    return lower


def _covariance(one: list[float], other: list[float]) -> float:
    a, b = sum(one) / len(one), sum(other) / len(other)
    return sum((x - a) * (y - b) for x, y in zip(one, other, strict=True)) / len(one)


def test_a_branch_is_split_again() -> None:
    text = FORK.replace(
        "left: square 6, long 100",
        "left: 10 x 8, splits into upper and lower\n      "
        "upper: square 4, long 60\n      lower: square 4, long 60",
    )
    text = text.replace("  - draw: left\n", "  - split: left\n  - draw: upper\n  - draw: lower\n")
    plan = planned(text)
    # By hand: 4 · 4 · 60 = 960 each, 1920 for left; right wants 2880, so the end has twice that.
    assert plan.start_mm3["end"] == pytest.approx(5760)
    assert plan.start_mm3["upper"] == pytest.approx(1440)
    now = after(plan, 3)
    assert sum(now.volume_mm3(zone) for zone in ("upper", "lower", "right")) == pytest.approx(5760)
    assert not now.zones["left"].has_form


def test_a_taper_is_split_into_tapers() -> None:
    text = FORK.replace("end: 20 x 8,", "end: 20 x 8 to 12 x 6,").replace(
        "  - split: end\n", "  - taper: end, 20 x 8 to 12 x 6\n  - split: end\n"
    )
    plan = planned(text)
    branch = plan.stages["left"][0].form_before.sizes_mm()
    assert branch["width"] == pytest.approx(10)
    assert branch["end_width"] == pytest.approx(6)
    assert branch["thickness"] == pytest.approx(8)
    assert branch["end_thickness"] == pytest.approx(6)
    assert branch["length"] == pytest.approx(plan.by_step[3]["end"].form_before.length_mm)


def test_what_is_split_at_the_start_of_the_bar_has_its_free_ends_there() -> None:
    text = FORK.replace("      stem: 20 x 8, long 100\n", "").replace(
        "right: square 6, long 80\n", "right: square 6, long 80\n      stem: 20 x 8, long 100\n"
    )
    states = at_stock(planned(text)).zones
    assert states["end"].bare_ends == states["left"].bare_ends == states["right"].bare_ends == (False, True)
    assert planned(text).pieces["fork"].marks[0].ends == "end"


def test_layers_are_counted_through_a_split() -> None:
    text = FORK.replace(
        "    metal: mild steel\n    bar: 20 x 8\n",
        "    stack:\n      - 1084, 20 x 4\n      - mild steel, 20 x 4\n",
    ).replace("  - split: end\n", "  - weld shut: end, 20 x 8\n  - split: end\n")
    assert planned(text).pieces["fork"].layers == 2
