"""Bodies of entries for the tests of the log: one of each kind, and those most used."""

from __future__ import annotations

from collections.abc import Sequence

from coach.ledger.amendment import (
    Again,
    Amendment,
    Moved,
    NewAllowance,
    NewBath,
    NewHeats,
    NewLimits,
    NewLoss,
    NewTarget,
    Regained,
    TakenBack,
)
from coach.log.body import Body
from coach.log.kinds import kinds
from coach.log.kinds.began import Began
from coach.log.kinds.brought_back import BroughtBack
from coach.log.kinds.corrected import Corrected
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.heat import Heat
from coach.log.kinds.note import Note
from coach.log.kinds.put_right import PutRight
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.log.kinds.resumed import Resumed
from coach.log.kinds.set_aside import SetAside
from coach.log.kinds.struck import Struck
from coach.log.kinds.to_put_right import ToPutRight
from coach.log.kinds.way_back import WayBackTaken
from coach.log.kinds.went_back import WentBack
from coach.quantities import Limits, as_words, celsius, mm, say

BEGAN = Began(
    title="Broad axe",
    text="title: broad axe\nzones: [poll, eye, blade]\n",
    source="broad-axe.yaml",
    recipe="{}",
    coach="1.0",
    units="mm",
    grades={},
)
HEAT = Heat(step=1)
NOTE = Note(text="weld looks dull\u2028scarf again at 1¼″", step=1)
READING = Reading(
    zone="blade",
    dimension="length",
    typed="31.5",
    size=31.5,
    gauge="rule",
    hot_c=None,
    hot_doubt_c=0.0,
    insisted=False,
    step=1,
    taken_at="",
)
_SIZE = Limits(28.0, 27.0, 29.5, stated=True)
WAY_BACK = WayBackTaken(
    name="weld-on",
    title=as_words("Weld a piece on"),
    changes=say("The {} gets {} longer.", "blade", mm(12.0, 0.5)),
    caution=as_words("it may tear"),
    step=1,
    amendment=Amendment(
        limits=(NewLimits("blade", "width", _SIZE),),
        targets=(NewTarget(2, "width", _SIZE),),
        heats=(NewHeats(2, 3),),
        moved=(Moved("blade", -120.5, 4.0),),
        regained=(Regained("blade", "width", 28.0, 0.5),),
        allowances=(NewAllowance("blade", 0.1),),
        again=(Again(2, 1, 2, ("blade.ring",), "water"),),
        taken_back=(TakenBack("blade", 3.0),),
        losses=(NewLoss(2, 1.5),),
        baths=(NewBath(2, "oil"),),
    ),
)

_BY_HAND: tuple[Body, ...] = (
    BEGAN,
    READING,
    HEAT,
    BackInFire(step=1),
    NOTE,
    Corrected(entry=2, typed="32", size=32.0, hot_doubt_c=0.0, insisted=False),
    ToPutRight(text="not closed at the heel", zone="blade", step=1),
    PutRight(entry=7),
    Done(step=1, heats=1, marked=True, told=False),
    WAY_BACK,
    Rested(forced=True, reason=say("Temper it at {} first.", celsius(200.0))),
    Resumed(),
    SetAside(),
    BroughtBack(),
    Struck(entry=5),
    WentBack(entry=9),
)

#: What a field of a kind that has no sample by hand may hold: the first of them that it takes.
_VALUES: tuple[object, ...] = (
    "blade",
    "mm",
    1,
    0.5,
    False,
    None,
    {},
    as_words("a lap"),
    WAY_BACK.amendment,
    "",
)


def sample_of(kind: type[Body], before: Sequence[Body] = _BY_HAND) -> Body:
    """An entry of a kind, made by what its fields may hold; those it speaks of are among `before`."""
    fields: dict[str, object] = {}
    for name, limit in kind.limits.items():
        if limit.is_one:
            meant = [number for number, body in enumerate(before, 1) if kind.can_mean(name, type(body))]
            fields[name] = meant[0]
        else:
            allowed = (*_VALUES, *limit.expected.removeprefix("one of ").split(", "))
            fields[name] = next(value for value in allowed if limit.fault(value) is None)
    return kind(**fields)


_NOT_BY_HAND = tuple(
    sample_of(kind) for name, kind in kinds().items() if name not in {body.KIND for body in _BY_HAND}
)

#: In an order in which a job may hold them: what some speak of stands before them. A kind of which there is
#: none here by hand comes last, as its fields say that it may be.
ONE_OF_EACH: tuple[Body, ...] = (*_BY_HAND, *(body for body in _NOT_BY_HAND if body.OF_JOB))

#: The same of what is entered for the rack.
ONE_OF_EACH_OF_RACK: tuple[Body, ...] = tuple(body for body in _NOT_BY_HAND if not body.OF_JOB)


def note(text: str) -> Note:
    """A note of that text."""
    return Note(text=text, step=1)
