"""The sheet of a job as it is told: what was wanted and what came, what it took and what it taught."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.let_go import seems_let_go
from coach.bench.sheet import Sheet
from coach.bench.shop_tests_made import CameOfTest
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.bench.steel import head_words
from coach.bench.taken import GaugeUsed, HandKept, MetalTaken, StepTaken
from coach.bench.treated import Treatment
from coach.ledger.verdict import PlanState
from coach.operations.gauges import by_gauge
from coach.operations.shop_test import Result
from coach.quantities.words import Words, counted, run_on, say
from coach.recipe.model import Recipe
from coach.telling.chance import chance_text
from coach.telling.clock import moment
from coach.telling.figures import write_figure, write_wanted
from coach.telling.hours import days_words, hours_taken, planned_hours
from coach.telling.learned import learned_section
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section
from coach.telling.photographs import photographs_section
from coach.telling.size_came import size_row
from coach.telling.standing import given_up_lines
from coach.telling.why import stands_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

STATE_SIGNS = {PlanState.ON_PLAN: "✓", PlanState.TIGHT: "~", PlanState.OFF_PLAN: "✗"}
STATE_TONES = {PlanState.ON_PLAN: Tone.GOOD, PlanState.TIGHT: Tone.CARE, PlanState.OFF_PLAN: Tone.BAD}
_RESULTS = {
    Result.PASS: ("✓", "passed", Tone.PLAIN),
    Result.DOUBT: ("?", "in doubt", Tone.CARE),
    Result.FAIL: ("✗", "failed", Tone.BAD),
    None: ("·", "not made", Tone.QUIET),
}
_DAY = "%d %B %Y"
#: So little set aside is not told, g (our choice).
_SEEN_G = 0.1
#: Bar that differs from what was planned by more than this share is not as planned (our choice).
_AS_PLANNED_SHARE = 0.005
#: No length of bar is told as another one for less (our choice).
_SEEN_MM = 0.5


def sheet_page(sheet: Sheet, shown: Shown, *, to_show: bool = False) -> Page:
    """Everything on the sheet of a job, but its picture; to be shown, without the folders of its files."""
    return page(
        section("", _head(sheet, shown)),
        sizes_section(sheet, shown),
        apart_section(sheet, shown),
        shop_tests_section(sheet),
        treatment_section(sheet, shown),
        taken_section(sheet, shown),
        balance_section(sheet, shown),
        steps_section(sheet),
        taught_section(sheet, shown),
        lost_section(sheet, shown),
        ways_section(sheet, shown),
        notes_section(sheet),
        photographs_section(sheet, to_show=to_show),
        open_section(sheet, shown),
    )


def _head(sheet: Sheet, shown: Shown) -> Iterator[Line]:
    yield Line(f"{sheet.title} ({sheet.job}): {when_text(sheet)}.", tone=Tone.STRONG)
    yield stands_line(sheet, shown)
    yield from given_up_lines(sheet.given_up)


def stands_line(sheet: Sheet, shown: Shown) -> Line:
    """The verdict with its sign, how many sizes came as drawn, and what is still to be put right."""
    came = " ".join(f"{told}." for told in (as_drawn_text(sheet), apart_text(sheet)) if told)
    if sheet.to_right:
        named = run_on((right.words for right in sheet.to_right), ", ")
        came += f" {sentence(say('to put right: {}', named), shown)}"
    if sheet.finished and sheet.verdict is PlanState.ON_PLAN:
        told = f"{sheet.verdict.capitalize()}, {chance_text(sheet.chance)}: {came}"
    else:
        told = f"{stands_text(sheet, shown)} {came}"
    return Line(told, mark=STATE_SIGNS[sheet.verdict], tone=STATE_TONES[sheet.verdict])


def when_text(sheet: Sheet) -> str:
    """`finished 2 March 2026`, or how far it has gone."""
    if sheet.finished:
        return f"finished {day(sheet.time.ended_at)}" if sheet.time.ended_at else "finished"
    return f"so far, {sheet.steps_done} of {counted(sheet.steps, 'step')} done"


def day(at: str) -> str:
    """A day, `2 March 2026`."""
    return moment(at, _DAY).lstrip("0")


def as_drawn_text(sheet: Sheet) -> str:
    """How many sizes of the drawing came as drawn, and what became of the others."""
    if not sheet.asked:
        return "No size has come yet" if not sheet.finished else "Nothing was drawn"
    told = f"{sheet.as_drawn} of {counted(sheet.asked, 'size')} came as drawn"
    others = others_text(sheet)
    return f"{told}: {others}" if others else told


def apart_text(sheet: Sheet) -> str:
    """How many of what the steps asked for besides came as wanted; "" where they asked for nothing."""
    if not sheet.apart_asked:
        return ""
    told = f"Of {sheet.apart_asked} asked for by the steps {sheet.apart_as_wanted} came as wanted"
    others = _others(sheet.apart)
    return f"{told}: {others}" if others else told


def others_text(sheet: Sheet) -> str:
    """How many sizes are not as drawn, by what became of them: `1 let go, 3 not measured`.

    What nobody measured may have been let go as well: `1 let go, 3 not measured (1 of these let go)`.
    """
    told, unread = _others(sheet.sizes), sum(map(seems_let_go, sheet.sizes))
    what = SizeVerdict.NOT_MEASURED.value
    return told.replace(what, f"{what} ({unread} of these let go)") if unread else told


def _others(sizes: Sequence[SizeCame]) -> str:
    verdicts = [one.verdict for one in sizes]
    told = ((verdicts.count(kind), kind) for kind in SizeVerdict)
    skipped = (SizeVerdict.WITHIN, SizeVerdict.AS_READ)
    return ", ".join(f"{count} {kind}" for count, kind in told if count and kind not in skipped)


def sizes_section(sheet: Sheet, shown: Shown) -> Section:
    """The drawing against the tool."""
    return section("The drawing and the tool", [_sizes(sheet.sizes, shown)])


def apart_section(sheet: Sheet, shown: Shown) -> Section:
    """What steps asked for besides the drawing."""
    return section("Asked for by the steps", [_sizes(sheet.apart, shown)])


def _sizes(sizes: Sequence[SizeCame], shown: Shown) -> Table:
    rows = tuple(size_row(one, shown, sizes) for one in sizes)
    return Table(rows, ("  size", "wanted", "came", "verdict"), gives=3)


def shop_tests_section(sheet: Sheet) -> Section:
    """The tests of the shop, and what came of each last."""
    rows = tuple(_test_row(one) for one in sheet.tests)
    return section("Tests of the shop", [Table(rows, ("  test", "came of it", "step"), gives=1)])


def _test_row(test: CameOfTest) -> Row:
    doubted = test.result is Result.FAIL and not test.tells
    sign, told, tone = _RESULTS[Result.DOUBT if doubted else test.result]
    before = f", failed {'once' if test.failed_before == 1 else f'{test.failed_before} times'} before"
    told += before * bool(test.failed_before)
    if test.undone_by and test.result is not Result.FAIL:
        sign, tone = "~", Tone.QUIET
        told += f", before step {test.undone_by}: old"
    return Row((f"{sign} {test.label}", told, str(test.step)), tone)


def treatment_section(sheet: Sheet, shown: Shown) -> Section:
    """How the steel was treated: what each treatment asks, and what was read of it."""
    rows = tuple(_treatment_row(one, shown) for one in sheet.treatments)
    return section("How the steel was treated", [Table(rows, ("   step", "planned", "read"), gives=2)])


def _treatment_row(one: Treatment, shown: Shown) -> Row:
    hot = write_figure(one.temperature, shown) if one.temperature is not None else ""
    into = f"into {one.quench}" if one.quench else ""
    hard = write_wanted(one.hardness, shown) if one.hardness is not None else ""
    planned = ", ".join(part for part in (one.colour, hot, into, hard) if part)
    again = ", once more" if one.again else ""
    read = ", ".join(f"{said.label} {write_figure(said.size, shown, '=')}" for said in one.read)
    of_all = f" of {one.heats_planned}" if one.heats < one.heats_planned else ""
    heats = f"{counted(one.heats, 'heat')}{of_all}; " if one.heats else ""  # a temper is not counted in heats
    return Row((f"{one.step:>2} {one.title}{again}", planned, f"{heats}{read or 'nothing was read'}"))


def balance_section(sheet: Sheet, shown: Shown) -> Section:
    """What the finished piece weighs and where it balances, drawn and as it came."""
    if sheet.balance is None or sheet.balance.drawn.balance is None:
        return section("Balance", [])
    came = sheet.balance.came
    return section(
        "Balance",
        [
            Line(sentence(say("as drawn it weighs {}", head_words(sheet.balance.drawn)), shown)),
            Line(sentence(say("as it came it weighs {}", head_words(came)), shown) if came else ""),
        ],
    )


def taken_section(sheet: Sheet, shown: Shown) -> Section:
    """Heats, hours and metal, planned beside taken."""
    heats, hours = sheet.heats, sheet.time
    planned = str(heats.planned)
    if heats.planned_now != heats.planned:
        planned += f", {heats.planned_now} with the ways back"
    due = "" if sheet.finished else f" of {heats.planned_so_far} planned up to this step"
    unmarked = f"; {heats.unmarked} not marked" if heats.unmarked else ""
    in_hand = heats.steps[-1] if heats.steps and not heats.steps[-1].done else None
    ahead = in_hand.heats_planned - in_hand.heats if in_hand is not None else 0
    ahead_told = f"; {ahead} still to come" if ahead > 0 else ""
    at_the_fire, in_all = hours_taken(sheet, shown)
    rows = [
        ("heats", planned, f"{heats.taken}{due}{unmarked}{ahead_told}"),
        (
            "at the fire",
            planned_hours(hours.planned_at_the_fire, shown) if heats.planned else "",
            at_the_fire,
        ),
        ("in all", hours.planned, f"{in_all}, {days_words(hours.days)}"),
    ]
    metal = [] if sheet.metal is None else list(_metal_rows(sheet.metal, shown))
    table = Table(tuple(Row(cells) for cells in [*rows, *metal]), ("", "planned", "taken"))
    bars = [] if sheet.metal is None else [Line(told) for told in _bars(sheet.metal, shown)]
    return section("What it took", [table, *bars, _why_another_mass(sheet, shown)])


def _why_another_mass(sheet: Sheet, shown: Shown) -> Line | None:
    """Why the tool that was planned weighs otherwise than the drawing; None where it does not, as told."""
    if sheet.metal is None or sheet.balance is None:
        return None
    left, drawn = write_figure(sheet.metal.planned_tool, shown), sheet.balance.drawn.mass
    if left == write_figure(drawn, shown):
        return None
    told = "the tool planned is what the steps were to leave of the bar, marks with something over included"
    return Line(sentence(say("{}; its drawing by its sizes weighs {:~}", told, drawn), shown))


def _metal_rows(metal: MetalTaken, shown: Shown) -> Iterator[tuple[str, str, str]]:
    planned = (metal.planned, metal.planned_lost, metal.planned_tool)
    bar, lost, tool = (write_figure(figure, shown) for figure in planned)
    used, gone, left = (write_figure(figure, shown, "±") for figure in (metal.used, metal.lost, metal.left))
    beyond_g = abs(metal.used.value - metal.planned.value)
    as_planned = not metal.used_measured and beyond_g < _AS_PLANNED_SHARE * metal.planned.value
    yield "bar", bar, f"{used}, as planned" if as_planned else used
    if metal.aside.value >= _SEEN_G:
        yield "set aside", "", f"{write_figure(metal.aside, shown)}, {_why_aside(metal, shown)}"
    yield "lost", lost, gone
    yield "tool", tool, f"{left}, {'weighed' if metal.weighed else 'reckoned, not weighed'}"


def _why_aside(metal: MetalTaken, shown: Shown) -> str:
    if metal.given_up.value < _SEEN_G:
        return "cut anew"
    is_all = metal.aside.value - metal.given_up.value < _SEEN_G
    return (
        "given up" if is_all else f"{write_figure(metal.given_up, shown)} of it given up, the rest cut anew"
    )


def _bars(metal: MetalTaken, shown: Shown) -> Iterator[str]:
    for piece, taken in zip(metal.pieces, metal.lengths, strict=True):
        sizes = run_on((say("{}", size) for size in piece.stock.sizes), " × ")
        layers = f" in {piece.layers} layers" if piece.layers else ""
        metals = " and ".join(dict.fromkeys(one.metal for one in piece.stack)) or piece.metal
        bar = say("{}{}, {} {}", metals, layers, piece.stock.form, sizes)
        told = say("{} of {}, for the {}", piece.length, bar, piece.piece)
        is_other = abs(taken.value - piece.length.value) >= _SEEN_MM
        yield sentence(say("{}, planned; {} taken", told, taken) if is_other else told, shown)


def steps_section(sheet: Sheet) -> Section:
    """Heats and hours, step by step."""
    has_blows = any(one.blows_of for one in sheet.heats.steps)
    rows = tuple(_step_row(one, has_blows=has_blows) for one in sheet.heats.steps)
    heads = ("   step", "planned", "heats", "time", *(("blows",) if has_blows else ()))
    return section("Steps", [Table(rows, heads, gives=0, leaves=(3,))])


def _step_row(step: StepTaken, *, has_blows: bool) -> Row:
    time = write_figure(step.worked) if step.worked.value else ""
    if not step.hours_known:
        time = "not known"
    title = step.title if step.done else f"{step.title} (in hand)"
    cells = [f"{step.number:>2} {title}", str(step.heats_planned or ""), str(step.heats or ""), time]
    if has_blows:
        cells.append(_blows_text(step))
    return Row(tuple(cells), Tone.CARE if step.heats > step.heats_planned and step.done else Tone.PLAIN)


def _blows_text(step: StepTaken) -> str:
    """The blows as they were counted, and in how many heats where not in all."""
    if not step.blows_of:
        return ""
    of_some = f" in {counted(step.blows_of, 'heat')}" if step.blows_of != step.heats else ""
    return f"{step.blows}{of_some}"


def taught_section(sheet: Sheet, shown: Shown) -> Section:
    """What the readings have taught of fire, metal, hand and gauges."""
    told = learned_section("Learned", sheet.learned, shown)
    hand = [] if sheet.hand is None else [Line(write(_hand_words(sheet.hand), shown))]
    gauges = ", ".join(_gauge_text(one) for one in sheet.gauges)
    return section(told.heading, [*told.body, *hand, Line(f"read {gauges}" if gauges else "")])


def _hand_words(hand: HandKept) -> Words:
    told = say("hand: {} hammered sizes came {} from their aim on average", str(hand.sizes), hand.off)
    if hand.taught is None:
        return say("{}; too few to tell how true it works", told)
    sizes = counted(hand.told, "size") + (f", {hand.before} of them in jobs before" if hand.before else "")
    by = say("by {}, each counted as surely as the hand brought it there", sizes)
    return say("{}; it lands {:±} times as wide of it as is usual, {}", told, hand.taught, by)


def _gauge_text(used: GaugeUsed) -> str:
    doubted = f" ({used.questioned} questioned)" if used.questioned else ""
    times = "once" if used.readings == 1 else f"{used.readings} times"
    return f"{by_gauge(used.gauge)} {times}{doubted}"


def ways_section(sheet: Sheet, shown: Shown) -> Section:
    """The ways back that were taken."""
    told = ((_where(way.step), say("{}: {}", way.title, way.changes)) for way in sheet.ways_back)
    return section("Ways back taken", (Line(f"{where}: {sentence(words, shown)}") for where, words in told))


def lost_section(sheet: Sheet, shown: Shown) -> Section:
    """The metal that was lost besides what the steps took."""
    told = ((_where(one.step), say("{}: {}", one.title, one.changes)) for one in sheet.lost)
    return section("Metal lost", (Line(f"{where}: {sentence(words, shown)}") for where, words in told))


def _where(step: int) -> str:
    return f"Step {step}" if step else "At the end"


def notes_section(sheet: Sheet) -> Section:
    """What was written down for next time."""
    return section("Notes", (Line(f"{_where(one.step)}: {one.text}") for one in sheet.notes))


def open_section(sheet: Sheet, shown: Shown) -> Section:
    """What is left to put right, and what could not be reckoned with."""
    return section("To put right", _open_lines(sheet, shown))


def _open_lines(sheet: Sheet, shown: Shown) -> Iterator[Line]:
    for right in sheet.to_right:
        yield Line(sentence(right.words, shown), tone=Tone.BAD if right.failed else Tone.CARE)
    for left_out in sheet.left_out:
        yield Line(sentence(left_out.words, shown), tone=Tone.BAD)
    if not sheet.to_right and not sheet.left_out:
        yield Line("Nothing is left to put right.")


def picture_title(sheet: Sheet, recipe: Recipe, piece: str) -> str:
    """What a picture of a piece is: as it came, or as it is now, and how much of it nobody has measured."""
    told = f"The {piece} as it {'came' if sheet.finished else 'is now'}"
    shows = recipe.zones_with(piece)
    reckoned = sum(one.zone in shows and one.verdict is SizeVerdict.NOT_MEASURED for one in sheet.sizes)
    return f"{told}, {counted(reckoned, 'size')} reckoned" if reckoned else told
