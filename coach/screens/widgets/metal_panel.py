"""Whether the metal that is left is enough: chance, reason, spare, and the finished sizes now expected."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from textual.content import Content

from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState, SizeState
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.quantities.words import counted
from coach.screens.widgets.panel import Panel
from coach.screens.wording import (
    Ink,
    first_that_fits,
    in_columns,
    joined,
    marked,
    one_line,
    titled,
    with_signs,
)
from coach.telling.figures import write_figure, write_wanted
from coach.telling.learned import learned_words, why
from coach.telling.page import Tone
from coach.telling.sizes import spare_text, spare_tone
from coach.telling.skin import skin_words
from coach.telling.why import chance_text, reason_text
from coach.telling.words import write
from coach.telling.writing import Shown


class MetalPanel(Panel):
    """The state of the whole piece; its reasons are told here."""

    def tell(self, standing: Standing, shown: Shown, ways: Sequence[str] | None, *, in_lines: bool) -> None:
        """Show where the metal stands, in running text or with a line for each size.

        Of the titles of the ways back, the best first, it tells their number and the first. Ways that are
        None are being reckoned: their line is kept free, so that nothing moves when they come.
        """
        width = max(self.room, 20)
        lines = [verdict_words(standing, shown)]
        if standing.trouble:
            lines.append(one_line(write(standing.trouble, shown), Ink.BAD))
        if ways is None:
            lines.append(one_line("* Looking for ways back", Ink.QUIET))
        elif ways:
            count = one_line(f"* {counted(len(ways), 'way')} back:", Ink.CARE)
            told = Content.assemble(count, " ", one_line(ways[0], Ink.STRONG))
            lines.append(told.truncate(width, ellipsis=True))
        for skin in standing.skins:
            sign, style = ("! ", Ink.CARE) if skin.enough is False else ("", Ink.STRONG)
            lines.append(titled("Skin", one_line(f"{sign}{write(skin_words(skin), shown)}", style)))
        lines += _in_lines(standing, shown, width) if in_lines else _running(standing, shown)
        self.show(joined(lines))


def needs_a_way_back(standing: Standing) -> bool:
    """Whether the verdict is not good, or a size just read is beyond what the hammer can mend."""
    return standing.verdict is not PlanState.ON_PLAN or any(check.is_beyond for check in standing.checks)


def verdict_words(standing: Standing, shown: Shown) -> Content:
    """On plan, tight or off plan, the chance, and why."""
    verdict = marked(standing.verdict, capital=True)
    chance = one_line(chance_text(standing.chance), Ink.STRONG)
    return joined([verdict, chance, one_line(reason_text(standing.reason, shown))], "  ")


def _running(standing: Standing, shown: Shown) -> Iterator[Content]:
    """What there is to spare, what was learned and what is expected, in running text."""
    if standing.spares:
        # The tightest comes first, where little room shows it without scrolling.
        tightest = sorted(standing.spares, key=lambda spare: spare.chance)
        told = [Content.assemble(one_line(s.label), " ", _spare(s, shown)) for s in tightest]
        yield titled("Spare", joined(told, " · "))
    if standing.sizes:
        ordered = sorted(standing.sizes, key=lambda size: (size.state is SizeState.GOOD, not size.take_up))
        told = [Content.assemble(one_line(s.label), " ", _expected(s, shown)) for s in ordered]
        yield titled("Finished", joined(told, " · "))
    if standing.learned:
        yield titled("Learned", " · ".join(write(learned_words(one), shown) for one in standing.learned))


def _in_lines(standing: Standing, shown: Shown, width: int) -> Iterator[Content]:
    """The same with a line for each, and the reasons of what was learned."""
    if standing.spares:
        ways = [
            [[one_line(spare.label), _spare(spare, shown, brief=brief)] for spare in standing.spares]
            for brief in (False, True)
        ]
        yield from (_BLANK, one_line("Spare", Ink.LABEL), *in_columns(first_that_fits(ways, width), width))
    if standing.learned:
        yield from (_BLANK, one_line("Learned", Ink.LABEL))
        for one in standing.learned:
            told, reason = write(learned_words(one), shown), write(why(one), shown)
            yield Content.assemble(one_line(f"{told}:"), " ", one_line(reason, Ink.QUIET))
    if standing.sizes:
        head = [one_line(word, Ink.LABEL) for word in ("Finished", "Wanted", "Expected")]
        sizes = [
            [one_line(size.label), one_line(write_wanted(size.wanted, shown)), _expected(size, shown)]
            for size in standing.sizes
        ]
        yield from (_BLANK, *in_columns([head, *sizes], width, leaves=(1,)))


_BLANK = Content("")
_SIGNS = {Tone.BAD: ("✗ ", Ink.BAD), Tone.CARE: ("! ", Ink.CARE)}


def _spare(spare: Spare, shown: Shown, *, brief: bool = False) -> Content:
    text = spare_text(spare.spare, shown)
    sign, style = _SIGNS.get(spare_tone(spare.spare), ("", Ink.STRONG))
    return one_line(f"{sign}{with_signs(text) if brief else text}", style)


def _expected(size: FinishedSize, shown: Shown) -> Content:
    text = one_line(write_figure(size.expected, shown, "±"), Ink.STRONG)
    return text if size.state is SizeState.GOOD else Content.assemble(text, " ", marked(size.state))
