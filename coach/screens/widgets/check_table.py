"""The sizes that a step asks for: wanted, expected, read, and what the coach says of each."""

from __future__ import annotations

from collections.abc import Sequence

from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Region, Size
from textual.widget import Widget

from coach.bench.checks import Check
from coach.screens.wording import LABEL, QUIET, first_that_fits, in_columns, marked, one_line, with_signs
from coach.telling.figures import write_figure, write_wanted
from coach.telling.reading import cold_size
from coach.telling.writing import Shown

_HEADINGS = ("Size", "Wanted", "Expected", "Read", "Verdict")
#: Left out where there is little room: the expected size, then the wanted one, which the prompt tells too.
_LEAVES = (2, 1)
_SIGN_WIDTH = 2


class CheckRows(Widget):
    """The rows themselves, as many lines as there are checks and one of headings."""

    DEFAULT_CSS = """
    CheckRows { height: auto; width: 100%; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._checks: tuple[Check, ...] = ()
        self._chosen: int | None = None
        self._without = ""
        self._shown = Shown()

    def show(self, checks: tuple[Check, ...], chosen: int | None, shown: Shown, without: str = "") -> None:
        """Take other checks, which of them is read next, and what to say when there are none."""
        self._checks, self._chosen, self._shown, self._without = checks, chosen, shown, without
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._checks) + 1 if self._checks else 1

    def render(self) -> Content:
        """The rows at the width there is."""
        if not self._checks:
            return one_line(self._without, QUIET)
        lines = check_lines(self._checks, self._shown, max(self.content_size.width - _SIGN_WIDTH, 1))
        signed = []
        for index, line in enumerate(lines):
            chosen = self._chosen is not None and index == self._chosen + 1
            sign = one_line("▸", "bold $accent") if chosen else Content(" ")
            signed.append(Content.assemble(sign, " ", line.stylize("bold") if chosen else line))
        return Content("\n").join(signed)


class CheckTable(VerticalScroll, can_focus=False):
    """The rows under a ruled title; the one that is read next is always in view."""

    DEFAULT_CSS = """
    CheckTable {
        border-top: solid $secondary 50%;
        border-title-color: $text-secondary;
        border-title-style: bold;
        padding: 0 1;
        scrollbar-size-vertical: 1;
        height: auto;
    }
    """

    def __init__(self, *, id: str) -> None:
        self._rows = CheckRows()
        super().__init__(self._rows, id=id)
        self.border_title = "Measurements"

    def show(self, checks: tuple[Check, ...], chosen: int | None, shown: Shown, without: str = "") -> None:
        """Show the checks, and scroll so that the chosen one is seen."""
        self._rows.show(checks, chosen, shown, without)
        if chosen is not None:
            row = Region(0, chosen + 1, 1, 1)
            self.call_after_refresh(self.scroll_to_region, row, animate=False, force=True)


def check_lines(checks: Sequence[Check], shown: Shown, width: int) -> list[Content]:
    """The headings and the rows; words that say nothing new go before a column does, and a name last."""
    zones = {check.name.partition(".")[0] for check in checks}
    # The head of the bench names the zone of the step already.
    zone = f"{zones.pop()} " if len(zones) == 1 else ""
    full = [check.label for check in checks]
    bare = [check.label.removeprefix(zone) for check in checks]
    ways = [
        _rows(checks, full, shown),
        _rows(checks, bare, shown),
        _rows(checks, bare, shown, brief=True),
    ]
    for without in ((), _LEAVES[:1]):
        kept = [[[row[at] for at in range(len(row)) if at not in without] for row in rows] for rows in ways]
        rows = first_that_fits(kept, width)
        if rows is not None:
            return in_columns(rows, width)
    return in_columns(ways[-1], width, leaves=_LEAVES)


def _rows(
    checks: Sequence[Check], labels: Sequence[str], shown: Shown, *, brief: bool = False
) -> list[list[Content]]:
    head = [one_line(word, LABEL) for word in _HEADINGS]
    return [
        head,
        *(_row(check, label, shown, brief=brief) for check, label in zip(checks, labels, strict=True)),
    ]


def _row(check: Check, label: str, shown: Shown, *, brief: bool) -> list[Content]:
    reading = check.reading
    if reading is None:
        read, verdict = one_line("–", QUIET), one_line("·" if brief else "· not read", QUIET)
    else:
        hot = f" (hot {write_figure(reading.size, shown)})" if reading.hot and not brief else ""
        read = one_line(f"{cold_size(reading, shown)}{hot}")
        word = "take again" if reading.questioned else check.verdict
        plain = ("·" if brief else "· old, read again") if reading.old else "· noted"
        verdict = marked(word) if word else one_line(plain, QUIET if reading.old else "")
    wanted = write_wanted(check.wanted, shown) if check.wanted is not None else "–"
    if brief:
        # What is read stands beside it with its unit.
        wanted = with_signs(wanted).removesuffix(" mm").removesuffix(" in")
    expected = write_figure(check.expected, shown) if check.expected is not None else "–"
    return [one_line(label), one_line(wanted), one_line(expected), read, verdict]
