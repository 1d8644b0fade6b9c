"""The ways back onto plan: what each does, brings and costs, and what to take care of."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.gauged import BY_GAUGES
from coach.bench.slips import may_be_a_slip
from coach.bench.standing import Standing
from coach.bench.wrong_bath import LOOK_FOR_A_CRACK
from coach.ledger.remedies import WayBack
from coach.ledger.verdict import PlanState, Reason, SizeState, Verdict
from coach.operations.gauges import FINEST
from coach.quantities import Figure, Limit, Wanted
from coach.quantities.words import counted, say
from coach.telling.bounds import write_bound
from coach.telling.chance import chance_text
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Section, Tone, page, section
from coach.telling.reading import cold_size
from coach.telling.why import reason_text, stands_text
from coach.telling.will_pass import in_hundred
from coach.telling.words import write
from coach.telling.writing import METRIC, Shown


def ways_back_page(standing: Standing, ways: Sequence[WayBack], shown: Shown) -> Page:
    """Return where a job stands and every way back, each under its title and the name it is taken by."""
    none = "" if ways else no_way_back(standing)
    before = Line(first_of_all(standing, shown), tone=Tone.CARE)
    first = section("", [Line(stands_text(standing, shown)), before, Line(none)])
    return page(first, *(_section(way, shown) for way in ways))


def _section(way: WayBack, shown: Shown) -> Section:
    return section(
        f"{write(way.title, shown)} ({way.name})",
        [
            Line(write(way.changes, shown), "Changes"),
            Line(f"{way.verdict.value}, {'; '.join(brings(way))}", "Then"),
            _at_risk(way, shown),
            _caution(way, shown),
        ],
    )


def brings(way: WayBack) -> tuple[str, str, str]:
    """Return the chance that a way back brings, what it costs and how good practice it is."""
    heats = counted(way.heats, "extra heat") if way.heats else "no extra heat"
    return chance_text(way.chance), heats, way.soundness.value


def leads_to(way: WayBack, shown: Shown = METRIC) -> Section:
    """Return what to take care of with a way back, and why the job stands as it does then."""
    then = Line(reason_text(way.reason, shown), "Then")
    return section("", [_caution(way, shown), then, _at_risk(way, shown)])


def first_of_all(
    standing: Standing,
    shown: Shown,
    *,
    newest: str = "`coach strike` strikes it out",
    other: str = "`coach strike` with its number strikes it out",
) -> str:
    """Return what comes before any way back: a slip that stands, or a reading in doubt that is taken again.

    `newest` and `other` say how the newest entry, and any other, is struck out. "" where there is no such
    reading, or all is on plan.
    """
    if standing.verdict is PlanState.ON_PLAN:
        return ""
    found = next((one for one in reversed(standing.checks) if may_be_a_slip(one)), None)
    if found is None or found.reading is None:
        return _measure_again(standing, shown)
    read = found.reading
    side = "at least" if read.least_possible is not None else "at most"
    possible = write_figure(read.least_possible or read.most_possible or read.size, shown)
    told = f"{found.label} {cold_size(read, shown)} stands, where {possible} {side} was possible"
    return f"A slip? {newest if read.entry == standing.last_entry else other}: {told}."


def _measure_again(standing: Standing, shown: Shown) -> str:
    """That a size of a zone that is not on plan is measured again first, where its reading is in doubt."""
    if isinstance(standing.reason, Reason) and standing.reason.zone:
        zones = {standing.reason.zone}
    else:
        wrong = (one for one in standing.sizes if one.only_seems or one.state is not SizeState.GOOD)
        zones = {one.zone for one in wrong}
    for check in standing.checks:
        read = check.reading
        if read is None or check.zone not in zones or check.kind not in BY_GAUGES:
            continue
        size = cold_size(read, shown)
        if read.questioned:
            return f"First measure the {check.label} again: {size} is in question and counts for nothing."
        judged = read.judged
        if judged is None or judged.verdict is not Verdict.UNSURE or read.is_good_by_eye:
            continue
        finer = judged.too_coarse or judged.unsure_again
        if finer and read.gauge == FINEST:
            continue  # no other reading would tell more
        how = ", with a finer gauge" if finer else ""
        bound = write_bound(_nearer(judged.wanted, read.cold), shown)
        return f"First measure the {check.label} again{how}: {size} is too near {bound} to be sure of."
    return ""


def _nearer(wanted: Wanted, size: Figure) -> Limit:
    """The limit that a size is nearer to."""
    limits = wanted.limits
    return Limit(wanted, low=abs(limits.low - size.value) <= abs(limits.high - size.value))


def no_way_back(standing: Standing, *, back: str = "`coach back`", listed: str = "`coach right`") -> str:
    """Return what is told where there is none, and what can be done without one.

    `back` is what goes back to the step before, and `listed` what lists what is to be put right.
    """
    against = next((one for one in standing.checks if one.is_against_metal), None)
    if against is not None:
        return f"The {against.label} that was read contradicts the metal: measure it again first."
    if standing.verdict is PlanState.ON_PLAN:
        return "Nothing is wrong that needs a way back."
    if standing.to_right and all(LOOK_FOR_A_CRACK in one.text for one in standing.to_right):
        where = " and ".join(dict.fromkeys(f"{one.zone} crack test" for one in standing.to_right))
        return f"No way back takes a crack away: read the {where} first; once it passes, it is off the list."
    betters = " that is known betters it" if standing.verdict is PlanState.TIGHT else " is known"
    told = [f"No way back{betters} as the job stands."]
    if standing.done and (standing.to_right or standing.verdict is PlanState.OFF_PLAN):
        last = standing.done[-1]
        told.append(f"{back} goes back to step {last.number}, {last.title}, to work and to read it again.")
    if standing.to_right:
        told.append(f"What is right by now is taken off the list with {listed}.")
    return " ".join(told)


def _at_risk(way: WayBack, shown: Shown) -> Line:
    """The size of what it changes that may well be outside in the end."""
    risk = way.at_risk
    if risk is None:
        return Line("")
    told = say("{} then {:±}, of {}", risk.label, risk.expected, risk.wanted)
    return Line(f"{write(told, shown)}: passes {in_hundred(risk.chance)}.", "Mind")


def _caution(way: WayBack, shown: Shown) -> Line:
    return Line(write(way.caution, shown), "Caution", Tone.BAD)
