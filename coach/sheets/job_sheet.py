"""The job sheet for the wall of the forge: stock, marks, steps, and blank boxes for what is read."""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.forms_by_step import forms_planned
from coach.bench.paper import JobSheet, SizeToRead, StepOnPaper
from coach.drawing.bar_on_paper import WIDTH_MM, bar_svg
from coach.drawing.job import finished_views, host_pieces
from coach.drawing.outlines import outlines_svg
from coach.drawing.paper import MARGIN_MM, scale_for
from coach.drawing.svg import svg
from coach.ledger.plan import Plan, PlannedPiece
from coach.operations.gauges import by_gauge
from coach.quantities.figure import Kind
from coach.quantities.words import counted
from coach.sheets.html import body_html, document, inline_svg, section_html, text
from coach.sheets.stages import stages_of
from coach.telling.care import care_sections
from coach.telling.figures import NOT_KNOWN, write_figure, write_span, write_wanted
from coach.telling.page import Line, Section, Tone, section, table
from coach.telling.plan import bar_text, end_words, facts, right_first, stock_page
from coach.telling.sizes import expected_text
from coach.telling.step import step_lines
from coach.telling.writing import Shown

#: Boxes for one size, so that it can be read again after each heat; for a test one to tick (our choice).
_BOXES = 3
#: Heats beyond those planned that there are squares for (our choice).
_MORE_HEATS = 2
_BLANK_LINES = 8


def job_sheet_html(sheet: JobSheet, plan: Plan, shown: Shown) -> str:
    """The whole sheet as one page of HTML."""
    told = sheet.plan
    parts = [f"<h1>{text(told.title)}</h1>\n", _head(sheet), body_html(facts(told, shown))]
    parts.append(section_html(right_first(told, shown)) if right_first(told, shown).body else "")
    parts += [section_html(part, "care-list") for part in care_sections(sheet.care)]
    if sheet.at_the_bar:
        parts += _stock(sheet, shown)
    parts += _finished(sheet, plan, shown)
    parts += _steps(sheet, shown)
    parts.append(_end(sheet))
    return document(f"{told.title}: job sheet", "".join(parts), classes="job-sheet")


def _head(sheet: JobSheet) -> str:
    begun = f"Job <b>{text(sheet.job)}</b>" if sheet.job else 'Job <span class="written"></span>'
    return (
        f'<p class="head">{begun}Smith <span class="written"></span>Day <span class="written"></span>'
        'Begun at <span class="hour"></span></p>\n'
        '<p class="small">A size in bold is what is wanted. Write what you read into the boxes, one after '
        "each heat, and a cross into a square for each heat taken; a dotted square is for a heat beyond the "
        "plan. In the evening the hours are typed as “begun at 9:00” and “done at 9:40”.</p>\n"
    )


def _stock(sheet: JobSheet, shown: Shown) -> Iterator[str]:
    drawn = {f"Stock for the {one.piece}": one for one in sheet.plan.pieces}
    for part in stock_page(sheet.plan, shown).sections:
        piece = drawn.get(part.heading)
        yield _stock_of(piece, part, shown) if piece is not None else section_html(part)


def _stock_of(piece: PlannedPiece, part: Section, shown: Shown) -> str:
    """A bar with its marks to scale; the boxes for them are at the step that marks it."""
    told = bar_text(piece, shown)
    lines = [one for one in part.body if isinstance(one, Line) and not one.as_it_stands]
    before = [one for one in lines if one.words != told and not one.words.endswith(":")]
    marks = [(mark.at, f"mark: {end_words(mark)}") for mark in piece.marks]
    marks += [(one.at, f"punch: middle of the {one.zone}, for its hole") for one in piece.centres]
    zones = ", ".join(f"{zone.zone} {write_figure(zone.length, shown)}" for zone in piece.zones)
    made = Line(f"Made of so much bar: {zones}." if len(piece.zones) > 1 else "")
    rows = "".join(
        f'<tr><td class="wanted">{text(write_figure(at, shown))}</td><td>{text(what)}</td></tr>\n'
        for at, what in sorted(marks, key=lambda one: one[0].value)
    )
    return (
        f'<section class="stock">\n<h2>{text(part.heading)}</h2>\n'
        f"{body_html([Line(told, tone=Tone.STRONG), *before, made])}"
        f"{inline_svg(bar_svg(piece, shown))}"
        f'<table class="readings"><tbody>\n{rows}</tbody></table>\n</section>\n'
    )


_BOX = '<span class="box"></span>'


