"""The sizes that a step asks for: wanted, expected, read, and what the coach says of each."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Region, Size
from textual.widget import Widget

from coach.bench.checks import Check
from coach.screens.wording import Ink, first_that_fits, in_columns, joined, marked, one_line, with_signs
from coach.telling.figures import write_figure, write_wanted
from coach.telling.reading import cold_size
from coach.telling.writing import Shown

_HEADINGS = ("Size", "Wanted", "Expected", "Read", "Verdict")
#: Left out where there is little room: the expected size, then the wanted one, which the prompt tells too.
_LEAVES = (2, 1)
_SIGN_WIDTH = 2


class CheckRows(Widget):
    """Lines that are worded anew for each width that they are given."""

    def __init__(self) -> None:
        super().__init__()
        self._lines: Callable[[int], list[Content]] = lambda width: [Content("")]

    def show(self, lines: Callable[[int], list[Content]]) -> None:
        """Take what words them."""
        self._lines = lines
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._lines(width))

    def render(self) -> Content:
        """The lines at the width there is."""
        return joined(self._lines(self.content_size.width))


class CheckTable(VerticalScroll, can_focus=False):
    """The rows under a ruled title; the one that is read next is always in view."""

    def __init__(self, *, id: str) -> None:
        self._rows = CheckRows()
        super().__init__(self._rows, id=id)
        self.border_title = "Measurements"

    def show(self, checks: tuple[Check, ...], chosen: int | None, shown: Shown, without: str = "") -> None:
        """Take other checks, which of them is read next, and what to say when there are none."""
        if not checks:
            self._rows.show(lambda width: [one_line(without, Ink.QUIET)])
            return
        self._rows.show(
            lambda width: _signed(check_lines(checks, shown, max(width - _SIGN_WIDTH, 1)), chosen)
        )
        if chosen is not None:
            row = Region(0, chosen + 1, 1, 1)
            self.call_after_refresh(self.scroll_to_region, row, animate=False, force=True)


def _signed(lines: Sequence[Content], chosen: int | None) -> list[Content]:
    """The headings and the rows, with a sign before the one that is read next."""
    return [
        Content.assemble(("▸", "bold $accent"), " ", line.stylize("bold"))
        if chosen is not None and at == chosen + 1
        else Content.assemble("  ", line)
        for at, line in enumerate(lines)
    ]


def check_lines(checks: Sequence[Check], shown: Shown, width: int) -> list[Content]:
    """The headings and the rows; words that say nothing new go before a column does, and a name last."""
    zones = {check.name.partition(".")[0] for check in checks}
    # The head of the bench names the zone of the step already.
    zone = f"{zones.pop()} " if len(zones) == 1 else ""
    full = [check.label for check in checks]
    bare = [check.label.removeprefix(zone) for check in checks]
    ways = [
        _rows(checks, labels, shown, brief=brief)
        for labels, brief in ((full, False), (bare, False), (bare, True))
    ]
    shorter = [[[row[at] for at in range(len(row)) if at != _LEAVES[0]] for row in rows] for rows in ways]
    return in_columns(first_that_fits([*ways, *shorter, ways[-1]], width), width, leaves=_LEAVES)


def _rows(
    checks: Sequence[Check], labels: Sequence[str], shown: Shown, *, brief: bool
) -> list[list[Content]]:
    rows = [_row(check, label, shown, brief=brief) for check, label in zip(checks, labels, strict=True)]
    return [[one_line(word, Ink.LABEL) for word in _HEADINGS], *rows]


def _row(check: Check, label: str, shown: Shown, *, brief: bool) -> list[Content]:
    reading = check.reading
    if reading is None:
        read, verdict = one_line("–", Ink.QUIET), one_line("·" if brief else "· not read", Ink.QUIET)
    else:
        hot = f" (hot {write_figure(reading.size, shown)})" if reading.hot and not brief else ""
        read = one_line(f"{cold_size(reading, shown)}{hot}")
        word = "take again" if reading.questioned else check.verdict
        plain = ("· old" if brief else "· old, read again") if reading.old else "· noted"
        verdict = marked(word) if word else one_line(plain, Ink.QUIET if reading.old else "")
    wanted = write_wanted(check.wanted, shown) if check.wanted is not None else "–"
    if brief:
        # What is read stands beside it with its unit.
        wanted = with_signs(wanted).removesuffix(" mm").removesuffix(" in")
    expected = write_figure(check.expected, shown) if check.expected is not None else "–"
    return [one_line(label), one_line(wanted), one_line(expected), read, verdict]
