"""The record of a job as a page to keep and to show: the drawing against the tool, with its pictures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from coach.bench.forms_by_step import FormsAfter
from coach.bench.looking_back import SpareGone
from coach.bench.sheet import Sheet
from coach.drawing.bar_on_paper import WIDTH_MM
from coach.drawing.job import host_pieces, views_now
from coach.drawing.outlines import outlines_svg
from coach.drawing.paper import MARGIN_MM, scale_for
from coach.drawing.spare_on_paper import SpareAt, SpareOf, spare_svg
from coach.drawing.svg import svg
from coach.forms import Form
from coach.ledger.plan import Plan
from coach.quantities import COVERAGE
from coach.sheets.html import document, inline_svg, section_html, text
from coach.sheets.photographs import figures_html
from coach.sheets.stages import stages_of
from coach.telling.page import Line, Page, Section
from coach.telling.photographs import PHOTOGRAPHS
from coach.telling.sheet import picture_title
from coach.telling.writing import Shown


def record_html(
    sheet: Sheet,
    told: Page,
    plan: Plan,
    came: Mapping[str, Form],
    stages: Iterable[FormsAfter],
    gone: SpareGone,
    shown: Shown,
) -> str:
    """The whole record as one page of HTML.

    Args:
        sheet: the drawing against the tool, what it took and what it taught.
        told: the same as it is told.
        plan: the plan as the job follows it.
        came: the solid of each zone as it came.
        stages: the solids that each step left.
        gone: how the spare went.
        shown: the units to tell it in.
    """
    stages = tuple(stages)
    parts = [f"<h1>{text(sheet.title)}</h1>\n"]
    for part in told.sections:
        parts.append(_photographs(sheet, part) if part.heading == PHOTOGRAPHS else section_html(part))
    for piece in host_pieces(plan):
        parts += _as_it_came(sheet, plan, piece, came, shown)
        parts += _step_by_step(plan, piece, stages, shown)
    if len({point.entry for point in gone.points}) > 1:
        drawn = inline_svg(spare_svg(spares(gone), shown))
        parts.append(f"<section>\n<h2>The spare over the heats</h2>\n{drawn}</section>\n")
    return document(f"{sheet.title}: {sheet.job}", "".join(parts), classes="record")


def _photographs(sheet: Sheet, part: Section) -> str:
    """The pictures, each with what is told of it beneath; of one that cannot be shown that stands alone."""
    pictures = figures_html(sheet.photographs)
    beneath = "<figcaption>{}</figcaption>"
    alone = (
        one for one in part.body if isinstance(one, Line) and beneath.format(text(one.words)) not in pictures
    )
    return section_html(part._replace(body=tuple(alone)), then=pictures)


def _as_it_came(
    sheet: Sheet, plan: Plan, piece: str, came: Mapping[str, Form], shown: Shown
) -> Iterator[str]:
    views = views_now(plan, piece, came)
    if views:
        scale = scale_for(max(view.length_mm for view in views), WIDTH_MM - 2 * MARGIN_MM)
        title = picture_title(sheet, plan.recipe, piece)
        yield f"<section>\n{inline_svg(svg(views, title, shown, scale))}</section>\n"


def _step_by_step(plan: Plan, piece: str, stages: Iterable[FormsAfter], shown: Shown) -> Iterator[str]:
    drawn = stages_of(plan, piece, stages)
    if len(drawn) > 1:
        told = inline_svg(outlines_svg(f"The {piece} step by step", drawn, shown))
        yield f"<section>\n<h2>Step by step</h2>\n{told}</section>\n"


def spares(gone: SpareGone) -> list[SpareOf]:
    """The spare of each size over the heats, its band as wide as its doubt is told."""
    found: dict[str, list[SpareAt]] = {}
    for point in gone.points:
        value, doubt = point.spare.value, COVERAGE * (point.spare.doubt or 0.0)
        found.setdefault(point.label, []).append(SpareAt(point.heats, value, value - doubt, value + doubt))
    return [SpareOf(label, tuple(points)) for label, points in found.items()]
