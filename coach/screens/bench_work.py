"""The bench's page of the work in hand: cautions, what to do, what to watch, what to put right, the sizes.

Where there is little room things give way in an order: empty rows, what to do beyond its first row, sizes
that are good, what is to be put right and to watch beyond its first row. Cautions, the first thing that is to
be put right and the size that is read next never do; but at a treatment, where the face tells that size, all
of them give way before what to watch.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from textual.content import Content

from coach.bench.checks import Check
from coach.bench.in_turn import made_in_fire
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.ledger.verdict import PlanState, Reason
from coach.ledger.workpiece import size_name
from coach.operations.does import HeatKind
from coach.quantities.figure import Kind
from coach.quantities.words import counted
from coach.screens.bench_cautions import cautions_now, treats
from coach.screens.bench_marks import bar_of_marks
from coach.screens.size_rows import is_good, size_rows
from coach.screens.widgets.pane import rule
from coach.screens.wording import Ink, one_line, said, wrapped
from coach.telling.in_the_end import in_the_end_text
from coach.telling.step import hand_lines, step_lines
from coach.telling.why import reason_text
from coach.telling.words import sentence
from coach.telling.writing import Shown

#: The margin that labels stand in.
_MARGIN = 9
_NARROW = 50
#: Why a job is not on plan is told under its verdict's own words.
WHY = {PlanState.TIGHT: "Tight", PlanState.OFF_PLAN: "Off plan"}
#: What the drawing wants of the size in hand, where the step wants something else.
DRAWING = "Drawing"
#: What there is only to know.
_TO_KNOW = ("Know", "Time", DRAWING)
#: What gives way, the first first, and whether it is left out or cut down to its first row.
_GIVES_WAY = (
    *((label, True) for label in _TO_KNOW),
    ("Keep", True),
    *((label, False) for label in WHY.values()),
    ("Do", False),
    ("Fix", False),
    ("Watch", False),
    ("Rest", True),
    ("Watch", True),
    ("To size", True),
    *((label, True) for label in WHY.values()),
    ("Test", False),
    ("Flux", False),
    ("Quench", False),
)
#: At a treatment what to do stays whole as long as anything else can give way; the face tells the quench too.
_AT_A_TREATMENT = (("Quench", True), *(one for one in _GIVES_WAY if one[0] != "Do"), ("Do", False))
#: A rule and one row.
_LEAST_TABLE = 2
#: In fewer rows what to watch stands one Tab away, and the size that is read next stays.
_ROWS_FOR_WATCH = 12
_MORE = " … Tab"
#: The same where all that is left out is what to watch, so that nobody takes what to do for cut.
_WATCH_MORE = " · Watch: Tab"
#: The heading of what to do without what stands at its right end.
_LEAST_HEAD = 12
#: The bar of a mark-out takes four rows.
_ROWS_FOR_MARKS = 10


class Told(NamedTuple):
    """One thing told of a step, set for a width."""

    label: str
    lines: list[Content]
    words: str


def work_page(standing: Standing, chosen: Check | None, shown: Shown, width: int, rows: int) -> list[Content]:
    """The lines of the work in hand for a place so many cells wide and rows high."""
    step = standing.step
    if step is None:
        return [rule("Done", width), *ended(standing, shown, width)]
    sizes = sizes_told(standing, chosen)
    marks = bar_of_marks(standing, chosen, shown, width) if rows >= _ROWS_FOR_MARKS else []
    room = rows - 1 - len(marks)
    whole = do_lines(standing, step, shown, width, chosen)
    told, more = _cautioned(standing, whole, chosen, shown, width, room - _wanted_rows(sizes))
    head = do_rule(standing, width, more)
    most = max(room - _never_less(told, step), _LEAST_TABLE)
    table = size_rows(sizes, chosen, shown, width, min(_wanted_rows(sizes), most))
    doing = folded(told, room - len(table), width, step)
    if table and rows >= _ROWS_FOR_WATCH and treats(step) and _is_watch_cut(told, doing):
        sizes, table, doing = (), [], folded(told, room, width, step)
    if len(doing) + len(table) > room:  # all of it stands below, where page down goes
        doing = _cut_cautions(told, room - 1 - len(table), width, step)
        everything = [
            line for one in whole if one.label not in ("Know", "Time", DRAWING) for line in one.lines
        ]
        full = [rule("In full", width), *everything, *size_rows(sizes, chosen, shown, width)]
        return [*marks, head, *doing, *table, *full]
    left = room - len(doing)
    table = size_rows(sizes, chosen, shown, width, max(left, len(table))) if sizes else []
    blank = [Content("")] * max(left - len(table), 0)
    return [*marks, head, *doing, *blank, *table]


def _cautioned(
    standing: Standing, whole: list[Told], chosen: Check | None, shown: Shown, width: int, rows: int
) -> tuple[list[Told], int]:
    """What is told of a step with all of its cautions where they fit into so many rows, else with those that
    hold now, and how many more it has: those stand one Tab away, and the heading says so.
    """
    step = standing.step
    if step is None:
        return whole, 0
    for told in (whole, _run_on_cautions(whole, width)):
        if _in_sight(told) <= rows:
            return told, 0
    now = [*cautions_now(standing, chosen)]
    told = do_lines(standing, step, shown, width, chosen, now)
    more = len({*step.cautions} - {*now})
    return (told if _in_sight(told) <= rows else _run_on_cautions(told, width)), more


def _is_watch_cut(told: list[Told], doing: list[Content]) -> bool:
    """Whether what to watch is told in part or not at all."""
    seen = {line.plain for line in doing}
    return any(line.plain not in seen for one in told if one.label == "Watch" for line in one.lines)


def _in_sight(told: list[Told]) -> int:
    """Rows of what is wanted in sight at the fire; the rest of it may stand one Tab away."""
    return sum(len(one.lines) for one in told if one.label not in (*_TO_KNOW, "Keep", "Rest"))


def _run_on_cautions(told: list[Told], width: int) -> list[Told]:
    """The same with its cautions in one, which takes fewer rows than each by itself."""
    cautions = [one for one in told if one.label == "Caution"]
    if len(cautions) < 2:
        return told
    text = said("Caution  ", Ink.BAD)
    for at, one in enumerate(cautions):
        text = Content.assemble(text, said(" · " if at else "", Ink.BAD), said(one.words))
    lines = [Content.assemble(" ", part) for part in wrapped(text, max(width - 2, 8))]
    rest = [one for one in told if one.label != "Caution"]
    return [Told("Caution", lines, ""), *rest]


def _cut_cautions(told: list[Told], rows: int, width: int, step: StepToDo) -> list[Content]:
    """What is told in so many rows where even cautions are cut, for what to do needs its first row too."""
    rest = [one for one in told if one.label != "Caution"]
    least = folded(rest, 0, width, step)
    lines = [line for one in told if one.label == "Caution" for line in one.lines]
    return [*_cut(lines, len(lines) - max(rows - len(least), 1), width), *least]


def needs_rows(standing: Standing, chosen: Check | None, shown: Shown, width: int) -> int:
    """How many rows the work in hand wants before the face gives way to it.

    It does so for what to do at a treatment, a weld and a mark-out, and for many sizes. Elsewhere it is what
    is read from the anvil, and cautions run on, and good and later sizes fold, before it does.
    """
    step = standing.step
    if step is None:
        return 0
    told = do_lines(standing, step, shown, width, chosen, [*cautions_now(standing, chosen)])
    marks = len(bar_of_marks(standing, chosen, shown, width))
    table = _wanted_rows(sizes_told(standing, chosen))
    if not (marks or treats(step) or step.heat_kind is HeatKind.WELDING):
        least = _never_less(_run_on_cautions(told, width), step)
        return 1 + max(least + min(table, _LEAST_TABLE), 1 + table)
    wanted = ("Watch",) if treats(step) else ("Watch", "Do")
    whole = sum(len(one.lines) for one in told if one.label in wanted) - (not treats(step))  # its first row
    return 1 + marks + _never_less(told, step) + whole + table


def _never_less(told: list[Told], step: StepToDo) -> int:
    """Rows of cautions and of what goes with them, with one of what to do, or all of it at a treatment."""
    treated = treats(step)
    whole = ("Caution", "Flux", "Quench", "Test", "By hand", *(("Do",) if treated else ()))
    first = {one.label for one in told} & {"Fix", *WHY.values()}  # one row of each
    return sum(len(one.lines) for one in told if one.label in whole) + (not treated) + len(first)


def sizes_told(standing: Standing, chosen: Check | None) -> tuple[Check, ...]:
    """The sizes that stand in the table: none where the face tells the only one."""
    alone = len(standing.checks) == 1 and chosen is not None
    return () if alone else standing.checks


def _wanted_rows(sizes: tuple[Check, ...]) -> int:
    """Rows of the table with its rule, what is good told as one."""
    wanting = sum(not is_good(one) for one in sizes)
    return 1 + wanting + min(len(sizes) - wanting, 1) if sizes else 0


def do_rule(standing: Standing, width: int, more_cautions: int = 0) -> Content:
    """The heading of what to do, with the step that comes, unless it has no room for that beside the cautions
    that are not in sight.
    """
    number = standing.step.number + 1 if standing.step is not None else 0
    coming = f"then {number} {standing.coming[0]}" if standing.coming else "the last step"
    if not more_cautions:
        return rule("Do", width, coming)
    more = f"{counted(more_cautions, 'more caution')}: Tab"
    both = f"{more} · {coming}"
    return rule("Do", width, both if one_line(both).cell_length + _LEAST_HEAD <= width else more)


def do_lines(
    standing: Standing,
    step: StepToDo,
    shown: Shown,
    width: int,
    chosen: Check | None = None,
    cautions: Sequence[str] | None = None,
) -> list[Told]:
    """Everything that is told of a step, in the order that it is wanted at the fire; of its cautions only
    these, where some are given.
    """
    asked = {check.label for check in standing.checks if check.wanted is not None}
    order = {"Caution": 0, "Flux": 1, "Quench": 1, "Test": 1, "By hand": 1, "To size": 2, "Do": 3, "Watch": 4}
    lines = [
        (line.label, line.words, line.tone.name)
        for line in step_lines(step, shown, asked, standing.by_hand, asked=asked)
        if line.label not in ("Heat", "Caution") and line.words
    ]
    told = step.cautions if cautions is None else cautions
    by_hand = (sentence(one.caution, shown) for one in standing.by_hand if one.caution)
    lines += [("Caution", caution, "BAD") for caution in dict.fromkeys((*told, *by_hand))]
    if chosen is not None and chosen.kind is Kind.TEST:
        test = ("Test", chosen.how, "PLAIN")
        lines.insert(0, test) if made_in_fire(chosen) else lines.append(test)  # in the order of doing
    lines += [("Fix", sentence(right.words, shown), "CARE") for right in standing.to_right]
    if standing.rest_reason and treats(step):
        lines.append(("Rest", sentence(standing.rest_reason, shown), "PLAIN"))
    if why := why_not_on_plan(standing, shown):
        lines.append((WHY[standing.verdict], why, "CARE"))
    if chosen is not None and (end := in_the_end_text(chosen, standing.sizes, shown)):
        lines.append((DRAWING, sentence(end, shown), "PLAIN"))
    places = {"Fix": 5, "Rest": 6, **dict.fromkeys(WHY.values(), 1)}
    lines.sort(key=lambda one: {**order, **places}.get(one[0], 7))
    return [Told(label, _set(label, words, tone, width), words) for label, words, tone in lines]


def why_not_on_plan(standing: Standing, shown: Shown) -> str:
    """Why the verdict is not good; "" where it is, or where the sizes or what is to be put right say it."""
    if standing.verdict is PlanState.ON_PLAN or standing.trouble:
        return ""
    reason = standing.reason
    if isinstance(reason, Reason):
        name = size_name(reason.zone, reason.dimension)
        if any(one.name == name and not one.is_open and not one.is_settled for one in standing.checks):
            return ""
    elif standing.to_right:
        return ""
    return reason_text(reason, shown)


def _set(label: str, words: str, tone: str, width: int) -> list[Content]:
    """A text under its label's margin; what to do has no label and begins at the edge."""
    if label == "Do":
        room = max(width - 2, 8)
        return [Content.assemble(" ", part) for part in wrapped(said(words), room)]
    if width < _NARROW:
        text = Content.assemble(
            said(f"{label}  ", _ink(label)), said(words, Ink[tone] if tone != "BAD" else "")
        )
        return [Content.assemble(" ", part) for part in wrapped(text, max(width - 2, 8))]
    room = max(width - _MARGIN - 2, 8)
    style = Ink[tone] if tone not in ("BAD", "PLAIN") else ""
    parts = [part for line in words.split("\n") for part in wrapped(said(line, style), room)]
    blank = " " * (_MARGIN + 1)
    return [
        Content.assemble(blank if at else said(f" {label:<{_MARGIN}}", _ink(label)), part)
        for at, part in enumerate(parts)
    ]


