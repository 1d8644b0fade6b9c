"""The bench's other pages, which Tab turns to: the step in full, metal, steps, finished sizes, learned."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from textual.content import Content

from coach.bench.standing import Standing
from coach.bench.tells_most import DoubtOfJob
from coach.ledger.remedies import Soundness, WayBack
from coach.ledger.verdict import PlanState, SizeState
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.quantities.words import counted
from coach.screens.bench_cautions import cautions_now
from coach.screens.page_content import page_content
from coach.screens.widgets.pane import Lines, rule
from coach.screens.wording import GAP, Ink, in_columns, in_signs, marked, one_line, said, wrapped
from coach.telling.chance import chance_text
from coach.telling.doubt import doubt_page
from coach.telling.figures import write_figure, write_wanted
from coach.telling.in_the_end import in_the_end_lines
from coach.telling.learned import learned_words, why
from coach.telling.page import Tone, page, section
from coach.telling.righting import newest_notes
from coach.telling.sizes import expected_text, spare_text, spare_tone
from coach.telling.skin import skin_words
from coach.telling.standing import done_text
from coach.telling.step import step_lines
from coach.telling.ways_back import first_of_all, no_way_back
from coach.telling.why import chance_beside, reason_text
from coach.telling.will_pass import as_made_text, will_pass_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

#: In the order that Tab goes through them; the work comes first, the picture has a widget of its own.
PAGES = ("Work", "Step", "Metal", "Measure", "Picture", "Steps", "Finished", "Learned")
_SIGNS = {Tone.BAD: ("✗ ", Ink.BAD), Tone.CARE: ("~ ", Ink.CARE)}
#: The keys of the bench that help where no way back is known.
BY_KEYS = {"back": "F5", "listed": "+ and Enter"}
#: How a reading that may be a slip is struck out.
STRUCK_BY_KEYS = {"newest": "F8 strikes it out", "other": "F9 lists it, and there Enter strikes it out"}
_BAR, _LEAST_BAR = 16, 3


def needs_a_way_back(standing: Standing) -> bool:
    """Whether the verdict is not good, or a size just read is beyond what the hammer can mend."""
    return standing.verdict is not PlanState.ON_PLAN or any(check.is_beyond for check in standing.checks)


def verdict_words(standing: Standing, shown: Shown) -> Content:
    """On plan, tight or off plan, the chance, and why."""
    verdict = marked(standing.verdict, capital=True)
    chance = chance_beside(standing.verdict, standing.chance)
    told = [one_line(chance, Ink.STRONG)] if chance else []
    return Content("  ").join([verdict, *told, one_line(reason_text(standing.reason, shown))])


def other_pages(now: str) -> str:
    """What Tab turns to from a page, for its heading."""
    at = PAGES.index(now) if now in PAGES else 0
    return f"Tab: {' · '.join([*PAGES[at + 1 :], *PAGES[:at]][:5])}"


def page_lines(name: str, standing: Standing, shown: Shown) -> Lines:
    """What words a page by its name."""
    told = {
        "Step": _step_lines,
        "Metal": metal_lines,
        "Steps": steps_lines,
        "Finished": finished_lines,
        "Learned": _learned_lines,
    }[name]
    return partial(told, standing, shown)


def ways_lines(
    standing: Standing,
    shown: Shown,
    ways: Sequence[WayBack] | None,
    width: int,
    rows: int,
    *,
    warned: bool = False,
) -> list[Content]:
    """Why the job is off its plan and the ways back, each with its chance and its price.

    The cautions of the step come first, unless they stand beside it already: then `warned`.
    """
    lines = [
        rule("Off plan" if standing.verdict is PlanState.OFF_PLAN else "Way back", width, "Esc: what to do")
    ]
    cautions = "" if warned else " · ".join(cautions_now(standing, None))
    if cautions:
        lines += _labelled("Caution", cautions, Ink.BAD, width)
    lines += _labelled("", reason_text(standing.reason, shown), "", width)
    if before := first_of_all(standing, shown, **STRUCK_BY_KEYS):
        lines += _labelled("", before, Ink.CARE, width)
    if ways is None:
        return [*lines, one_line("Looking for ways back.", Ink.QUIET, indent=1)]
    if not ways:
        return [*lines, *_labelled("", no_way_back(standing, **BY_KEYS), Ink.QUIET, width)]
    # Where none helps, one says so as well as six.
    told_of = ways if any(chance_text(one.chance) != _HARDLY for one in ways) else ways[:1]
    hidden, ways = len(ways) - len(told_of), told_of
    prices = [_price(way, shown) for way in ways]
    chances = [f"{marked(way.verdict.value).plain[0]} {in_signs(chance_text(way.chance))}" for way in ways]
    wide = [max(map(len, [head, *cells])) for head, cells in (("price", prices), ("chance", chances))]
    titles = [write(way.title, shown) for way in ways]
    longest, room = max(map(len, titles)), width - sum(wide) - 9
    if room < min(longest, _LEAST_TITLE):  # the price goes before a title is broken into bits
        prices, wide[0] = [""] * len(ways), 0
        room = width - sum(wide) - 9
    room = min(room, longest)
    head = f" *  {'way back':<{room}}  {'price' if wide[0] else '':<{wide[0]}}  chance"
    if len(lines) + len(ways) < rows:  # else the ways themselves are worth more
        lines.append(said(head, Ink.LABEL))
    for at, (title, price, chance) in enumerate(zip(titles, prices, chances, strict=True), 1):
        first, *rest = wrapped(one_line(title), max(room, 1)) or [Content("")]
        told = Content.assemble(said(f"*{at}  "), first.pad_right(room - first.cell_length))
        lines.append(Content.assemble(told, said(f"  {price:<{wide[0]}}  {chance}")))
        lines += [Content.assemble("    ", part) for part in rest]
    if hidden:
        lines.append(one_line(f"{hidden} more, none better: * lists them.", Ink.QUIET, indent=4))
    return lines


#: The chance of a way that hardly helps.
_HARDLY = "under 1 %"
#: The least room for what a way back does.
_LEAST_TITLE = 24


def _price(way: WayBack, shown: Shown) -> str:
    """What a way back costs in heats, or else in size, and where it is not wholly sound."""
    costs = counted(way.heats, "heat") if way.heats else write(way.gives, shown) or "no heat"
    care = "" if way.soundness is Soundness.SOUND else way.soundness.value
    return ", ".join(filter(None, (costs, care)))


def metal_lines(standing: Standing, shown: Shown, width: int, rows: int) -> list[Content]:
    """The metal to spare, a bar for each size that it may show in, and what decides the chance."""
    tightest = sorted(standing.spares, key=lambda spare: spare.chance)
    texts = [f"{_SIGNS.get(spare_tone(one), ('',))[0]}{spare_text(one.spare, shown)}" for one in tightest]
    told_in = max(map(len, texts), default=0) + max((len(one.label) for one in tightest), default=0)
    room = width - 1 - told_in - 2 * GAP
    bar = min(room, _BAR) if room >= _LEAST_BAR else 0
    table = [_spare_row(spare, tightest, shown, bar) for spare in tightest]
    lines = in_columns(table, max(width - 1, 1), gives=0, leaves=(1,)) if table else []
    lines = [Content.assemble(" ", line) for line in lines]
    told: list[tuple[str, str, str]] = []
    if standing.trouble:
        told.append(("Trouble", write(standing.trouble, shown), Ink.BAD))
    reason = reason_text(standing.reason, shown)
    held_back = not chance_beside(standing.verdict, standing.chance)
    ahead = standing.step is not None and standing.will_pass is not None
    by = " by the metal alone" if held_back else " by what is done" if ahead else ""
    # One that is off plan for a size as it was read is so whatever the metal makes of it.
    chance = "" if held_back and standing.verdict is PlanState.OFF_PLAN else chance_text(standing.chance)
    told.append(("So far", f"{chance}{by}: {reason}" if chance else reason, ""))
    if ahead:
        will = will_pass_text(standing.will_pass, shown, tells_apart=False)
        told.append(("Ahead", f"Will pass: {will}.", ""))
    elif made := as_made_text(standing.will_pass, standing.unread):
        told.append(("As made", sentence(made), ""))
    for skin in standing.skins:
        told.append(("Skin", write(skin_words(skin), shown), Ink.CARE if skin.enough is False else ""))
    for label, words, ink in told:
        lines += _labelled(label, words, ink, width)
    return lines


def _spare_row(spare: Spare, others: Sequence[Spare], shown: Shown, bar_cells: int) -> list[Content]:
    most = max(max((abs(one.spare.value) for one in others), default=0.0), 1e-9)
    long = round(bar_cells * min(abs(spare.spare.value) / most, 1.0))
    sign, style = _SIGNS.get(spare_tone(spare), ("", Ink.GOOD))
    bar = Content.assemble(("▄" * long, style), ("▁" * (bar_cells - long), Ink.QUIET))
    return [
        one_line(spare.label),
        bar,
        one_line(f"{sign}{spare_text(spare.spare, shown)}", style if sign else ""),
    ]


def steps_lines(standing: Standing, shown: Shown, width: int, rows: int) -> list[Content]:
    """The step in hand among those behind it, the latest first, and those that come."""
    lines = []
    if standing.step is not None:
        lines.append(one_line(f"▸ {standing.step.number} {standing.step.title}", Ink.STRONG, indent=1))
    first = standing.steps - len(standing.coming) + 1
    lines += [one_line(f"{number} {title}", indent=3) for number, title in enumerate(standing.coming, first)]
    done = (f"✓ {done_text(one, width - 3)}" for one in reversed(standing.done))
    lines += [one_line(text, Ink.QUIET, indent=1) for text in done]
    earlier, newest = newest_notes(standing.notes)
    for note in reversed(newest):
        lines += _labelled("Note", note.text, "", width)
    return [*lines, one_line(earlier, Ink.QUIET, indent=1)] if earlier else lines


def finished_lines(standing: Standing, shown: Shown, width: int, rows: int) -> list[Content]:
    """The sizes of the drawing, what is wanted of each and what will come."""
    if not standing.sizes:
        return [one_line("The drawing asks for no size.", Ink.QUIET, indent=1)]
    head = [one_line(word, Ink.LABEL) for word in (" ", "wanted", "will come")]
    table = [head, *(_finished_row(size, shown) for size in standing.sizes)]
    return [Content.assemble(" ", line) for line in in_columns(table, max(width - 1, 1), leaves=(1,))]


def _finished_row(size: FinishedSize, shown: Shown) -> list[Content]:
    expected = write_figure(size.expected, shown) if size.measured else expected_text(size, shown)
    told = one_line(expected, Ink.STRONG)
    if size.told != SizeState.GOOD.value:
        told = Content.assemble(told, " ", marked(size.told))
    return [one_line(size.label), one_line(write_wanted(size.wanted, shown)), told]


def _learned_lines(standing: Standing, shown: Shown, width: int, rows: int) -> list[Content]:
    lines: list[Content] = []
    for one in standing.learned:
        lines += _labelled("", f"{write(learned_words(one), shown)}: {write(why(one), shown)}", "", width)
    return lines or [one_line("Nothing yet: readings teach it.", Ink.QUIET, indent=1)]


def measure_lines(doubt: DoubtOfJob | None, shown: Shown, width: int, rows: int) -> list[Content]:
    """What decides, what its doubt comes from, and what to measure first; None while that is reckoned."""
    if doubt is None:
        return [one_line("Trying one reading after another.", Ink.QUIET, indent=1)]
    told = page_content(doubt_page(doubt, shown), max(width - 1, 1))
    return [Content.assemble(" ", line) for line in told.split("\n")]


def _step_lines(standing: Standing, shown: Shown, width: int, rows: int) -> list[Content]:
    if standing.step is None:
        return [one_line("Every step is done.", indent=1)]
    drawing, asked = in_the_end_lines(standing, shown), {check.label for check in standing.checks}
    told = page(
        section("", [*step_lines(standing.step, shown, by_hand=standing.by_hand, asked=asked), *drawing])
    )
    return [Content.assemble(" ", line) for line in page_content(told, max(width - 1, 1)).split("\n")]


def _labelled(label: str, words: str, ink: str, width: int) -> list[Content]:
    margin = 10 if label else 1
    parts = wrapped(said(words, ink if label != "Caution" else ""), max(width - margin - 1, 8))
    before = said(f" {label:<{margin - 1}}", ink if label == "Caution" else Ink.LABEL)
    return [Content.assemble(" " * margin if at else before, part) for at, part in enumerate(parts)]
