"""What the coach says, in the shop's words: one sentence for each thing that can happen."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.standing import CheckView
from coach.forms import label, said
from coach.ledger.course import Course, Outcome
from coach.ledger.gauges import FINEST
from coach.ledger.heats import heats_to_go
from coach.ledger.reading import ColdReading, Surprise
from coach.ledger.verdict import GUARD_FACTOR, Verdict
from coach.ledger.weighing import MASS, SLUG
from coach.operations import operation
from coach.operations.measures import KINDS, limits_text
from coach.operations.shop_tests import DOUBT, FAIL, SHOP_TESTS
from coach.quantities import (
    Shown,
    write_as_read,
    write_count,
    write_mass,
    write_temperature,
)
from coach.recipe.model import Recipe, Step


def by_gauge(gauge: str) -> str:
    """How a size was read: "by calliper", "by eye"."""
    return gauge if gauge.startswith("by ") else f"by {gauge}"


def kind_of(step: Step | None, dimension: str) -> str:
    """What a size is: one of `coach.operations.measures`."""
    if dimension in (MASS, SLUG):
        return "mass"
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or "length"


def size_text(size: float, kind: str, shown: Shown) -> str:
    """A size with its unit."""
    return KINDS[kind].write(size, shown)


def read_text(size: float, kind: str, shown: Shown) -> str:
    """A size as the gauge gave it, with its unit: not coarser than it was typed."""
    if kind == "angle":
        return f"{round(size, 1):g}°"
    finer = kind == "length" or (kind == "gap" and shown.system == "mm")
    return write_as_read(size, shown) if finer else size_text(size, kind, shown)


def reading_sentence(outcome: Outcome, course: Course, recipe: Recipe, shown: Shown) -> str:
    """What a reading means, and what to do about it."""
    reading = outcome.mark.reading
    kind = kind_of(course.step, reading.dimension)
    name = label(reading.zone, reading.dimension)
    if outcome.surprise is None:
        size, cold = reading.size_mm, None
    else:
        cold = outcome.surprise.cold
        size = cold.size_mm
    if cold is None or reading.hot_c is None:
        told = f"{name} {read_text(reading.size_mm, kind, shown)}"
    else:
        at = f"{size_text(reading.size_mm, kind, shown)} at {write_temperature(reading.hot_c, shown)}"
        told = f"{name} {size_text(size, kind, shown)} cold ({at})"
    if outcome.questioned and outcome.surprise is not None:
        expected = outcome.surprise.expected
        give = size_text(GUARD_FACTOR * expected.doubt, kind, shown)
        return (
            f"{told}: that cannot be right as things stand, about {size_text(expected.value, kind, shown)} "
            f"give or take {give} was expected. Take it again; the same reading twice, or insisting, "
            f"makes it stand."
        )
    if kind == "mass" and outcome.surprise is not None:
        return f"{told}: {_mass_words(outcome.surprise, shown)}"
    if kind == "test":
        return f"{told}{_test_words(reading.dimension, size)}"
    if outcome.judged is None or outcome.limits is None:
        return f"{told}: noted."
    return f"{told}: {_verdict_words(outcome, course, recipe, cold, size, kind, shown)}"


def _test_words(test: str, outcome: float) -> str:
    """What to do after a test; a pass is no proof, so nothing more is said of it."""
    told = SHOP_TESTS[said(test)]
    return {DOUBT: f"; {told.after_doubt}.", FAIL: f"; {told.after_fail}."}.get(outcome, ".")


def _mass_words(surprise: Surprise, shown: Shown) -> str:
    """A weighing is not good or bad: it says how much metal there is."""
    off = surprise.cold.size_mm - surprise.expected.value
    reckoned = write_mass(surprise.expected.value, shown)
    if abs(off) <= max(surprise.cold.doubt_mm, 0.5):
        return f"as reckoned ({reckoned})."
    return f"{write_mass(abs(off), shown)} {'more' if off > 0.0 else 'less'} than the {reckoned} reckoned."


def _verdict_words(
    outcome: Outcome,
    course: Course,
    recipe: Recipe,
    cold: ColdReading | None,
    size: float,
    kind: str,
    shown: Shown,
) -> str:
    judged, limits = outcome.judged, outcome.limits
    assert judged is not None
    assert limits is not None
    wanted = limits_text(limits, kind, shown)
    if judged.verdict is Verdict.GOOD:
        return f"good, wanted {wanted}."
    if judged.verdict is Verdict.UNSURE:
        if judged.too_coarse:
            gauge = by_gauge(outcome.mark.reading.gauge)
            return f"unsure, and no reading {gauge} can settle {wanted}: use a finer gauge."
        bound = size_text(limits.low if judged.below else limits.high, kind, shown)
        if outcome.mark.reading.gauge == "by colour":
            return f"unsure, a colour cannot settle {wanted}: by pyrometer, or by a test of the steel."
        how = "measure again"
        if outcome.mark.reading.hot_c is not None:
            how += ", cold"
        elif outcome.mark.reading.gauge != FINEST and kind == "length":
            how += ", or with a finer gauge"
        return f"unsure, too near the {bound} allowed: {how}."
    if judged.verdict is Verdict.MORE_TO_GO:
        heats = heats_to_go(course, outcome)
        more = f", about {write_count(heats, 'more heat')}" if heats else ""
        away = size_text(abs(size - limits.nominal), kind, shown)
        how = ": dress the edges back" if outcome.run_wide else ""
        return f"more to go, {away} to the {size_text(limits.nominal, kind, shown)} aimed at{more}{how}."
    off = size_text(judged.beyond_mm, kind, shown)
    bound = size_text(limits.low if judged.below else limits.high, kind, shown)
    side = "under" if judged.below else "over"
    if judged.verdict is Verdict.GONE_PAST:
        work = "taking off more" if operation(course.step.operation).FIXES else "hammering on"
        return f"gone past, {off} {side} the {bound} allowed; {work} will not bring it back."
    return f"out, {off} {side} the {bound} allowed."


#: How a test's verdict is worded.
_TEST_WORRIES = {Verdict.OUT.value: "failed", Verdict.UNSURE.value: "in doubt"}


def unsettled(checks: Sequence[CheckView]) -> str:
    """What of a step's sizes is not as it should be; "" when all are good."""
    worries: dict[str, list[str]] = {}
    for check in checks:
        if check.reading is None:
            word = "not tried" if check.kind == "test" else "not measured"
            worries.setdefault(word, []).append(check.label)
        elif check.reading.questioned:
            worries.setdefault("to be measured again", []).append(check.label)
        elif check.verdict not in (None, Verdict.GOOD.value):
            word = str(check.verdict)
            word = _TEST_WORRIES.get(word, word) if check.kind == "test" else word
            worries.setdefault(word, []).append(check.label)
    return "; ".join(f"{_which(labels)} {what}" for what, labels in worries.items())


def _which(labels: Sequence[str]) -> str:
    """One or two sizes by their names; more would hide what is to be done next."""
    if len(labels) == 1:
        return f"{labels[0]} is"
    return f"{' and '.join(labels) if len(labels) == 2 else f'{len(labels)} sizes'} are"
