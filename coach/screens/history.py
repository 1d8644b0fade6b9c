"""Every entry of a job, those struck out marked; any can be struck out or brought back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList

from coach.bench.answer import Answer
from coach.bench.history import Logged
from coach.bench.looking_back import MomentOfSpare, SpareGone
from coach.drawing.plot import Point, plot
from coach.quantities import COVERAGE, counted
from coach.screens.paper_line import entered_from_paper, such_as
from coach.screens.screen import LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.picture import Picture
from coach.screens.widgets.row_list import SIGN, RowList
from coach.screens.wording import Ink, one_line, said, wrapped
from coach.telling.history import history_row
from coach.telling.sizes import spare_text
from coach.telling.words import write
from coach.telling.writing import Shown, write_length

WAY_IN = {
    "from": ("bench", "resume", "sheet"),
    "key": "f9",
    "words": "Log",
    "told": "Show every entry of this job",
}


_OTHER_ZONES = "Left and right show the other zones."
_USUAL_TELLING = "Enter strikes the chosen entry out, or brings it back."
#: The cells at both sides of an entry with its scroll bar, and the least that what it tells is set apart in.
_AROUND, _LEAST_WORDS = 4, 16


class HistoryScreen(LiveScreen):
    """The job's log, the newest entry last and chosen."""

    CSS_PATH = "history.tcss"
    NAME = "The log of a job"
    HELP_TEXT = """
        Everything entered for this job, in order. Nothing is ever taken out of it: an entry made in error
        is struck out, which is itself an entry, and can be brought back the same way. Choose one with the
        arrows; Enter strikes it out, or brings it back when it was struck out.

        C corrects the chosen reading: type what it really was, and it counts so from where it was taken.
        P enters a reading from a paper note: it goes to the step of the chosen entry, and to its time where
        one is typed behind it, as in thickness=8.2 at 14:30. A heat that nobody marked goes there likewise:
        type heat, or heat at 14:30, 40 blows, or both its hours: fire 8:40, out 8:52. The step in hand ends
        so too: type done at 14:30; and begun at 9:00 tells when the work began. Type note and what is to be
        remembered, or lost blade=12 burnt, with at 14:30 behind it, for what was noted or lost then.
        Tab shows how the spare of a zone has gone over the heats, with its band; the arrows left and right
        go through the zones. Of a long job the beginning, each way back, the end of each step that shapes
        the metal, the last heat and some of the others are shown: Enter shows every heat and step.
    """
    BINDINGS = [
        key(
            "enter",
            "strike",
            "Strike or restore",
            "Strike the chosen entry out, or bring it back",
            first=False,
            group="Write",
        ),
        key("c", "correct", "Correct", "Say what the chosen reading really was", group="Write"),
        key(
            "p",
            "add_late",
            "From paper",
            "Enter a reading that was taken at the chosen entry's step",
            group="Write",
        ),
        key("tab", "look_back", "Spare", "The spare over the heats, or the entries again", group="See"),
        key("right", "zone(1)", "Zone", "The spare of the next zone", first=False),
        key("left", "zone(-1)", "Zone before", "The spare of the zone before", first=False),
        key(
            "enter",
            "every",
            "Every heat",
            "The spare after every heat and step of a long job",
            group="See",
        ),
        key("escape,f9", "close", "Bench", "Go back"),
    ]

    _gone: SpareGone | None = None
    _every = False  # whether the spare is shown at every heat
    _zone: int | None = None  # whose spare is shown, by its place among the zones
    _enters: Callable[[str], Answer] | None = None  # what is done with what is being typed
    _of_step = 1  # that a paper note is of
    _stays = False  # the chosen entry stays chosen once it is done
    _looks_back = False  # the spare is shown, not the entries

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Each key where it does something: among the entries, over the spare, or while one is corrected."""
        name = action.partition("(")[0]
        if name in ("strike", "correct", "add_late"):
            return self._enters is None and not self._looks_back
        if name == "look_back":
            return self._enters is None
        if name == "every":
            return self._looks_back and self._gone is not None and self._gone.left_out > 0
        return self._looks_back if name == "zone" else True

    def compose(self) -> ComposeResult:
        self.picks = RowList[Logged](id="entries")
        picture, answer = Picture(id="plot"), AnswerLine(_USUAL_TELLING)
        box = Box(placeholder="then Enter")
        picture.display = box.display = False
        title = f"The log of {self.session.recipe.title}"
        yield from self.framed(title, self.picks, picture, answer, box)

    @on(OptionList.OptionSelected)
    def _selected(self) -> None:
        self.action_strike()

    def fill(self) -> None:
        entries, at = self.session.history(), self.picks.highlighted
        room = self.app.size.width - _AROUND
        chosen = len(entries) if at is None else at
        self.picks.fill(entries, lambda one: _line(one, self.shown, room), chosen)

    def on_resize(self) -> None:
        """What an entry tells is set anew, below itself where it is longer than the window."""
        self.fill()

    # ── looking back ─────────────────────────────────────────────────────────────────────────────

    def action_look_back(self) -> None:
        picture, self._looks_back = self.query_one(Picture), not self._looks_back
        picture.display, self.picks.display = self._looks_back, not self._looks_back
        self.tell_keys()
        if not self._looks_back:
            self.picks.focus()
            self.tell(_USUAL_TELLING)
            return
        picture.show("Spare over the heats", lambda columns, rows: (), "Reckoning…")
        self.tell("Reckoning how the spare has gone…")
        self.run_worker(self._reckon, thread=True, exclusive=True)

    def _reckon(self) -> None:
        gone = self.session.spare_gone(every=self._every)
        self.app.call_from_thread(self.if_there, partial(self._plot, gone))

    def action_every(self) -> None:
        self._every = True
        self.tell("Reckoning how the spare has gone…")
        self.run_worker(self._reckon, thread=True, exclusive=True)

    def _plot(self, gone: SpareGone) -> None:
        self._gone = gone
        self.tell_keys()
        labels = list(dict.fromkeys(point.label for point in gone.points))
        if not labels:
            self.tell("There is no spare to look back on yet.")
            return
        if self._zone is None:  # the one that the job hangs on
            spares = self.session.standing().spares
            tightest = min(spares, key=lambda spare: spare.chance).label if spares else labels[0]
            self._zone = labels.index(tightest) if tightest in labels else 0
        label = labels[self._zone % len(labels)]
        found = [point for point in gone.points if point.label == label]
        spots = list({point.heats: _spot(point) for point in found}.values())
        size = partial(write_length, shown=self.shown)
        self.query_one(Picture).show(
            f"Spare in the {label}, over the heats",
            lambda columns, rows: plot(spots, columns, rows, label=size),
            "Reckoning…",
        )
        last = found[-1]
        told = spare_text(last.spare, self.shown)
        others = (
            f"Left out are {gone.left_out} heats or steps: Enter shows them."
            if gone.left_out
            else _OTHER_ZONES
        )
        self.tell(f"{label}: {told} after {counted(last.heats, 'heat')}. {others}")

    def action_zone(self, by: int) -> None:
        if self._gone is not None:
            self._zone = (self._zone or 0) + by
            self._plot(self._gone)

    # ── correcting ───────────────────────────────────────────────────────────────────────────────

    def action_correct(self) -> None:
        entry = self.picks.chosen
        if entry is None or entry.reading is None or entry.struck:
            self.tell("Choose a reading that counts: only readings can be corrected.", bad=True)
            return
        number, was = entry.number, write(entry.words, self.shown)
        self._type(lambda typed: self.session.correct(number, typed))
        self.tell(f"{number}: {was}. Type what it really was; Esc leaves it as it is.")

    def action_add_late(self) -> None:
        """A reading from a paper note goes to the step of the entry that is chosen."""
        steps = self.session.recipe.steps
        entry = self.picks.chosen
        self._of_step = number = self._paper_of(entry)
        self._type(self._note_of_paper, stays=True)
        self.query_one(Box).takes_lines = self._lines_of_paper
        self.tell(
            f"Of step {number}, {steps[number - 1].title}: type the size and what was read, such as "
            f"{such_as(steps[number - 1])}=31.5, and the time if you know it: at 14:30."
        )

    def _paper_of(self, entry: Logged | None) -> int:
        """The step of an entry; of the last one, where that ended its step, the one that is in hand now."""
        if entry is None:
            return 1
        number = entry.step or len(self.session.recipe.steps)
        is_last = entry.number == self.session.history()[-1].number
        return number + 1 if is_last and number + 1 == self._in_hand() else number

    def _note_of_paper(self, typed: str) -> Answer:
        """One line of a paper note; what ends the step that it is of goes on with the next one."""
        before = self._in_hand()
        answer = entered_from_paper(self.session, self._of_step, typed)
        if self._of_step == before:
            self._of_step = self._in_hand()
        return answer

    def _in_hand(self) -> int:
        step = self.session.standing().step
        return step.number if step is not None else len(self.session.recipe.steps)

    def _type(self, enters: Callable[[str], Answer], *, stays: bool = False) -> None:
        self._enters, self._stays = enters, stays
        self.tell_keys()
        box = self.query_one(Box)
        box.takes_lines = None
        box.display = True
        box.value = ""
        box.focus()

    @on(Input.Submitted, "#typed")
    def _typed(self, event: Input.Submitted) -> None:
        enters = self._enters
        if enters is None or not self.enter(lambda: enters(event.value)):
            return
        if self._stays:  # a day's notes are many
            event.input.value = ""
            return
        self._stop_typing()
        self.picks.action_last()

    def _lines_of_paper(self, lines: Sequence[str]) -> None:
        """Each line of a paper note as if it had been typed, until one is refused: that stays in the box."""
        box = self.query_one(Box)
        box.value = ""
        for at, line in enumerate(lines):
            if not self.enter(partial(self._note_of_paper, line)):
                box.value = line
                why = self.query_one(AnswerLine).said.removeprefix("! ")
                self.tell(f"{why} Of {len(lines)} lines {at} {'is' if at == 1 else 'are'} entered.", bad=True)
                return

    def _stop_typing(self) -> None:
        self._enters = None
        self.tell_keys()
        self.query_one(Input).display = False
        self.picks.focus()

    def action_strike(self) -> None:
        entry = self.picks.chosen
        if entry is None:
            return
        # What was struck out is brought back by striking out the entry that did it.
        strikers = [v.number for v in self.session.history() if v.strikes == entry.number and not v.struck]
        number = strikers[0] if entry.struck and strikers else entry.number
        self.enter(lambda: self.session.strike(number))

    def action_close(self) -> None:
        if self._enters is not None:
            stays = self._stays
            self._stop_typing()
            self.tell(_USUAL_TELLING if stays else "Everything stays as it was.")
        elif self._looks_back:
            self.action_look_back()
        else:
            self.dismiss()


def _spot(moment: MomentOfSpare) -> Point:
    spare = moment.spare
    band = COVERAGE * (spare.doubt or 0.0)
    return Point(moment.heats, spare.value, spare.value - band, spare.value + band)


def _line(entry: Logged, shown: Shown, width: int) -> Content:
    number, at, step, told = history_row(entry, shown).cells
    sign = "✗ " if entry.struck else ""
    before = said(f"{' ' * len(SIGN)}{number:>4}  {at}  {step:<8}  ", Ink.QUIET)
    words = one_line(f"{sign}{told}", f"strike {Ink.QUIET}" if entry.struck else "")
    if width - before.cell_length < _LEAST_WORDS:
        return Content.assemble(before, words)
    first, *rest = wrapped(words, width - before.cell_length) or [words]
    return Content("\n").join(
        [Content.assemble(before, first), *(Content.assemble(" " * before.cell_length, one) for one in rest)]
    )
