"""What the steel, its edge and the finished head say of a step."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from coach.bench.edge_known import edge_words
from coach.bench.skin import WORTH_TELLING_MM
from coach.fire.limits import burning_words
from coach.ledger.course import Course
from coach.ledger.head import Head, head
from coach.ledger.hot_work import grades_in, steels_of
from coach.ledger.hottest_temper import ReadIn, hottest_temper, left_by, soaked_at
from coach.ledger.plan import Plan
from coach.ledger.quenched import best_quenched_hrc
from coach.ledger.shared_carbon import shared_carbon
from coach.ledger.skinning import skins
from coach.ledger.tempered import (
    NOT_TAUGHT,
    OwnCurves,
    hardens_through,
    quenched_in,
    row_of,
    temper_heat_c,
)
from coach.ledger.unsaid_heat import left_unsaid, unsaid_heat
from coach.ledger.weigh_treatment import normalised_higher
from coach.metals.grade_file import Grade
from coach.metals.tempering_table import TemperingRow
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.quantities.figure import Kind, Span, celsius, mm, seconds
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, run_on, say
from coach.recipe.model import Step


def steel_advice(
    plan: Plan, step: Step, course: Course | None, own: OwnCurves = NOT_TAUGHT, read_in: ReadIn = ()
) -> tuple[Words, ...]:
    """What is to be known of a step besides what the fire says; nothing for most forging.

    `course` is the step in hand as far as it has gone; None for a plan. `own` are the smith's own tempering
    curves, `read_in` the steps of the job with what was read in each.
    """
    if step.does(Does.BEVELS) or step.does(Does.BENDS):
        from coach.bench.bevel import bevel_advice

        return tuple(bevel_advice(plan, step, course))
    told = (words for what, tell in _TELL.items() if step.does(what) for words in tell(plan, step))
    coupon = _coupon(plan, step)
    burnt = _burns(plan, step) if step.heat_kind is HeatKind.TREATMENT else ()
    tempered = _temper(plan, step, own, read_in) if step.does(Does.TEMPERS) else ()
    return (*coupon, *burnt, *told, *tempered, *_under_the_skin(plan, step))


def breaks_a_coupon(plan: Plan, step: Step) -> bool:
    """Whether a step tells to weld a coupon of two metals and to break it."""
    return any(_coupon(plan, step))


def _coupon(plan: Plan, step: Step) -> Iterator[Words]:
    """Before the first step of a weld of two metals: what is done once with metals not welded before."""
    weld = next(
        (
            one
            for one in plan.recipe.steps[step.number - 1 :]
            if (one.lays or one.does(Does.CLOSES)) and one.zones == step.zones
        ),
        None,
    )
    if weld is None or not step.does(Does.BRIGHT_WORK):
        return
    earlier = plan.recipe.steps[: step.number - 1]
    if not weld.lays and any(one.does(Does.CLOSES) and one.zones == weld.zones for one in earlier):
        return  # it was told of before the first weld of the stack
    between = plan.recipe.steps[step.number - 1 : weld.number]
    before = plan.recipe.steps[step.number - 2] if step.number > 1 else None
    begun_before = before is not None and before.zones == step.zones and before.does(Does.BRIGHT_WORK)
    if begun_before or not all(one.does(Does.BRIGHT_WORK) for one in between):
        return
    first, *others = (metal.name for metal in grades_in(plan, weld))
    if others:
        yield say(
            "If you have not welded {} and {} to each other before, weld a coupon of both first, let it cool "
            "and break it in the vice beside the joint, under a cloth: what tears must be metal.",
            first,
            others[0],
        )


def _burns(plan: Plan, step: Step) -> Iterator[Words]:
    """Of a treatment, which has no time at its heat to be told with."""
    if step.temperature_c is not None:
        yield from filter(None, (burning_words(one, step.temperature_c) for one in grades_in(plan, step)))


def _under_the_skin(plan: Plan, step: Step) -> Iterator[Words]:
    """A file goes into the skin of the best steel: the test is made where that is off."""
    if not any(check.endswith(".file_test") for check in step.checks):
        return
    for skin in skins(plan, step.number - 1):
        if skin.zone in step.zones and skin.now_mm >= WORTH_TELLING_MM and skin.ground_in is None:
            yield say(
                "A file bites the skin of the {}, up to {} deep here, whatever is under it: go through it at "
                "a corner before the file test.",
                skin.steel,
                mm(skin.now_mm),
            )


def head_words(head: Head) -> Words:
    """A head as "about 820 g and balances 14 mm from the middle of the eye, towards the bit"."""
    if head.balance is None:
        return say("{:~}", head.mass)
    balances = "{:~} and balances {} from the middle of the {}, towards the {}"
    return say(balances, head.mass, head.balance, head.about, head.towards)


def _harden(plan: Plan, step: Step) -> Iterator[Words]:
    from coach.metals.hardening import COUPON_TEST, CannotHarden, hardening_advice, quench_words
    from coach.metals.own_curve import FILE_HRC

    steels = steels_of(plan, step)
    by_iron = len(grades_in(plan, step)) > len(steels)
    for metal in steels:
        try:
            advice = hardening_advice(metal, _aimed_c(step, metal), by_iron=by_iron)
        except CannotHarden as reason:
            yield reason.words
            yield from map(as_words, COUPON_TEST)
            continue
        heat_c = step.temperature_c
        if heat_c is not None and not advice.low.value <= heat_c <= advice.high.value:
            how = "too cold to harden through" if heat_c < advice.low.value else "so hot that its grain grows"
            window = Span(advice.low.value, advice.high.value, Kind.TEMPERATURE)
            yield say("{} is {}: {} hardens from {}.", celsius(heat_c), how, metal.name, window)
        yield from _quench(step, metal)
        if advice.reckoned:
            yield say(
                "The hardening heat of {} is reckoned, not published: harden and break coupons first.",
                metal.name,
            )
        yield say("{}: {}", metal.name, advice.told("magnet"))
        soak = (
            run_on((advice.told("soak"), as_words(_OPEN_FIRE)))
            if _is_quick(step, metal)
            else advice.told("soak")
        )
        yield run_on((soak, quench_words(metal, step.quench)))
        shared = shared_carbon(plan, step)
        if shared is not None:
            yield shared.words(metal.name)
        band = best_quenched_hrc(plan, step, metal)
        if band is not None:
            low_hrc, high_hrc = band
            skates = "a file skates or only just bites" if high_hrc >= FILE_HRC - 1.0 else "a file just bites"
            skates = "a file skates" if low_hrc >= FILE_HRC else skates
            hrc = Span(low_hrc, high_hrc, Kind.HARDNESS)
            right = (
                "Quenched right" if hardens_through(plan, step, metal) else "Only where it hardens through"
            )
            what = "it" if shared else metal.name
            yield say(f"{right}, {{}} is {{}}: {{}}.", what, hrc, skates)


#: What has little but carbon to dissolve needs no soak, only to be even (common practice, no source).
_OPEN_FIRE: Final = "In an open fire, where a thin end runs ahead of it, quench it as soon as it is even."


def _is_quick(step: Step, metal: Grade) -> bool:
    """Whether a steel may be quenched as soon as it is even, and its step asks for no soak."""
    from coach.metals.hardening import dissolves_slowly

    return "soak" not in step.targets and not dissolves_slowly(metal)


def _aimed_c(step: Step, metal: Grade) -> tuple[float, float] | None:
    """The heats that a quench is aimed at, where they lie within those of its steel; else None."""
    aimed, least, most = step.targets.get("temperature"), metal.hardening_low_c, metal.hardening_high_c
    if aimed is None or least is None or most is None:
        return None
    return (aimed.low, aimed.high) if least <= aimed.low < aimed.high <= most else None


def _quench(step: Step, metal: Grade) -> Iterator[Words]:
    """A word where the recipe quenches in something else than the grade's own medium."""
    if not step.quench or metal.quench is None or step.quench == metal.quench.medium:
        return
    from coach.metals.baths import other_bath_words

    yield run_on((other_bath_words(metal, step.quench), as_words(metal.quench.words)))


