"""What each piece of a job took off its bar: as it was marked, as it was cut, and by ways back since."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from coach.bench.given_up import is_worked, since_cut_anew
from coach.bench.job_state import JobState
from coach.forms import FormError
from coach.ledger.course import AmendmentMark, Course
from coach.ledger.cut_on_row import beyond_spoiled_mm3, beyond_the_cut_mm3, stages_as_done
from coach.ledger.following import follow
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError, piece_density_g_mm3
from coach.ledger.workpiece import Workpiece, at_stock
from coach.operations import Does
from coach.recipe.model import Piece, Step

#: In place of the number of an entry: the bar that a piece began with (our choice).
_ITS_OWN = 0


class OffOther(NamedTuple):
    """What was cut anew off another bar than the piece's own."""

    way: int  # the number of the entry that it was cut by
    length_mm: float  # as that entry has it
    beyond_mm: float  # by what was read of it since; less than nothing where less was taken


class TakenOffBar(NamedTuple):
    """What a piece took, against what was planned for it as the job began."""

    piece: str
    beyond_mm: float  # of its bar; less than nothing where less was taken
    beyond_g: float  # the same as mass, with what was added to it that is from elsewhere
    aside_g: float  # mass of it that was set aside: spoiled, and cut anew
    elsewhere: tuple[OffOther, ...] = ()
    not_replaced_g: float = 0.0  # of what was set aside: given up before anything was made in its place

    @property
    def elsewhere_mm(self) -> float:
        """Of other bars like it, for what was cut anew."""
        return sum(one.length_mm + one.beyond_mm for one in self.elsewhere)


def works(plan: Plan, step: Step) -> bool:
    """Whether a step heats the metal, or takes any of it."""
    taken = (sum(stage.taken_mm3.values()) for stage in stages_as_done(plan, step).values())
    return step.heats > 0 or any(volume > 0.0 for volume in taken)


def was_worked(plan: Plan, course: Course) -> bool:
    """Whether a step did so; one whose piece was spoiled in it did, though it stands for no heat any more."""
    return works(plan, course.step) or any(mark.amendment.cut_anew for mark in _ways(course))


def taken_off_bars(state: JobState) -> tuple[TakenOffBar, ...]:
    """Of every piece that has a bar of its own."""
    recipe = state.plan.recipe
    alone = [one for one in recipe.pieces.values() if not (one.layers or one.source)]
    own = [piece for piece in alone if piece.name not in recipe.sources]
    return tuple(_taken(state, piece) for piece in own if piece.name in state.bars_plan.pieces)


def _taken(state: JobState, piece: Piece) -> TakenOffBar:
    """Followed through its steps; a piece that is cut anew begins once more with a new length of bar."""
    zones = [zone for zone in piece.zones if zone in state.bars_plan.start_mm3]
    area_mm2 = state.bars_plan.bar_of(zones[0]).end_area_mm2("finish")
    stock = at_stock(state.bars_plan)
    beyond_mm3 = aside_mm3 = last_aside_mm3 = 0.0
    bar, off = _ITS_OWN, {_ITS_OWN: 0.0}  # what lies in hand is of, and how much more of each
    others: dict[int, float] = {}
    is_marked = is_cut = False
    burnt_mm3 = (
        0.0  # and lost or cut off otherwise, before anything was made of it: it went off the bar with it
    )
    for plan, course in state.courses_by_plan():
        is_its_own = bool({*course.step.zones, *course.step.heated} & {*piece.zones})
        if is_its_own and not is_marked and was_worked(plan, course):
            is_marked = True
            more_mm, more_mm3 = _marked_beyond(course.start, stock, zones)
            off[bar] += more_mm + burnt_mm3 / area_mm2
            beyond_mm3 += more_mm3 + burnt_mm3
        if not is_marked:
            burnt_mm3 += _lost_mm3(course, zones)
        else:
            for mark in _ways(course):
                more_mm, more_mm3 = _added(mark, piece, area_mm2)
                off[_ITS_OWN], beyond_mm3 = off[_ITS_OWN] + more_mm, beyond_mm3 + more_mm3
                if other_mm := _elsewhere_mm(mark, piece):
                    others[mark.entry] = other_mm
        if is_its_own and not is_cut and _cuts_free(course.step, piece):
            is_cut = True
            cut_mm3 = beyond_the_cut_mm3(plan, course, piece, follow)
            off[bar], beyond_mm3 = off[bar] + cut_mm3 / area_mm2, beyond_mm3 + cut_mm3
        ways = [mark for mark in _ways(course) if any(one.zone in zones for one in mark.amendment.cut_anew)]
        if ways:
            anew = [one for mark in ways for one in mark.amendment.cut_anew if one.zone in zones]
            last_aside_mm3 = sum(one.aside_mm3 for one in anew)
            aside_mm3 += last_aside_mm3
            cut_mm3 = 0.0 if is_cut else beyond_spoiled_mm3(plan, course, piece.zones[-1])
            off[bar], beyond_mm3 = off[bar] + cut_mm3 / area_mm2, beyond_mm3 + cut_mm3
            bar = ways[-1].entry if ways[-1].entry in others else _ITS_OWN
            off.setdefault(bar, 0.0)
            is_marked = is_cut = False
            burnt_mm3 = 0.0
            stock = at_stock(state.plan)
    recipe = state.plan.recipe
    now = recipe.pieces.get(piece.name, piece)
    if now.given_up and not is_cut:
        ahead = recipe.steps[len(state.records) :]
        if not any(_cuts_free(step, piece) for step in ahead):
            back_mm3 = _stays_on_bar_mm3(state, now)
            off[bar], beyond_mm3 = off[bar] - back_mm3 / area_mm2, beyond_mm3 - back_mm3
    if not is_marked and state.now is not None:
        more_mm, more_mm3 = _marked_beyond(state.now, stock, zones)
        off[bar] += more_mm + burnt_mm3 / area_mm2
        beyond_mm3 += more_mm3 + burnt_mm3
    density = piece_density_g_mm3(piece)
    elsewhere = tuple(OffOther(way, length_mm, off.get(way, 0.0)) for way, length_mm in others.items())
    is_replaced = not now.given_up or is_worked(state, piece.zones)
    return TakenOffBar(
        piece.name,
        off[_ITS_OWN],
        beyond_mm3 * density,
        aside_mm3 * density,
        elsewhere,
        0.0 if is_replaced else last_aside_mm3 * density,
    )