def _ink(label: str) -> str:
    return (
        Ink.BAD
        if label == "Caution"
        else Ink.CARE
        if label in ("Fix", "By hand", *WHY.values())
        else Ink.LABEL
    )


def folded(told: list[Told], rows: int, width: int, step: StepToDo) -> list[Content]:
    """What is told in so many rows: what gives way, in its order, is cut or left out."""
    has_watch = any(one.label == "Watch" for one in told)
    do_last = treats(step) or step.heat_kind in (HeatKind.WELDING, HeatKind.COLD)
    give_way = _AT_A_TREATMENT if do_last else _GIVES_WAY
    if treats(step):  # the face tells the heat, and what to watch there is told once in a job
        give_way = (*((label, True) for label in ("To size", *WHY.values())), *give_way)
    for label, out in give_way:
        over = sum(len(one.lines) for one in told) - rows
        if over <= 0:
            break
        if label == "Fix":
            told = _one_fix(told, over, width)
            continue
        told = [
            one if one.label != label else one._replace(lines=_cut(one.lines, over, width))
            for one in told
            if not (out and one.label == label)
        ]
    lines = [line for one in told for line in one.lines]
    watched = any(one.label == "Watch" for one in told)
    if has_watch and not watched and lines and not lines[-1].plain.endswith(_MORE):
        lines = _cut([*lines, Content("")], 1, width, _WATCH_MORE if width >= _NARROW else _MORE)
    return lines