def _temper(plan: Plan, step: Step, own: OwnCurves, read_in: ReadIn) -> Iterator[Words]:
    from coach.metals.tempering import RUN_HOURS, colours_later

    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        if row is None:
            yield say(
                "No tempering table is known for {}: temper a coupon beside it and flex that.", metal.name
            )
            continue
        if quenched_in(plan, step, metal) == "air" and metal.quench and metal.quench.medium != "air":
            yield say(_NOT_IN_AIR, metal.name, metal.quench.medium)
            continue
        soak = step.targets.get("soak")
        hours = soak.nominal / 3600.0 if soak is not None else RUN_HOURS
        if drawn := _drawn_before(plan, step, row, read_in):
            yield drawn
            continue
        yield from _unsaid(plan, step, row)
        try:
            yield from _tempered(row, step, hours, by_colour=soak is None)
            if shared := shared_carbon(plan, step):
                yield shared.words(metal.name)
            if later := colours_later(metal.nominal, metal.name):
                yield later
        except OutOfRange as reason:
            yield reason.words


_NOT_IN_AIR: Final = (
    "Air does not harden {} through, and no table tells what a temper leaves of it then: its quench is {}. "
    "A file or a hardness tells whether there is anything to temper."
)


def _unsaid(plan: Plan, step: Step, row: TemperingRow) -> Iterator[Words]:
    """Of a temper that says neither heat nor hardness: what its steel is tempered at, by what colours."""
    from coach.fire.colours import NO_COLOUR, PAST_COLOURS
    from coach.fire.temper_colours import TEMPER_COLOURS
    from coach.metals.tempering import RUN_HOURS, TABLE_HOURS, equal_temper_c

    left, heats = left_unsaid(plan, step), unsaid_heat(plan, step)
    if left is None or heats is None:
        return
    runs = [equal_temper_c(one, TABLE_HOURS, RUN_HOURS, row.constant) for one in (heats.low, heats.high)]
    first, last = (TEMPER_COLOURS.name_of(one) for one in runs)
    begins = "any colour" if first == NO_COLOUR else first
    colours = f"{begins} and further" if last == PAST_COLOURS else f"{begins} up to {last}"
    told = "No heat is said: {} is tempered from {}, or run to {} in some {} minutes, and left at {}."
    yield say(
        told,
        row.name,
        Span(heats.low, heats.high, Kind.TEMPERATURE),
        last if first == last else colours,
        f"{RUN_HOURS * 60.0:.0f}",
        Span(left.low, left.high, Kind.HARDNESS),
    )


