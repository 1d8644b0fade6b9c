"""What a reading means, in a sentence."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from coach.bench.checks import Check, SizeRead
from coach.bench.judgement import Judgement
from coach.bench.slips import may_be_a_slip
from coach.fire.colours import FIGURE_DOUBT_C
from coach.forms import label
from coach.ledger.verdict import Verdict
from coach.operations.gauges import BY_COLOUR, FINEST, by_gauge
from coach.operations.measures import MARK
from coach.operations.shop_test import Result
from coach.quantities import Figure, Limit, Wanted, counted
from coach.quantities.figure import COVERAGE, Kind
from coach.telling.beyond import off_aim, off_limit
from coach.telling.bounds import write_bound, write_off, write_wanted_of
from coach.telling.figures import write_figure, write_wanted
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

#: What is read of a treatment and of what it left: a heat makes another of it, and works nothing.
_OF_STEEL = (Kind.HARDNESS, Kind.TEMPERATURE, Kind.TIME)

#: What makes a questioned reading stand at once, where there is no key for it.
INSISTING = "insisting"
#: Less than this is no difference in a weighing, whatever the scales.
_SAME_MASS_G = 0.5
#: What a hardness far under what was wanted comes of (common practice, no source).
_TOO_SOFT = (
    "On the steel itself, ground clean, it may read more; else the quench did not take{}: harden it again."
)
_TOO_FAR = ", or the temper went too far"
#: Of a soak at a hardening heat (`coach.metals.hardening`).
_LONGER = (
    "At its own heat so few minutes more cost its skin a little and its grain nothing: let it stand, and "
    "grind the skin off. Hotter, its grain grows."
)
_HARD_ALL_THE_SAME = (
    ": hard, though no step hardens it: it lay in the heat of a quench, or is of another steel."
)
#: Said of a reading that stands though it was told to be impossible; a screen names its key.
SLIP = "A slip? Strike it out."
_AGAIN = f"Take it again; the same reading twice, or {INSISTING}, makes it stand."
_TWICE_MORE = f"Take it again; the same reading twice more, or {INSISTING}, makes it stand."
_ANEW = f"Read it again, or make it anew; the same reading twice, or {INSISTING}, makes it stand."
_AS_ANOTHER = "As {} it would be good."


def cold_size(reading: SizeRead, shown: Shown) -> str:
    """What a reading comes to on cold metal."""
    return (
        write_figure(reading.size, shown, "=") if reading.hot is None else write_figure(reading.cold, shown)
    )


def reading_sentence(check: Check, shown: Shown) -> str:
    """What the latest reading of a size means, and what to do about it; "" before there is one."""
    reading = check.reading
    if reading is None:
        return ""
    told = _read_as(check, reading, shown)
    if reading.stands is not None:
        told += f" Until then the {write_figure(reading.stands, shown)} read before stands."
    if reading.outweighs is not None:
        told += (
            f" The {write_figure(reading.outweighs, shown)} read before is doubted by it, and counts no more."
        )
    if reading.mean is not None and check.dimension != MARK:
        mean = write_figure(reading.mean.size, shown)
        told += f" With what was read just before, {mean} counts: the mean of {reading.mean.of}."
    if reading.outvotes:
        told += f" {_outvoted(reading.outvotes, shown)}"
    if may_be_a_slip(check):
        told += f" {SLIP}"
    if check.for_stone is not None and reading.judged is not None:
        what = "taken off" if reading.judged.taken_off else "left for the stone"
        told += f" But the skin of its steel wants {write_figure(check.for_stone, shown)} more {what}."
    if check.fits:
        return f"{told} {_AS_ANOTHER.format(label(*check.fits.split('.', 1)))}"
    return told


def _outvoted(sizes: Sequence[Figure], shown: Shown) -> str:
    """What is said of readings that others agree against."""
    told = ", ".join(write_figure(one, shown) for one in sizes)
    are, count = ("is", "counts") if len(sizes) == 1 else ("are", "count")
    told += f", read with no heat between, {are} doubted and {count} for nothing"
    return f"{told}; {INSISTING} makes it stand."


def _read_as(check: Check, reading: SizeRead, shown: Shown) -> str:
    told = f"{check.label} {cold_size(reading, shown)}"
    if reading.hot is not None:
        heat = write_figure(reading.hot, shown, "=")
        about = "about " if (reading.hot.doubt or 0.0) > FIGURE_DOUBT_C else ""  # a colour, or nobody said
        told += f" cold ({write_figure(reading.size, shown)} at {about}{heat})"
    if reading.old and reading.later is not None:
        return f"{told}: noted; the {write_figure(reading.later, shown)} read after it counts."
    if reading.old and check.kind is Kind.TEST:
        return f"{told}: before the last heat. Make it again."
    if reading.old and check.kind in _OF_STEEL:
        return f"{told}: before the last heat. Read it again."
    if reading.old and check.dimension == MARK and check.wanted is not None:
        place = write_wanted(check.wanted, shown)
        return f"{told}: marked before the drawing was changed. Make it anew, wanted {place}, and read it."
    if reading.old:
        return f"{told}: read before it was last worked. Read it again."
    if reading.questioned and reading.against:
        return f"{told}: that cannot be right as things stand, {write(reading.against, shown)}. {_AGAIN}"
    if reading.replaces is not None:
        told += f" (it counts instead of the {write_figure(reading.replaces, shown, '=')} read before)"
    impossible = reading.least_possible or reading.most_possible
    if reading.questioned and impossible is not None:
        again = _AGAIN if reading.stands is None else _TWICE_MORE
        if reading.in_section:
            side = "least" if reading.least_possible is not None else "most"
            return (
                f"{told}: that cannot be right as things stand, in the section that this step works to "
                f"the metal makes {write_figure(impossible, shown)} at {side}. {again}"
            )
        side = "less" if reading.least_possible is not None else "more"
        return (
            f"{told}: that cannot be right as things stand, this step cannot make it "
            f"{side} than {write_figure(impossible, shown)}. {again}"
        )
    if reading.questioned and reading.looked_for is not None:
        limits = check.wanted.limits if check.wanted is not None else None
        if (past := past_the_step(check, reading)) is not None:
            far = f"far {past[0]} the {write_bound(past[1], shown)} that this step works to"
            return f"{told}: doubted, for it is {far}. {_AGAIN}"
        expected = COVERAGE * (reading.looked_for.doubt or 0.0)
        if check.dimension != MARK and abs(reading.cold.value - reading.looked_for.value) <= expected:
            return f"{told}: doubted, for what was read since speaks against it. {_AGAIN}"
        if check.dimension == MARK and limits is not None:  # no place on a bar is impossible
            off = Figure(abs(reading.cold.value - limits.nominal), check.kind, reading.cold.doubt)
            return f"{told}: that is {write_figure(off, shown, 'hair')} off its place. {_ANEW}"
        return (
            f"{told}: that is not what was expected, {write_figure(reading.looked_for, shown, '±')}. {_AGAIN}"
        )
    if reading.against_metal and impossible is not None:
        side = "less" if reading.least_possible is not None else "more"
        return (
            f"{told}: it stands, and contradicts the metal, for this step cannot make it "
            f"{side} than {write_figure(impossible, shown)}. Measure it again before all else."
        )
    if check.kind is Kind.MASS and reading.looked_for is not None:
        return f"{told}: {_of_mass(reading.cold, reading.looked_for, shown)}"
    if check.kind is Kind.TEST:
        return f"{told}{_of_test(check, reading.size.value, shown)}"
    if reading.judged is None:
        return f"{told}: noted."
    if reading.judged.outdone_by is not None:
        more = write_figure(reading.judged.outdone_by, shown)
        told += (
            f": the {more} read before it counts, for what that heat did stays done "
            "(strike that out if it was a slip)"
        )
    if reading.judged.mean is not None:
        told += f", {write_figure(reading.judged.mean, shown, '=')} as the mean of {reading.judged.mean_of}"
    told += f": {_judged(reading.judged, reading, shown, of_hole='hole' in check.dimension)}"
    if check.kind is Kind.HARDNESS and reading.judged.verdict is Verdict.OUT and reading.judged.below:
        told += f" {_TOO_SOFT.format(_TOO_FAR if check.tempered else '')}"
    if check.if_out and reading.judged.verdict is Verdict.MORE_TO_GO:
        told += f" {sentence(check.if_out, shown)}"
    if check.if_out and reading.judged.verdict is Verdict.OUT:
        told += f" {write(check.if_out, shown)}"
    if reading.judged.soaked is not None:
        wanted, run = (write_wanted(one, shown) for one in (reading.judged.soaked, reading.judged.wanted))
        told += f" A colour tells of a run of minutes, where {run} does what a soak at {wanted} does."
    return told


def past_the_step(check: Check, reading: SizeRead) -> tuple[str, Limit] | None:
    """The side and the limit of the step that a doubted reading is held against; None for any other doubt.

    It is not so far from what was looked for, and that with its doubt would tell of no reason to doubt it.
    """
    looked, limits = reading.looked_for, check.wanted.limits if check.wanted is not None else None
    if looked is None or limits is None:
        return None
    if abs(reading.cold.value - looked.value) > COVERAGE * (looked.doubt or 0.0):
        return None
    below = reading.cold.value < limits.low
    if limits.low <= reading.cold.value <= limits.high:
        return None
    return "under" if below else "over", Limit(Wanted(limits, check.kind), low=below)


def _of_test(check: Check, outcome: float, shown: Shown) -> str:
    """What to do after a test; a pass is no proof, so nothing more is said of it."""
    told, result = check.test, Result.of(outcome)
    if check.left_soft and check.verdict is Verdict.OUT:
        return f": hard, where it is to be soft. {write(check.if_out, shown)}"
    if check.left_soft and result is Result.FAIL:
        return f"; {told.after_fail}."
    if check.left_soft and result is Result.PASS:
        return _HARD_ALL_THE_SAME
    if result is Result.PASS and check.waits_for:
        return f"; that proves nothing yet: step {check.waits_for} is the first to treat the {check.zone}."
    if result is not Result.PASS and check.verdict is Verdict.GOOD:
        skin = "" if check.tempered else " Over steel so hard a file bites a soft skin alone: grind it off."
        return f": settled by the hardness that was measured.{skin}"
    if result is not Result.PASS and check.waits_for:
        return f"; step {check.waits_for} is the first to treat the {check.zone}: make the test after it."
    after = {Result.DOUBT: f"; {told.after_doubt}.", Result.FAIL: f"; {told.after_fail}."}
    return after.get(result, ".")


def _of_mass(found: Figure, reckoned: Figure, shown: Shown) -> str:
    """A weighing is not good or bad: it says how much metal there is."""
    off = found.value - reckoned.value
    told = write_figure(reckoned, shown)
    if abs(off) <= max(found.doubt or 0.0, _SAME_MASS_G):
        return f"as reckoned ({told})."
    by = Figure(abs(off), Kind.MASS, hypot(found.doubt or 0.0, reckoned.doubt or 0.0))
    return f"{write_figure(by, shown)} {'more' if off > 0.0 else 'less'} than the {told} reckoned."


def _judged(judged: Judgement, reading: SizeRead, shown: Shown, *, of_hole: bool) -> str:
    wanted = write_wanted_of(judged.wanted, reading.cold, shown)
    limits, kind = judged.wanted
    if judged.verdict is Verdict.GOOD and kind is Kind.TIME and judged.beyond.value > 0.0:
        longest = write_figure(Figure(limits.high, kind), shown)
        return f"{write_figure(judged.beyond, shown, 'hair')} over the {longest} allowed. {_LONGER}"
    if judged.verdict is Verdict.GOOD:
        return f"good, wanted {wanted}."
    bound = write_bound(Limit(judged.wanted, low=judged.below), shown) if kind is not Kind.TEST else ""
    if reading.is_good_by_eye:
        return f"good as far as the eye can tell, wanted {wanted}."
    if judged.verdict is Verdict.UNSURE:
        return f"unsure, {_unsettled(judged, reading, wanted, bound, shown)}."
    if judged.verdict is Verdict.MORE_TO_GO:
        more = f", about {counted(judged.heats, 'more heat')}" if judged.heats else ""
        how = ": dress the edges back" if judged.run_wide else ""
        to_go, aim = off_aim(reading, judged, shown)
        return f"more to go, {write_off(to_go, shown)} to the {aim} aimed at{more}{how}."
    side = "under" if judged.below else "over"
    beyond, bound = off_limit(reading, judged, shown)
    off = f"{write_off(beyond, shown)} {side} the {bound} allowed"
    if judged.verdict is Verdict.GONE_PAST:
        work = "taking off more" if judged.taken_off else "driving it further" if of_hole else "hammering on"
        return f"gone past, {off}; {work} will not bring it back."
    if judged.verdict is Verdict.PAST_STEP:
        return f"past this step, {off}, and inside what is asked of it from here on."
    return f"out, {off}."


def _unsettled(judged: Judgement, reading: SizeRead, wanted: str, bound: str, shown: Shown) -> str:
    if reading.scattered:
        least, most = (write_figure(one, shown) for one in (reading.scattered[0], reading.scattered[-1]))
        count = len(reading.scattered)
        return f"for it was read {count} times, {least} to {most}, and no two agree: measure again"
    if judged.cold_tells:
        gauge = "no gauge" if reading.gauge == FINEST else f"no reading {by_gauge(reading.gauge)}"
        return f"and {gauge} settles {wanted} on hot metal: let it cool and read it cold"
    if judged.coarse_before:
        return f"{by_gauge(reading.gauge)} it cannot be settled"
    if reading.gauge == BY_COLOUR:
        return f"a colour cannot settle {wanted}: by pyrometer, or by a test of the steel"
    if judged.by_eye:
        side = "under" if judged.below else "over"
        return f"by eye it seems {side} the {bound} allowed: hold a template to it"
    if judged.too_coarse and reading.gauge == FINEST:
        return f"and no gauge of the shop can settle {wanted}"
    if judged.too_coarse:
        return f"and no reading {by_gauge(reading.gauge)} can settle {wanted}: use a finer gauge"
    how = "measure again"
    if judged.unsure_again:
        how = f"read once more {by_gauge(reading.gauge)} it is still too near to tell"
        finer = reading.gauge != FINEST and judged.wanted.kind is Kind.LENGTH
        how += (
            ": use a finer gauge"
            if finer
            else ", and nothing in the shop reads it finer: end the step over it"
        )
    elif reading.hot is not None:
        how += ", cold"
    elif reading.gauge != FINEST and judged.wanted.kind is Kind.LENGTH:
        how += ", or with a finer gauge"
    if judged.beyond.value:
        beyond, bound = off_limit(reading, judged, shown)
        off = write_off(beyond, shown)
        return f"it seems {off} {'under' if judged.below else 'over'} the {bound} allowed: {how}"
    return f"too near the {bound} allowed: {how}"
