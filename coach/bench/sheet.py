"""The sheet of a job: the drawing against the tool as it came, what it took, and what it taught."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from typing import NamedTuple

from coach.bench.forms_by_step import forms_of
from coach.bench.job_state import JobState
from coach.bench.learned import LearnedOfShop
from coach.bench.numbered_now import numbered_now
from coach.bench.righting import Right
from coach.bench.shop_tests_made import CameOfTest, made_tests
from coach.bench.sizes_came import (
    SizeCame,
    counted_sizes,
    sizes_apart,
    sizes_drawn,
)
from coach.bench.standing import LeftOut, Noted, Standing, read_now
from coach.bench.taken import (
    GaugeUsed,
    HandKept,
    HeatsTaken,
    MetalTaken,
    TimeTaken,
    gauges_used,
    hand_kept,
    heats_taken,
    metal_taken,
    time_taken,
)
from coach.bench.treated import Treatment, treatments
from coach.bench.verdicts import Why
from coach.forms import Form, FormError
from coach.ledger.head import Head, head
from coach.ledger.verdict import PlanState
from coach.log.amends import Amends
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.metal_lost import MetalLost
from coach.log.kinds.photograph import Photograph
from coach.log.kinds.way_back import WayBackTaken
from coach.log.status import JobStatus
from coach.quantities import Words


class WayTaken(NamedTuple):
    """A way back that was taken, a haft that the eye was worked to, or metal that was lost."""

    entry: int  # its entry's number
    step: int  # the step then in hand, by its number now; 0 when every step was done
    title: Words  # what was done
    changes: Words  # what that changed


class Balance(NamedTuple):
    """The finished piece as one body, as it was drawn and as it came."""

    drawn: Head
    came: Head | None  # by its sizes as they came; `null` until it is finished


class PhotographTaken(NamedTuple):
    """A photograph, by the path of its file."""

    entry: int  # its entry's number
    step: int  # the step then in hand, by its number now; 0 when every step was done
    file: str
    text: str  # what is to be seen on it; empty where nothing was said


class Sheet(NamedTuple):
    """A job from its drawing to the tool, finished or so far."""

    job: str  # the job's name
    title: str  # the recipe's title
    recipe: str  # the recipe's name
    state: JobStatus
    finished: bool  # whether every step is done; all else is so far until then
    steps: int  # how many there are, those put in by ways back with them
    steps_done: int
    given_up: tuple[str, ...]  # the pieces that are made no more
    verdict: PlanState
    chance: float  # of making the drawing, with what ways back let go
    reason: Why  # the size that decides, or words
    trouble: Words  # why the reckoning cannot go on; empty when it can
    as_drawn: int  # how many sizes of the drawing came surely within it
    asked: int  # of so many of the drawing, those to come not counted
    apart_as_wanted: int  # how many of what steps asked for besides came surely as wanted
    apart_asked: int  # of so many, those to come not counted
    sizes: tuple[SizeCame, ...]  # of the drawing, in its order
    apart: tuple[SizeCame, ...]  # what steps asked for besides: bends, gaps, angles, hardnesses
    tests: tuple[CameOfTest, ...]
    heats: HeatsTaken
    time: TimeTaken
    metal: MetalTaken | None  # `null` where the reckoning stopped
    treatments: tuple[Treatment, ...]  # how the steel was treated, planned and read
    balance: Balance | None  # `null` where several pieces are left, or the reckoning stopped
    learned: tuple[LearnedOfShop, ...]  # what the readings have taught of the shop
    hand: HandKept | None  # `null` with too few sizes to tell
    gauges: tuple[GaugeUsed, ...]
    ways_back: tuple[WayTaken, ...]  # in their order
    lost: tuple[WayTaken, ...]  # metal that no step took, in its order
    notes: tuple[Noted, ...]
    photographs: tuple[PhotographTaken, ...]
    to_right: tuple[Right, ...]  # what is still to be put right
    left_out: tuple[LeftOut, ...]  # entries that cannot be reckoned with


def sheet_of(entries: Sequence[Entry], state: JobState, standing: Standing) -> Sheet:
    """The sheet of a job as far as it has gone: all of its entries, and what follows from them."""
    measured = read_now(state)
    sizes = tuple(sizes_drawn(state, standing.sizes, measured))
    apart = tuple(sizes_apart(state))
    metal = metal_taken(state)
    count, count_apart = counted_sizes(sizes), counted_sizes(apart)
    return Sheet(
        job=standing.job,
        title=standing.title,
        recipe=standing.recipe,
        state=standing.state,
        finished=standing.step is None,
        steps=standing.steps,
        steps_done=len(state.records),
        given_up=standing.given_up,
        verdict=standing.verdict,
        chance=standing.chance,
        reason=standing.reason,
        trouble=standing.trouble,
        as_drawn=count.as_drawn,
        asked=count.asked,
        apart_as_wanted=count_apart.as_drawn,
        apart_asked=count_apart.asked,
        sizes=sizes,
        apart=apart,
        tests=tuple(made_tests(state)),
        heats=heats_taken(entries, state),
        time=time_taken(entries, state),
        metal=metal,
        treatments=tuple(treatments(state)),
        balance=_balance(state, sizes, metal),
        learned=standing.learned,
        hand=hand_kept(state),
        gauges=gauges_used(state),
        ways_back=tuple(_taken(state, WayBackTaken, Amended)),
        lost=tuple(_taken(state, MetalLost)),
        notes=standing.notes,
        photographs=tuple(
            PhotographTaken(entry.number, numbered_now(since, body.step), body.file, body.text)
            for entry, since in _with_those_since(state)
            if isinstance(body := entry.body, Photograph)
        ),
        to_right=standing.to_right,
        left_out=standing.left_out,
    )


def _balance(state: JobState, sizes: Sequence[SizeCame], metal: MetalTaken | None) -> Balance | None:
    drawn = head(state.first_plan)
    if drawn is None:
        return None
    if state.step is not None or state.now is None or metal is None:
        return Balance(drawn, None)
    return Balance(drawn, head(state.plan, as_measured(forms_of(state.now), sizes), metal.left))


def as_measured(forms: Mapping[str, Form], came_sizes: Sequence[SizeCame]) -> dict[str, Form]:
    """The solids of a job's zones, each size as it came where it was measured."""
    found = dict(forms)
    for zone, form in forms.items():
        sizes = ((one.dimension, one.came) for one in came_sizes if one.zone == zone)
        came = {name: size.value for name, size in sizes if size is not None and name in form.DIMENSIONS}
        with suppress(FormError):
            found[zone] = form.with_sizes(came).checked()
    return found


def _taken(state: JobState, *kinds: type[Amends | Amended]) -> Iterator[WayTaken]:
    for entry, since in _with_those_since(state):
        if isinstance(body := entry.body, Amends | Amended) and isinstance(body, kinds):
            step = numbered_now((entry, *since), body.step)
            yield WayTaken(entry.number, step, body.title, body.changes)


def _with_those_since(state: JobState) -> Iterator[tuple[Entry, Sequence[Entry]]]:
    """Each entry that counts, with those after it."""
    counted = list(state.counted.values())
    return ((one, counted[at:]) for at, one in enumerate(counted, 1))
