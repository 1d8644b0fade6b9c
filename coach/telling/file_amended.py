"""What a recipe's file, changed since its job began, would change of the job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.file_amended import (
    BATH,
    CHANGED,
    MOVED,
    FileAmended,
    FileChanges,
    SizeChanged,
    Stands,
    StepChanged,
)
from coach.bench.file_matched import BAR_IS_BEGUN
from coach.bench.zones_matched import PieceChanged
from coach.forms import label, listed
from coach.log.kinds.amended import AS_IN_FILE
from coach.operations.measures import MARK
from coach.quantities.words import counted, say
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Section, Tone, page, section, table
from coach.telling.sizes import spare_text
from coach.telling.why import chance_beside, reason_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown


def file_amended_page(told: FileAmended, shown: Shown) -> Page:
    """Steps ahead, sizes and what is too late; chance and spare before and after."""
    changes = told.changes
    if changes.is_none and not changes.too_late and not changes.late_bars:
        return page(section("", [Line("The file says what the job does already: there is nothing to take.")]))
    return page(
        section("The bar", _bars(told, shown)),
        section(
            "The steel", [Line(f"{one.piece}: {one.now}, was {one.was}", mark="-") for one in changes.grades]
        ),
        section("Pieces and zones", _pieces(changes.pieces)),
        section("Marked out beyond the plan", [Line(one, mark="-") for one in _allowances(changes)]),
        section("The quench", _steps([one for one in changes.ahead if one.what == BATH], shown)),
        section("Steps ahead", _steps([one for one in changes.ahead if one.what != BATH], shown)),
        section("Marks still to be made", [table(_marks(told, shown))]),
        section("The drawing", [table(_size(one, shown) for one in changes.sizes)]),
        section("On the rack", [Line(sentence(one.words, shown), mark="-") for one in told.rack]),
        section("Too late, for it is done", [*_steps(changes.too_late, shown), *_late_bars(changes, shown)]),
        section("Is that meant?", _asked(told, shown)),
        section("How it stands", [*_stands(told.before, told.after, shown)]),
        section("Metal to spare", [table(_spares(told.before, told.after, shown), ("size", "now", "then"))]),
    )


def _bars(told: FileAmended, shown: Shown) -> Iterator[Line]:
    if told.title.template == AS_IN_FILE:
        for one in told.changes.bars:
            words = say("{}: {}, was {}", one.piece, one.now, one.was)
            yield Line(write(words, shown), mark="-")
    elif told.changes.bars and told.title:
        yield Line(sentence(told.title, shown))


def _late_bars(changes: FileChanges, shown: Shown) -> Iterator[Line]:
    for one in changes.late_bars:
        words = say("bar of the {}: {} in that file, was {}. {}", one.piece, one.now, one.was, BAR_IS_BEGUN)
        yield Line(write(words, shown), mark="-")


def _pieces(pieces: Sequence[PieceChanged]) -> Iterator[Line]:
    for one in pieces:
        if one.was and one.now:
            told = f"{listed(one.now)}, was {listed(one.was)}"
        else:
            told = f"gone, with {listed(one.was)}" if one.was else f"added, of {listed(one.now)}"
        yield Line(f"{one.piece}: {told}", mark="-")


def _steps(steps: Sequence[StepChanged], shown: Shown) -> Iterator[Line]:
    for one in steps:
        what = write(one.words, shown) if one.what in (BATH, CHANGED, MOVED) else one.what
        yield Line(f"{one.number}. {one.title}: {what}", mark="-")


def _allowances(changes: FileChanges) -> Iterator[str]:
    for one in changes.allowances:
        yield f"{one.zone}: {one.now * 100:.1f} %, was {one.was * 100:.1f} %"


def _marks(told: FileAmended, shown: Shown) -> Iterator[tuple[str, str]]:
    for one in told.marks:
        if one.was is not None and write_figure(one.was, shown) == write_figure(one.now, shown):
            continue
        words = say("{}", one.now) if one.was is None else say("{}, was {}", one.now, one.was)
        yield label(one.zone, MARK), write(words, shown)


def _asked(told: FileAmended, shown: Shown) -> Iterator[Line]:
    for one in told.asked:
        yield Line(write(one, shown), mark="-")


def _size(one: SizeChanged, shown: Shown) -> tuple[str, str]:
    now = write(say("{}, was {}", one.now, one.was), shown)
    return label(one.zone, one.dimension), now if one.works else f"{now}; no step ahead works it"


def _stands(before: Stands, after: Stands, shown: Shown) -> Iterator[Line]:
    for one, when in ((before, "Now"), (after, "Then")):
        chance = chance_beside(one.verdict, one.chance)
        told = ", ".join(filter(None, (one.verdict, chance, f"{counted(one.heats, 'heat')} in all")))
        tone = Tone.STRONG if one is after else Tone.PLAIN
        yield Line(f"{told}: {reason_text(one.reason, shown)}", when, tone)


def _spares(before: Stands, after: Stands, shown: Shown) -> Iterator[tuple[str, str, str]]:
    was = {(one.zone, one.dimension): spare_text(one.spare, shown) for one in before.spares}
    now = {(one.zone, one.dimension): spare_text(one.spare, shown) for one in after.spares}
    for size in dict.fromkeys((*was, *now)):
        if was.get(size) != now.get(size):
            yield label(*size), was.get(size, ""), now.get(size, "")


def change_section(told: FileAmended, shown: Shown) -> Section:
    """The same under one heading and in lines alone, for a screen that shows one thing."""
    changes = told.changes
    marks = [Line(": ".join(one), "To mark") for one in _marks(told, shown)]
    sizes = [Line(": ".join(_size(one, shown)), "Drawing") for one in changes.sizes]
    spares = [
        Line(f"{size} {then or 'asked no more'}, was {now or 'not asked'}", "Spare")
        for size, now, then in _spares(told.before, told.after, shown)
    ]
    late = [Line(write(say("{}. {}", one.number, one.title), shown), "Too late") for one in changes.too_late]
    stands = _stands(told.before, told.after, shown)
    rack = [Line(sentence(one.words, shown), "Rack") for one in told.rack]
    asked = [Line(write(one, shown), "Is that meant?") for one in told.asked]
    what = Line(sentence(told.title, shown))
    return section(
        "With that",
        [
            # How it stands with that, before what a small terminal has no room for.
            *(what, *stands, *asked, *late),
            *_pieces(changes.pieces),
            *(Line(one, "Marked out") for one in _allowances(changes)),
            *_steps(changes.ahead, shown),
            *(*marks, *sizes, *rack, *spares),
        ],
    )