def _drawn_before(plan: Plan, step: Step, row: TemperingRow, read_in: ReadIn) -> Words:
    """What an earlier, hotter temper left, which this one does not change; nothing where there is none.

    Where a softer steel is asked for, or no heat of its own is said and it can be met, the step has its say.
    """
    ruling = hottest_temper(plan, step, row, read_in)
    soaked = soaked_at(ruling, read_in)
    left = left_by(row, soaked[0], soaked[2]) if soaked is not None and ruling is not step else None
    if soaked is None or left is None:
        return NOTHING
    wanted = step.targets.get("hardness")
    if wanted is not None and wanted.high < left.hrc - left.softer_hrc:
        return NOTHING
    is_met = wanted is None or left.may_be(wanted.low, wanted.high)
    if is_met and temper_heat_c(step) is None:
        return NOTHING
    drawn = (
        "Step {}, {}, drew it at {}, for {}, and no cooler temper makes it harder again: {} is left at {}."
    )
    not_asked = NOTHING
    if wanted is not None and not is_met:
        asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
        not_asked = say("That is not the {} asked for: for that harden it again, and temper it.", asked)
    heat, soak = celsius(soaked[0]), seconds(3600.0 * soaked[2])
    told = say(drawn, ruling.number, ruling.title, heat, soak, row.name, left.words)
    return run_on((told, row.stands, left.note, not_asked))