def _finished(sheet: JobSheet, plan: Plan, shown: Shown) -> Iterator[str]:
    """What is left in the end, drawn to scale, with a box for each size as it came."""
    for piece in host_pieces(plan):
        views = finished_views(plan, piece)
        if views:
            room = WIDTH_MM - 2 * MARGIN_MM
            scale = scale_for(max(view.length_mm for view in views), room)
            drawn = svg(views, f"The finished {piece}", shown, scale)
            yield f"<section>\n{inline_svg(drawn)}</section>\n"
        stages = stages_of(plan, piece, forms_planned(plan))
        if len(stages) > 1:
            told = inline_svg(outlines_svg(f"The {piece} step by step", stages, shown))
            yield f"<section>\n{told}</section>\n"
    rows = "".join(
        f'<tr><td>{text(size.label)}</td><td class="strong">{text(write_wanted(size.wanted, shown))}</td>'
        f"<td>{text(expected_text(size, shown))}</td><td>{_BOX}</td></tr>\n"
        for size in sheet.plan.sizes
    )
    yield (
        '<section class="small-boxes">\n<h2>Finished sizes</h2>\n<table><thead><tr>'
        "<th>size</th><th>wanted</th><th>expected</th><th>came</th></tr></thead>\n"
        f"<tbody>\n{rows}</tbody></table>\n</section>\n"
    )


def _steps(sheet: JobSheet, shown: Shown) -> Iterator[str]:
    if sheet.done:
        rows = [(str(one.number), one.title, counted(one.heats, "heat")) for one in sheet.done]
        yield section_html(section("Done", [table(rows, ("", "step", "took"))]))
    yield '<section class="steps">\n<h2>Steps</h2>\n'
    for one in sheet.steps:
        yield _step(one, shown)
    yield "</section>\n"


def _step(one: StepOnPaper, shown: Shown) -> str:
    step, told = one.planned.step, [size.label.strip() for size in one.to_read]
    fire = one.planned.at_the_fire
    time = f", {write_span(fire, shown)}" if fire is not None and write_span(fire, shown) != NOT_KNOWN else ""
    squares = "".join(
        f'<span class="tick{" taken" if at < one.heats else ""}"></span>' for at in range(step.heats_planned)
    )
    more = '<span class="tick more"></span>' * _MORE_HEATS
    heats = f"<p>Heats {squares}{more}{text(time.removeprefix(', '))}</p>\n" if step.heats_planned else ""
    cautions = f'<p class="caution">Caution: {text(" ".join(step.cautions))}</p>\n' if step.cautions else ""
    lines = body_html(
        line._replace(tone=Tone.PLAIN) for line in step_lines(step, shown, told) if line.label != "Caution"
    )
    rest = "" if step.may_rest else "<p><b>Rest</b> not after this step</p>\n"
    sizes = "".join(_size(size, shown) for size in one.to_read)
    readings = f'<table class="readings"><tbody>\n{sizes}</tbody></table>\n' if sizes else ""
    return (
        f'<div class="step">\n<h3>{step.number}. {text(step.title)}'
        ' <span class="done-at">Done at <span class="hour"></span></span></h3>\n'
        f"{heats}{cautions}{lines}{readings}{rest}</div>\n"
    )


def _size(size: SizeToRead, shown: Shown) -> str:
    name = f'<br/><span class="small">{text(size.name)}'
    name += f", {text(by_gauge(size.gauge))}</span>" if size.gauge else "</span>"
    if size.kind is Kind.TEST:
        answers = "".join(f'<span class="tick"></span>{one} ' for one in ("pass", "doubt", "fail"))
        return (
            f'<tr><td class="what">{text(size.label)}{name}</td><td>{text(size.how)}</td>'
            f'<td class="boxes">{answers}</td></tr>\n'
        )
    wanted = write_wanted(size.wanted, shown) if size.wanted is not None else ""
    read = (
        f'<span class="small">read {text(write_figure(size.read, shown, "="))}</span> ' if size.read else ""
    )
    return (
        f'<tr><td class="what">{text(size.label)}{name}</td><td class="wanted">{text(wanted)}</td>'
        f'<td class="boxes">{read}{_BOX * _BOXES}</td></tr>\n'
    )


def _end(sheet: JobSheet) -> str:
    job = sheet.job or "JOB"
    lines = '<div class="fill"></div>\n' * _BLANK_LINES
    return (
        f"<section>\n<h2>Notes, and what to put right</h2>\n{lines}"
        f'<p class="small">Afterwards each box is typed as `coach read {text(job)} NAME=SIZE`, with the name '
        "in small print and `--step` and its number where the step is behind you; a heat as "
        f"`coach heat {text(job)}`, a step that is finished as `coach done {text(job)}`.</p>\n"
        '<p class="check">50 mm where this is printed at full size</p>\n</section>\n'
    )
