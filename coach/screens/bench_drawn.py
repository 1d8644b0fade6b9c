"""How the bench is drawn: the face, the page below it and what Tab turns to, for any size of window."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.containers import Container, Horizontal
from textual.content import Content
from textual.widgets import Static

from coach.bench.checks import Check
from coach.bench.clock import Place
from coach.bench.fire_clock import seconds_between
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.drawing.large import SMALL
from coach.ledger.verdict import PlanState
from coach.screens.alarm import sound
from coach.screens.bench_beside import beside, work_beside_sizes
from coach.screens.bench_face import Dial, bench_blocks, head_words, verdict_block
from coach.screens.bench_marks import bar_of_marks
from coach.screens.bench_pages import (
    PAGES,
    measure_lines,
    needs_a_way_back,
    other_pages,
    page_lines,
    ways_lines,
)
from coach.screens.bench_typing import TypingScreen
from coach.screens.bench_words import (
    asked_words,
    how_read,
    note_words,
    prompt_words,
    typing_words,
)
from coach.screens.bench_work import needs_rows, work_page
from coach.screens.in_tenths import is_in_tenths
from coach.screens.size_rows import size_glance
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.entry_box import EntryBox
from coach.screens.widgets.face import SMALL_FACE_FROM, Face, rows_of_figures
from coach.screens.widgets.head_line import HeadLine
from coach.screens.widgets.pane import Lines, Pane, rule, side_by_side
from coach.screens.widgets.picture import Picture
from coach.screens.wording import Ink, marked, one_line

if TYPE_CHECKING:
    from coach.bench.sheet import Sheet
    from coach.bench.tells_most import DoubtOfJob
    from coach.ledger.remedies import WayBack
#: Seconds between two looks at the clock of the heat.
TICK_S = 0.5
#: From this size of window on there is room for all of it at once, and from this width for one column more.
_WIDE_FROM, _THREE_FROM = (98, 34), 150
#: Rows that the head and the largest face take, and the answer, the box and the keys.
_FACE_ROWS, _ENTRY_ROWS = 10, 3
#: The share of the width that the prompt may take (its style sheet says it too), and the cells at its sides.
_MOST_OF_PROMPT, _AROUND_PROMPT = 0.77, 3
WAYS, MEASURE = "Ways back", "Measure"
#: The least rows of the picture, and of what stands below it.
_LEAST_PICTURE, _LEAST_BELOW = 6, 6


class PagedScreen(TypingScreen):
    """The bench without its keys: it draws the job as it stands, and turns pages."""

    def __init__(self, session: Session, typed: str = "") -> None:
        super().__init__(session)
        self._held = [line for line in typed.split("\n") if line]  # the first of them stands in the box soon
        self._ways: tuple[Standing, tuple[WayBack, ...]] | None = None  # as it stood then
        self._came: tuple[Standing, Sheet] | None = None  # the sheet as it stood then
        self._doubt: tuple[Standing, DoubtOfJob] | None = None
        self._page = PAGES[0]
        self._turned_in = 0  # the step in which the page has turned to the ways back; 0 while on plan
        self._ran = ""  # the heat whose clock was shown last
        self._rung = ""  # the heat whose bell has rung
        self._figure_rows = 0  # how tall the figures of the face are; 0 hides it

    def compose(self) -> ComposeResult:
        yield HeadLine(id="head")
        yield Face()
        with Container(id="body"):
            yield Pane(id="work")
            yield Picture(id="picture")
            yield Pane(id="more")
        with Container(id="entry"):
            yield AnswerLine()
            with Horizontal(id="typing"):
                yield Static("", id="prompt", markup=False)
                yield EntryBox(self)
        yield from self.rim()

    def on_resize(self, event: events.Resize) -> None:
        self.call_after_refresh(self.fill)

    @property
    def moves(self) -> bool:
        return self._dial() is not None

    def fill(self) -> None:
        """Show where the job stands now; what takes longer follows once that can be seen."""
        standing = self.session.standing()
        self._turn_by_itself(standing)
        check = self.check_shown(standing)
        self._figure_rows = self._rows_of_figures(standing, check)
        with self.app.batch_update():
            self.tick()
            self._show_page(standing)
            self._draw_prompt(standing, check)
            self.tell_keys()
        if self._shows_picture or self._known_ways(standing) is None or self._asks_what_tells(standing):
            self.once_shown(self._show_the_rest)

    def _turn_by_itself(self, standing: Standing) -> None:
        """Off plan the page turns to the ways back, once, and with the next step to the work again."""
        number = standing.step.number if standing.step is not None else 0
        is_off = standing.verdict is PlanState.OFF_PLAN
        if self._turned_in and (not is_off or self._turned_in != number) and self._page == WAYS:
            self._page = PAGES[0]
        if is_off and not self._turned_in and self._page == PAGES[0]:
            self._page = WAYS
        self._turned_in = number if is_off else 0

    def after(self, sentence: str, *, bad: bool = False, stays: bool = False) -> None:
        """An entry brings the work back."""
        self._page = PAGES[0]
        super().after(sentence, bad=bad, stays=stays)

    @property
    def _is_wide(self) -> bool:
        width, height = self.app.size
        return width >= _WIDE_FROM[0] and height >= _WIDE_FROM[1]

    @property
    def _shows_picture(self) -> bool:
        return self._is_wide or self._page == "Picture"

    def _show_page(self, standing: Standing) -> None:
        """The work, or the page that Tab has turned to; in a large window both."""
        work, more, picture = (
            self.query_one("#work", Pane),
            self.query_one("#more", Pane),
            self.query_one(Picture),
        )
        height = self.app.size.height
        picture.display = self._shows_picture
        more.display = self._is_wide
        work.display = self._is_wide or self._page != "Picture"
        if self._is_wide:
            page_rows = height - _FACE_ROWS - _ENTRY_ROWS
            width = self.app.size.width
            left = self._left_of(width)
            wanted = beside(standing, self.check_shown(standing), self.shown, left, width - 1 - left).rows
            wanted += len(bar_of_marks(standing, None, self.shown, self.app.size.width))
            # Instructions come before the picture: where they leave it no room it is on its own page.
            fits = wanted <= page_rows - _LEAST_PICTURE - _LEAST_BELOW
            picture.display = fits or self._page == "Picture"
            more.display = fits or self._page != "Picture"
            least = _LEAST_BELOW + (_LEAST_PICTURE if fits else 0)
            rows_of_work = min(max(page_rows * 3 // 10, 9, wanted), page_rows - least)
            work.styles.height = rows_of_work
            rest = page_rows - rows_of_work
            tall = max(min(page_rows * 4 // 10, rest - _LEAST_BELOW), _LEAST_PICTURE)
            picture.styles.height = tall if fits else rest
            work.show(partial(self._work_beside_sizes, standing))
            more.show(self._lowest(standing))
        else:
            work.styles.height = picture.styles.height = "1fr"
            if work.display:
                work.show(self._page_lines(standing))

    def _work_beside_sizes(self, standing: Standing, width: int, rows: int) -> list[Content]:
        check = self.check_shown(standing)
        marks = bar_of_marks(standing, check, self.shown, width)
        left = self._left_of(width)
        return [
            *marks,
            *work_beside_sizes(
                standing, check, self.shown, width, left, rows - len(marks), why=self._page != WAYS
            ),
        ]

    @staticmethod
    def _left_of(width: int) -> int:
        """The cells of what to do, beside which the sizes stand."""
        return (width - 1) // 2

    def _lowest(self, standing: Standing) -> Lines:
        """What stands below the picture in a large window."""
        if self._page not in (PAGES[0], "Picture"):
            return self._page_lines(standing)
        names = ("Metal", "Steps", "Finished") if self.app.size.width >= _THREE_FROM else ("Metal", "Steps")

        def lines(width: int, rows: int) -> list[Content]:
            each = (width - len(names) + 1) // len(names)
            parts = []
            for at, name in enumerate(names):
                wide = width - (each + 1) * (len(names) - 1) if at == len(names) - 1 else each
                told = page_lines(name, standing, self.shown)(wide, rows)
                parts.append(([rule(name, wide), *_no_more_than(told, rows - 1)], wide))
            return side_by_side(parts)

        return lines

    def _page_lines(self, standing: Standing) -> Lines:
        if self._page == PAGES[0]:
            return partial(work_page, standing, self.check_shown(standing), self.shown)
        if self._page == WAYS:
            return partial(ways_lines, standing, self.shown, self._known_ways(standing), warned=self._is_wide)
        words = (
            partial(measure_lines, self._known_doubt(standing), self.shown)
            if self._page == MEASURE
            else page_lines(self._page, standing, self.shown)
        )
        head = partial(rule, self._page, right=other_pages(self._page))
        return lambda width, rows: [head(width), *words(width, rows - 1)]

    def _show_the_rest(self) -> None:
        """The ways back, and the picture where there is room for it beside everything else."""
        standing = self.session.standing()
        if self._known_ways(standing) is None:
            self._ways = standing, self.session.ways_back()
            self._show_page(standing)
            self.tell_keys()
        if self._shows_picture:
            self.query_one(Picture).show_piece(self.session, self.session.piece_in_hand())
        if self._asks_what_tells(standing):
            self.run_worker(partial(self._try_readings, standing), thread=True, exclusive=True)

    def _asks_what_tells(self, standing: Standing) -> bool:
        """Whether the page in hand asks for what would tell most and that is still to be reckoned."""
        return self._page == MEASURE and self._known_doubt(standing) is None

    def _known_doubt(self, standing: Standing) -> DoubtOfJob | None:
        """What would tell most, once it is reckoned."""
        return self._doubt[1] if self._doubt is not None and self._doubt[0] is standing else None

    def _try_readings(self, standing: Standing) -> None:
        found = self.session.doubt()
        self.app.call_from_thread(self.if_there, partial(self._show_what_tells, standing, found))

    def _show_what_tells(self, standing: Standing, found: DoubtOfJob) -> None:
        if self.session.standing() is standing:
            self._doubt = standing, found
            self._show_page(standing)

    def knows_no_way(self, standing: Standing) -> bool:
        """Whether ways back were looked for and none is known."""
        return self._known_ways(standing) == ()

    def _known_ways(self, standing: Standing) -> tuple[WayBack, ...] | None:
        """The ways back as far as they are reckoned; None where that is still to be done."""
        if not needs_a_way_back(standing):
            return ()
        return self._ways[1] if self._ways is not None and self._ways[0] is standing else None

    def _dial(self) -> Dial | None:
        """The clock of the heat in hand; None where none runs, or nobody can mean it any more."""
        clock = self.session.standing().clock
        if clock is None:
            return None
        dial = Dial(clock, seconds_between(clock.since, self.coach.now()))
        return None if dial.is_forgotten else dial

    @property
    def metal_glows(self) -> bool:
        dial = self._dial()
        return dial is not None and dial.clock.place is Place.OUT and not dial.is_due

    def _cool_with(self, dial: Dial | None) -> None:
        """Once a heat is so long over that its clock is gone, sizes are read cold."""
        ran, self._ran = self._ran, dial.clock.since if dial is not None else ""
        clock = self.session.standing().clock
        if ran and dial is None and clock is not None and clock.since == ran and self.reads_hot:
            self.read_hot(False)
            if not self._question:
                self.tell("The heat is long over: sizes are read cold again.")
            self._draw_prompt(self.session.standing(), self.check_shown(self.session.standing()))

    def tick(self) -> None:
        """Let the clock of the heat go on, with all that is read from the anvil."""
        standing, dial = self.session.standing(), self._dial()
        self._cool_with(dial)
        check = self.check_aimed_at(standing)
        if dial is not None and dial.is_due and self._rung != dial.clock.since:
            self._rung = dial.clock.since
            self.app.bell()
            sound("back" if dial.clock.place is Place.OUT else "soaked", self)
        rows = self._figure_rows
        sheet = self._sheet(standing) if standing.step is None else None
        asked = self._question == "done"
        blocks = bench_blocks(standing, check, dial, self.shown, sheet, end_asked=asked)
        self.query_one(Face).show(blocks, rows)
        head = self.query_one(HeadLine)
        head.styles.height = 1 if rows else 2
        head.show(
            *head_words(standing, self.shown), *(() if rows else self._without_face(standing, check, dial))
        )

    def _sheet(self, standing: Standing) -> Sheet:
        """What came of the tool, as it stands now."""
        if self._came is None or self._came[0] is not standing:
            self._came = standing, self.session.sheet()
        return self._came[1]

    def _rows_of_figures(self, standing: Standing, check: Check | None) -> int:
        """How tall the figures of the face are: they give way where the work would lose too much."""
        width, height = self.app.size
        if height < SMALL_FACE_FROM:
            return 0
        rows = rows_of_figures(width, height)
        page_rows = height - _ENTRY_ROWS - 1 - rows - 2
        if not self._is_wide and rows > SMALL and needs_rows(standing, check, self.shown, width) > page_rows:
            return SMALL
        return rows

    def _without_face(self, standing: Standing, check: Check | None, dial: Dial | None) -> tuple[str, str]:
        """The face in a line, where there is no room for figures."""
        clock = dial.words(self.shown) if dial is not None else ""
        time = dial.figure(self.shown) if dial is not None else ""
        verdict, chance = marked(standing.verdict, capital=True).plain, verdict_block(standing).caption
        if check is None:
            told = [(clock, self._without_check(standing))]
        else:
            # The figure stands whatever else must give way: its name is in the table too.
            bare = size_glance(check, self.shown, named=False)
            told = [(clock, size_glance(check, self.shown)), (clock, bare), (time, bare)]
        lines = [" · ".join(filter(None, one)) for one in told]
        # While a clock runs it is not the clock that gives way, but the verdict's words to their sign.
        for right in (f"{verdict} {chance}".rstrip(), f"{verdict[:1]} {chance}".rstrip()):
            room = self.app.size.width - len(right) - _AROUND_PROMPT
            for line in lines:
                if len(line) <= room:
                    return line, right
            if not time:
                break
        return (bare if check is not None else lines[-1]), f"{verdict} {chance}".rstrip()

    def _draw_prompt(self, standing: Standing, check: Check | None) -> None:
        box, prompt, hot = self._box, self.query_one("#prompt", Static), self.reads_hot
        if box.mode != "size":
            words, box.placeholder = note_words(box.mode, self.app.size.width)
        elif (asked := asked_words(self._question, standing)) and not box.value:
            words, box.placeholder = prompt_words(asked, ""), ""
        elif check is not None:
            how = how_read(check, hot=hot, gauge=self.gauge_chosen)
            words = prompt_words(check.label, how)
            for less in (how.partition(",")[0], ""):
                if words.cell_length > _MOST_OF_PROMPT * self.app.size.width:
                    words = prompt_words(check.label, less)
            tenths = is_in_tenths(check, self.gauge_chosen, self.session.system)
            room = self.app.size.width - words.cell_length - _AROUND_PROMPT
            box.placeholder = typing_words(check, room, tenths=tenths)
        else:
            which = "Which size is it? ↑ or ↓ choose" if box.value and standing.checks else ""
            words, box.placeholder = prompt_words(which or self._without_check(standing), ""), ""
            if not which and words.cell_length > _MOST_OF_PROMPT * self.app.size.width:
                words = prompt_words(self._without_check(standing).rpartition(": ")[2], "")
        prompt.update(words)
        prompt.set_class(hot and box.mode == "size", "-hot")

    @staticmethod
    def _without_check(standing: Standing) -> str:
        if standing.step is None:
            return "Every step is done."
        if any(not one.is_settled for one in standing.checks):
            return "Enter asks to end the step"
        return "Enter finishes the step" if standing.checks else "Nothing to measure: Enter finishes the step"

    def action_turn(self, by: int) -> None:
        for pane in self.query(Pane):
            pane.turn(by)

    def action_page(self, by: int) -> None:
        """Turn to another page; in a large window the lowest part turns."""
        standing = self.session.standing()
        pages = [PAGES[0], *([WAYS] if needs_a_way_back(standing) else []), *PAGES[1:]]
        if self._is_wide and self._page != "Picture" and self.query_one(Picture).display:
            pages.remove("Picture")
        at = pages.index(self._page) if self._page in pages else 0
        self._turn_to(pages[(at + by) % len(pages)])

    def _turn_to(self, page: str) -> None:
        self._page = page
        for pane in self.query(Pane):
            pane.to_the_top()
        self.fill()


def _no_more_than(lines: list[Content], rows: int) -> list[Content]:
    """So many lines of a column; where there are more the last row says how many, and by which key."""
    if len(lines) <= max(rows, 1):
        return lines
    return [*lines[: rows - 1], one_line(f"… {len(lines) - rows + 1} more: Tab", Ink.QUIET, indent=1)]