def given_up_g(state: JobState) -> float:
    """Mass of what is left of pieces that were given up and is bar no more."""
    recipe, now, found = state.plan.recipe, state.now, 0.0
    for name in recipe.given_up:
        if now is None:
            break
        piece = recipe.pieces[name]
        ahead = recipe.steps[len(state.records) :]
        is_cut = any(_cuts_free(one.step, piece) for one in since_cut_anew(state, piece.zones))
        whole = is_cut or any(_cuts_free(step, piece) for step in ahead)
        bar_mm3 = 0.0 if whole else _stays_on_bar_mm3(state, piece)
        found += max(volume_mm3(now, piece.zones) - bar_mm3, 0.0) * piece_density_g_mm3(piece)
    return found


def _stays_on_bar_mm3(state: JobState, piece: Piece) -> float:
    """What of a given up piece is bar still: all that lies behind the last zone of it that was worked."""
    worked = [at for at, zone in enumerate(piece.zones) if is_worked(state, (zone,))]
    left = piece.zones[max(worked, default=-1) + 1 :]
    return sum(state.plan.start_mm3[zone] for zone in left)


def _ways(course: Course) -> Iterator[AmendmentMark]:
    return (mark for mark in course.marks if isinstance(mark, AmendmentMark) and not mark.is_loss)


def _lost_mm3(course: Course, zones: Sequence[str]) -> float:
    """What went off some zones: burnt or lost otherwise, and cut off to be rid of it."""
    losses = (mark.amendment.moved for mark in course.marks if isinstance(mark, AmendmentMark))
    gone = (moved for moved in losses if sum(one.volume_mm3 for one in moved) < 0.0)
    return -sum(one.volume_mm3 for moved in gone for one in moved if one.zone in zones)


def _added(mark: AmendmentMark, piece: Piece, area_mm2: float) -> tuple[float, float]:
    """What a way back adds to a piece: of its own bar in mm, and in all in mm³."""
    off = [one for one in mark.amendment.off_bar if one.zone in piece.zones]
    if off:
        own_mm = sum(one.length_mm for one in off if not one.elsewhere)
        return own_mm, sum(one.length_mm for one in off) * area_mm2
    moved = [one.volume_mm3 for one in mark.amendment.moved]
    is_its_own = all(one.zone in piece.every_zone for one in mark.amendment.moved)
    return 0.0, max(sum(moved), 0.0) if is_its_own else 0.0


def _elsewhere_mm(mark: AmendmentMark, piece: Piece) -> float:
    off = (one for one in mark.amendment.off_bar if one.zone in piece.zones and one.elsewhere)
    return sum(one.length_mm for one in off)


def _cuts_free(step: Step, piece: Piece) -> bool:
    """Whether a step may cut a piece from its bar: it cuts the end that is next to that."""
    return step.does(Does.CUTS_FREE) and piece.zones[-1] in step.zones


def volume_mm3(workpiece: Workpiece, zones: Iterable[str]) -> float:
    """The believed volume of some zones together."""
    return sum(workpiece.volume_mm3(zone) for zone in zones)


def _marked_beyond(marked: Workpiece, stock: Workpiece, zones: Sequence[str]) -> tuple[float, float]:
    """How much more was marked out than a plan had it: length of bar in mm, and volume in mm³."""
    more_mm3 = volume_mm3(marked, zones) - volume_mm3(stock, zones)
    try:
        return _length_mm(marked, zones) - _length_mm(stock, zones), more_mm3
    except (LedgerError, FormError):  # a mark beyond the next one leaves a zone no metal
        return more_mm3 * _length_mm(stock, zones) / volume_mm3(stock, zones), more_mm3


def _length_mm(workpiece: Workpiece, zones: Sequence[str]) -> float:
    return sum(workpiece.size(zone, "length").value for zone in zones)


def left_of_bars(state: JobState) -> dict[str, float]:
    """What is left now of the bar of each piece whose bar was named, mm; less than nothing where it lacks."""
    beyond = {one.piece: one.beyond_mm for one in taken_off_bars(state)}
    first, pieces = state.bars_plan.pieces, state.bars_plan.recipe.pieces
    left = {name: one.left_over.value for name, one in first.items() if one.left_over is not None}
    rows = {name: pieces[name].row for name in first}
    return {
        name: left_mm - sum(mm for other, mm in beyond.items() if rows.get(other) == rows[name])
        for name, left_mm in left.items()
    }