def _tempered(row: TemperingRow, step: Step, hours: float, *, by_colour: bool) -> Iterator[Words]:
    """What a temper leaves; a recipe that names its heat is told no colour but that of its own run."""
    from coach.fire.temper_colours import TEMPER_COLOURS
    from coach.metals.tempering import (
        RUN_HOURS,
        TABLE_HOURS,
        embrittlement,
        equal_temper_c,
        temper_for,
        tempered_hrc,
    )

    wanted, heat_c = step.targets.get("hardness"), temper_heat_c(step)
    soaked: list[float] = []
    if heat_c is not None:
        run_c = heat_c if by_colour else equal_temper_c(heat_c, hours, RUN_HOURS, row.constant)
        soaked.append(equal_temper_c(heat_c, hours, TABLE_HOURS, row.constant))
        yield say(
            "By colour, some {} minutes at {}, {}, do what {} does in {}.",
            f"{RUN_HOURS * 60.0:.0f}",
            celsius(run_c),
            TEMPER_COLOURS.name_of(run_c),
            celsius(soaked[0] if by_colour else heat_c),
            "an hour and a half" if by_colour or hours == TABLE_HOURS else seconds(3600.0 * hours),
        )
        try:
            left = tempered_hrc(row, heat_c, hours)
        except OutOfRange:
            first_c = row.points[0][0]
            begins = tempered_hrc(row, first_c, TABLE_HOURS).words
            words = (
                "That leaves {} harder than the tables tell: they begin with {}, {} for an hour and a half."
            )
            yield say(words, row.name, begins, celsius(first_c))
        else:
            yield run_on((say("{} is left at {}.", row.name, left.words), row.stands, left.note))
            if wanted is not None and not left.may_be(wanted.low, wanted.high):
                yield say("That is not the {} asked for.", Span(wanted.low, wanted.high, Kind.HARDNESS))
    if wanted is not None:
        asked = Span(max(wanted.low, 1.0), min(wanted.high, 100.0), Kind.HARDNESS)
        found = temper_for(row, (asked.low, asked.high), hours)
        colour = TEMPER_COLOURS.name_of(found.nominal.value) if heat_c is None and by_colour else ""
        yield say(
            "For {}: {}{}, for {}.",
            asked,
            Span(found.low.value, found.high.value, Kind.TEMPERATURE),
            f", {colour}" if colour else "",
            seconds(3600.0 * hours),
        )
        ends = (
            equal_temper_c(one.value, hours, TABLE_HOURS, row.constant) for one in (found.low, found.high)
        )
        soaked += ends
    if soaked and (brittle := embrittlement(min(soaked), max(soaked))):
        yield brittle


_TOO_COOL: Final = (
    "The {} of this step is the recipe's, and cooler than {} is normalised at: go by the heats said here, or "
    "change the recipe's."
)


def _normalise(plan: Plan, step: Step) -> Iterator[Words]:
    from coach.metals.hardening import CannotHarden, hardening_advice, normalise_words

    for metal in steels_of(plan, step):
        try:
            hardening_advice(metal)
        except CannotHarden:
            continue
        heat_c, low_c = step.temperature_c, metal.normalising_low_c
        cooler = heat_c is not None and low_c is not None and heat_c < low_c
        if cooler and normalised_higher(plan, step, metal):
            finer = (
                "{}: normalised before, it is let cool in still air once more, from {}: that makes it finer."
            )
            yield say(finer, metal.name, celsius(heat_c or 0.0))
        else:
            told = say("{}: {}", metal.name, normalise_words(metal, heat_c, step.heats))
            too_cool = say(_TOO_COOL, celsius(heat_c or 0.0), metal.name) if cooler else NOTHING
            yield run_on((told, too_cool))


def _haft(plan: Plan, step: Step) -> Iterator[Words]:
    found = head(plan)
    if found is not None:
        yield say("The head as drawn weighs {}.", head_words(found))


_TELL: Final[Mapping[Does, Callable[[Plan, Step], Iterator[Words]]]] = MappingProxyType(
    {
        Does.QUENCHES: _harden,
        Does.NORMALISES: _normalise,
        Does.WORKS_AN_EDGE: edge_words,
        Does.FITS_A_HAFT: _haft,
    }
)