def _one_fix(told: list[Told], over: int, width: int) -> list[Told]:
    """The same with the first thing to put right in one row; the head counts them all."""
    first = next((one for one in told if one.label == "Fix"), None)
    kept = [one for one in told if one.label != "Fix" or one is first]
    over -= sum(len(one.lines) for one in told) - sum(len(one.lines) for one in kept)
    return [one._replace(lines=_cut(one.lines, over, width)) if one is first else one for one in kept]


def _cut(lines: list[Content], over: int, width: int, sign: str = _MORE) -> list[Content]:
    """Lines with so many left out at their end, but never the first, and a sign that there is more."""
    kept = max(len(lines) - over, 1)
    if kept >= len(lines):
        return lines
    room = max(width - len(sign) - 1, 1)
    last = lines[kept - 1]
    if last.cell_length > room:  # no word is cut
        last = last.truncate(max(last.plain.rfind(" ", 0, room + 1), 1))
    last = last.truncate(max(len(last.plain.rstrip(" ·")), 1))
    return [*lines[: kept - 1], Content.assemble(last, (sign, Ink.QUIET))]


def ended(standing: Standing, shown: Shown, width: int) -> Iterator[Content]:
    """What is told once every step is done."""
    name = standing.sizes[0].label if standing.sizes else "blade length"
    told = (
        "Ctrl+E shows the sheet of the tool, the drawing against what came; there n says what to do better.",
        "+ lists what is to put right.",
        f"A size is measured by its name: {name}=31.5 Enter. F5 goes back to the last step.",
    )
    for text in told:
        yield from (Content.assemble(" ", part) for part in wrapped(one_line(text), max(width - 2, 8)))
    yield Content("")
    for line in hand_lines(standing.by_hand, shown):
        if line.words:
            yield from _set(line.label, line.words, line.tone.name, width)
    for right in standing.to_right:
        yield from _set("Fix", sentence(right.words, shown), "CARE", width)
