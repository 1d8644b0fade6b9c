"""`coach sheet`: the drawing against the tool as it came, what it took and what it taught."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB
from coach.cli.masks import mode_for_others
from coach.cli.opening import shop_and_job
from coach.cli.page import WIDTH, paragraph, set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.writing_out import A_FILE, FORCE, write_out
from coach.quantities.takes import Take
from coach.telling.page import Line, Page, section
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.next_time import NextTime
    from coach.bench.session import Session
    from coach.bench.sheet import Sheet
    from coach.recipe.model import Recipe

#: What a record is written as, by the ending of its file.
_ENDINGS = ("html", "htm", "md", "csv", "json", "pdf")
SUMMARY = "Tell the drawing against the tool as it came, size by size, what it took and what it taught."
OUT = "-"
TAKES = (
    JOB,
    Take(
        "--markdown",
        f"write it there as Markdown, to keep and to show; {OUT} for standard output",
        "FILE",
        A_FILE,
    ),
    Take(
        "--out",
        "write the whole record there, as the name ends: .html or .pdf with its pictures, .md, .csv or .json",
        "FILE",
        A_FILE,
    ),
    FORCE,
)
#: Rows of a picture (our choice).
_ROWS = 16


class DrawnPiece(NamedTuple):
    """A piece as it came, drawn in lines of text."""

    piece: str
    lines: tuple[str, ...]


class WholeSheet(NamedTuple):
    """The sheet of a job with the pictures of its pieces."""

    sheet: Sheet
    pictures: tuple[DrawnPiece, ...]  # of each piece that is not laid on another; none that cannot be drawn
    next_time: NextTime | None  # what it cost most; `null` until every step is done


class WrittenSheet(NamedTuple):
    """A sheet written to a file."""

    job: str  # its name
    file: str  # where it is written


def run(asked: Asked) -> Reply[WholeSheet | WrittenSheet | None]:
    """Tell it, or write it out."""
    if asked.markdown == OUT and asked.json:
        raise Refused(f"`--markdown {OUT}` writes the sheet itself: leave out --json.")
    if asked.markdown is not None and asked.out is not None:
        raise Refused("--markdown and --out both name a file to write: leave one of them out.")
    if asked.out is not None and asked.out.lower().rpartition(".")[2] not in _ENDINGS:
        raise Refused(
            f"{asked.out[:60]!r} does not say by its ending what to write: end it in .html, .pdf, .md, .csv"
            " or .json."
        )
    with shop_and_job(asked) as (shop, session):
        from coach.telling.sheet import sheet_page

        sheet, pictures = session.sheet(), _pictures(session)
        to_show = asked.out is not None or asked.markdown is not None
        again = shop.next_time(session) if sheet.finished else None
        page = _with_next_time(sheet_page(sheet, Shown(session.system), to_show=to_show), again, session)
        whole = WholeSheet(sheet, pictures, again)
        told = _with_pictures(page, sheet, session.plan.recipe, pictures)
        if asked.out is not None:
            drawn = asked.out.lower().endswith((".html", ".pdf"))  # which draw the piece as lines
            content = _record(asked.out, session, whole, page if drawn else told)
            mode, log = mode_for_others(), shop.log.path
            path = write_out(asked.out, content, force=asked.force, log=log, mode=mode)
            written = WrittenSheet(session.job, str(path))
            return reply(paragraph(f"The record of {session.job} is written to {path}."), written)
        if asked.markdown is None:
            return reply(set_page(told), whole)
        from coach.telling.markdown import page_markdown

        text = page_markdown(sheet.title, told)
        if asked.markdown == OUT:
            return Reply(tuple(text.splitlines()), None)
        mode, log = mode_for_others(), shop.log.path
        path = write_out(asked.markdown, text, force=asked.force, log=log, mode=mode)
    written = WrittenSheet(session.job, str(path))
    return reply(paragraph(f"The sheet of {session.job} is written to {path}."), written)


def _record(named: str, session: Session, whole: WholeSheet, told: Page) -> str | bytes:
    """The record as the ending of its file asks for it."""
    ending, shown = named.lower().rpartition(".")[2], Shown(session.system)
    if ending == "md":
        from coach.telling.markdown import page_markdown

        return page_markdown(whole.sheet.title, told)
    if ending == "csv":
        from coach.sheets.record_csv import record_csv

        return record_csv(whole.sheet, told, shown)
    if ending == "json":
        import json

        from coach.telling.harmless import harmless_json
        from coach.telling.photographs import without_folders
        from coach.telling.values import json_values

        whole = whole._replace(sheet=without_folders(whole.sheet))
        held = json.dumps(json_values(whole, shown), ensure_ascii=False, indent=2, allow_nan=False)
        return f"{harmless_json(held)}\n"
    from coach.sheets.record import record_html

    stages, gone = session.forms_by_step(), session.spare_gone()
    html = record_html(whole.sheet, told, session.plan, session.forms_came(), stages, gone, shown)
    if ending != "pdf":
        return html
    from coach.sheets.pdf import USUAL_PAPER, pdf

    return pdf(html, USUAL_PAPER[session.system])


def _pictures(session: Session) -> tuple[DrawnPiece, ...]:
    from coach.drawing.braille import stacked
    from coach.drawing.job import host_pieces, views_now

    forms, shown = session.forms_came(), Shown(session.system)
    drawn = (
        (piece, stacked(views_now(session.plan, piece, forms), (), WIDTH, _ROWS, shown=shown))
        for piece in host_pieces(session.plan)
    )
    return tuple(
        DrawnPiece(piece, tuple("".join(span.text for span in line).rstrip() for line in lines))
        for piece, lines in drawn
        if lines
    )


def _with_next_time(told: Page, found: NextTime | None, session: Session) -> Page:
    """Once every step is done, what to do better next time as well."""
    if found is None:
        return told
    from coach.telling.next_time import next_time_section

    return Page((*told.sections, next_time_section(found, Shown(session.system))))


def _with_pictures(told: Page, sheet: Sheet, recipe: Recipe, pictures: tuple[DrawnPiece, ...]) -> Page:
    from coach.telling.sheet import picture_title

    more = (
        section(picture_title(sheet, recipe, one.piece), [Line("\n".join(one.lines), as_it_stands=True)])
        for one in pictures
    )
    return Page((*told.sections, *more))
