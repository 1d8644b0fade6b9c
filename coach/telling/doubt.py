"""What a job's doubt comes from, and which sizes are worth measuring now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from coach.bench.planned_doubt import Decides
from coach.forms import label, listed
from coach.ledger.doubt_sources import DoubtFrom, ShareOfDoubt
from coach.quantities import COVERAGE, Figure
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Row, Table, Tone, page, section
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.tells_most import DoubtOfJob, WouldTell

#: Less than this is not worth telling (our choice).
_LEAST_SHARE = 0.01
#: A source that makes less of the doubt than this is not told what would help against it (our choice).
_MUCH = 0.3

#: How each source is called, and what takes its doubt away.
_CALLED: Mapping[DoubtFrom, str] = {
    DoubtFrom.BAR: "bar",
    DoubtFrom.MARKS: "marks",
    DoubtFrom.SCALE: "scale",
    DoubtFrom.SPREAD: "spread",
    DoubtFrom.WORK: "hand and heats",
}
_HELPS: Mapping[DoubtFrom, str] = {
    DoubtFrom.BAR: "measure the bar before it is marked out",
    DoubtFrom.MARKS: "measure the marks, from the end",
    DoubtFrom.SCALE: "sizes after the first heats, or a weighing off the bar, tell how much your fire scales",
    DoubtFrom.SPREAD: "the width beside the thickness of one heat tells it",
    DoubtFrom.WORK: "measure after the step that adds the most",
}

#: Said where no reading is worth a way to the bench.
NOTHING_TELLS = "Nothing that you could measure now would change much of what is told."


def doubt_page(doubt: DoubtOfJob, shown: Shown) -> Page:
    """What decides, what its doubt comes from, and the sizes that would tell most."""
    return page(
        section("", decides_lines(doubt, shown)), section("To measure first", measure_parts(doubt, shown))
    )


def decides_lines(doubt: DoubtOfJob, shown: Shown) -> Iterator[Line]:
    """The size that a job turns on and what its doubt comes from."""
    decides = doubt.decides
    if decides is None:
        yield Line("No one size decides how the job stands.")
        return
    at_end = write_figure(decides.doubt._replace(value=0.0, doubt=decides.doubt.value), shown, "±")
    told = f"the {label(decides.zone, decides.dimension)}, known to ±{at_end.partition('±')[2]} at the end"
    yield Line(f"{told}.", "Decides")
    if decides.sources:
        yield Line(f"{sources_text(decides.sources)}.", "Doubt")
        if helps := what_helps(decides, begun=doubt.begun):
            yield Line(f"{helps}.", "Helps")


def sources_text(sources: Sequence[ShareOfDoubt]) -> str:
    """What doubt comes from, the largest share first.

    >>> sources_text([ShareOfDoubt(DoubtFrom.SCALE, 0.7), ShareOfDoubt(DoubtFrom.MARKS, 0.296)])
    'scale 70 %, marks 30 %'
    """
    told = [one for one in sources if one.share >= _LEAST_SHARE]
    return ", ".join(f"{_CALLED[one.source]} {100.0 * one.share:.0f} %" for one in told)


def what_helps(decides: Decides, *, begun: bool = False) -> str:
    """What would take most of the doubt away; "" where no one source makes much of it.

    Of a job that is `begun` the bar is marked out, and past being measured before.
    """
    most = decides.sources[0] if decides.sources else None
    if begun and most is not None and most.source is DoubtFrom.BAR:
        return ""
    return _HELPS[most.source] if most is not None and most.share >= _MUCH else ""


_AS_IT_IS_NOW = "nobody has measured it as it is now"

#: Why a chance near 100 % may move far: the reading is what makes the size count.
_NOT_READ = (
    "A size that nobody has read counts in so far only where it is surely out, so a reading may move it by "
    "more than its chance says."
)


def measure_parts(doubt: DoubtOfJob, shown: Shown) -> Iterator[Line | Table]:
    """The sizes that are worth measuring now, with how far a reading would move what is told."""
    if doubt.hangs_on:
        yield Line(f"Measure the {doubt.hangs_on}: the verdict hangs on it, and {_AS_IT_IS_NOW}.")
    if not doubt.would_tell and doubt.hangs_on:
        return
    if not doubt.would_tell and doubt.again:
        yield Line(f"Measure the {listed(doubt.again)} again, cold: as it was read it is not sure.")
        return
    if not doubt.would_tell:
        asked = f"Next the step asks for {doubt.asked_next}. " if doubt.asked_next else ""
        yield Line(asked + NOTHING_TELLS)
        return
    yield Line("A reading is likely to change the chance by about so many points.")
    rows = tuple(
        Row(_cells(one, shown), Tone.STRONG if at == 0 else Tone.PLAIN)
        for at, one in enumerate(doubt.would_tell)
    )
    yield Table(rows, ("size", "believed", "so far", "will pass", ""), gives=0)
    yield Line(_NOT_READ)


def _cells(one: WouldTell, shown: Shown) -> tuple[str, ...]:
    asked = "asked here" if one.asked else ""
    return (
        one.label,
        _believed(one.believed, shown),
        points(one.moves_chance),
        points(one.moves_will_pass),
        asked,
    )


def _believed(size: Figure, shown: Shown) -> str:
    """What a size is believed to be; one that may as well be nothing is not known."""
    if COVERAGE * (size.doubt or 0.0) >= size.value:
        return "not known"
    return write_figure(size, shown, "±")


def points(moves: float) -> str:
    """By how many points in a hundred a chance is likely to move.

    >>> points(0.123), points(0.002)
    ('12', '0')
    """
    return f"{100.0 * moves:.0f}"
