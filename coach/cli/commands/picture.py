"""`coach picture`: a piece to scale, in the terminal or as a drawing for paper."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB
from coach.cli.masks import mode_for_others
from coach.cli.opening import shop_and_job
from coach.cli.page import WIDTH, paragraph
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.writing_out import A_FILE, FORCE, write_out
from coach.quantities.takes import Take
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.drawing.views import View

SUMMARY = "Draw a piece of a job to scale: as it is, its stock, or the finished tool; with --svg for paper."
TAKES = (
    JOB,
    Take("--of", "now, stock or finished; now unless said", "WHAT", usual="now"),
    Take("--piece", "which piece; that of the step in hand unless said", "PIECE"),
    Take("--svg", "write it there as SVG, one to one in millimetres", "FILE", A_FILE),
    FORCE,
)

_ROWS = 24
_KINDS = ("now", "stock", "finished")


class Drawn(NamedTuple):
    """A piece drawn in lines of text."""

    job: str  # its name
    piece: str  # which piece
    lines: tuple[str, ...]
    not_read: str  # which of its zones are drawn as the step began or is to leave them; "" where none is


class WrittenPicture(NamedTuple):
    """A drawing written to a file."""

    job: str  # its name
    file: str  # where it is written


def run(asked: Asked) -> Reply[Drawn | WrittenPicture]:
    """Draw it."""
    if asked.of not in _KINDS:
        raise Refused(f"There is no picture of {asked.of[:20]!r}: choose now, stock or finished.")
    with shop_and_job(asked) as (shop, session):
        piece = asked.piece or session.piece_in_hand()
        if piece not in session.recipe.pieces:
            raise Refused(
                f"There is no piece {piece[:30]!r}; the pieces are {', '.join(session.recipe.pieces)}."
            )
        now, wanted = _views(session, piece, asked.of)
        not_read = _not_read(session, piece) if asked.of == "now" else ""
        title = ". ".join(filter(None, (f"{session.recipe.title}: {piece}, {asked.of}", not_read)))
        if not now and not wanted:
            raise Refused(f"The {piece} cannot be drawn as the job stands: its sizes do not go together.")
        if asked.svg:
            from coach.drawing.svg import svg

            text = svg(now or wanted, title, Shown(session.system))
            mode, log = mode_for_others(), shop.log.path
            path = write_out(asked.svg, text, force=asked.force, log=log, mode=mode)
            return reply(paragraph(f"Written to {path}."), WrittenPicture(session.job, str(path)))
        from coach.drawing.braille import stacked
        from coach.drawing.cells import as_text

        lines = stacked(now, wanted, WIDTH, _ROWS, shown=Shown(session.system))
        drawn = as_text(lines).splitlines()
        return reply([*paragraph(title), *drawn], Drawn(session.job, piece, tuple(drawn), not_read))


def _not_read(session: Session, piece: str) -> str:
    from coach.telling.pictured import pictured_text

    told = pictured_text(session.pictured(), session.recipe.pieces[piece].zones)
    return f"{told[:1].upper()}{told[1:]}"


def _views(session: Session, piece: str, kind: str) -> tuple[tuple[View, ...], tuple[View, ...]]:
    from coach.drawing.job import finished_views, stock_views, views_now

    if kind == "stock":
        return stock_views(session.plan, piece), ()
    if kind == "finished":
        return finished_views(session.plan, piece), ()
    return (
        views_now(session.plan, piece, session.pictured().forms),
        views_now(session.plan, piece, session.forms_wanted()),
    )
