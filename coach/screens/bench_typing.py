"""How what is typed at the bench arrives: each line at the size that was shown when Enter was pressed.

A gauge types faster than the coach reckons. So a line leaves the box in the key event that sends it, with the
size it is of; it is reckoned in its turn, and keys that enter something wait for the lines before them.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

from textual import on
from textual.widgets import Input

from coach.bench.answer import Answer
from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.ledger.verdict import Verdict
from coach.operations.measures import MARK
from coach.quantities import Kind, Refusal
from coach.screens.named_sizes import Named, named
from coach.screens.screen import LiveScreen
from coach.screens.widgets.entry_box import EntryBox, Mode
from coach.telling.reading import INSISTING
from coach.telling.words import write


class Sent(NamedTuple):
    """A line as it was sent off."""

    text: str
    mode: Mode
    step: int  # the step that was shown; 0 where every step was done
    check: Check | None  # the size that was asked for
    hot: bool
    gauge: str | None
    insist: bool = False


class TypingScreen(LiveScreen):
    """Chooses the size that is read next, and takes the lines that are typed."""

    OVER = False
    TAKES_NUMBERS = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._shown_step = -1  # what the box asks for: a step, and one of its sizes or its end
        self._shown_check: Check | None = None
        self._question = ""  # the deed that a second key press would do
        self._again = ""  # the size that was read last, where it is to be measured again
        self._under_way: list[Sent] = []  # not yet taken, in their order
        self._refused: list[tuple[Sent, str]] = []  # with what was said of it
        self._hot_in = _NOWHERE  # the step whose sizes are read hot
        self._read_cold: Sent | None = None  # the reading just entered, where the metal can hardly be cold

    @property
    def _box(self) -> EntryBox:
        return self.query_one(EntryBox)

    @property
    def reads_hot(self) -> bool:
        """Whether sizes are read on glowing metal; no further than the end of the step."""
        return self._hot_in == _number(self.session.standing())

    def read_hot(self, hot: bool) -> None:
        """Take the next sizes hot or cold."""
        self._hot_in = _number(self.session.standing()) if hot else _NOWHERE

    def take_hot(self, line: Sent) -> None:
        """Enter the reading just taken anew, as one of hot metal."""
        if self.attempt(self.session.strike) is not None:
            self._under_way.insert(0, line._replace(hot=True))
            self._take_first()

    def cold_again(self) -> str:
        """That sizes are read cold again, where another step has begun; "" where nothing has changed."""
        if self._hot_in == _NOWHERE or self.reads_hot:
            return ""
        self._hot_in = _NOWHERE
        return " Cold again."

    # ── choosing ─────────────────────────────────────────────────────────────────────────────────

    def check_shown(self, standing: Standing) -> Check | None:
        """The size that the box asks for, as it stands now; None for the end of the step."""
        if self._shown_check is not None and self._shown_step == _number(standing):
            name = self._shown_check.name
            self._shown_check = next((one for one in standing.checks if one.name == name), None)
        return self._shown_check

    def _ask(self, step: int, check: Check | None) -> None:
        self._shown_step, self._shown_check = step, check

    def choose_next(self, *, anew: bool = False) -> None:
        """Choose what is to be read next: what is unread or questioned, then what is not good.

        What is being typed keeps its size, whatever is entered meanwhile, here or elsewhere; `anew` gives it
        one where it has none.
        """
        if self._box.size_typed and self._shown_step >= 0 and not anew:
            return
        standing = self.session.standing()
        sent = {one.check.name for one in self._under_way if one.check is not None}
        checks = [one for one in standing.checks if one.name not in sent]
        wanting = (
            [one for one in checks if one.is_questioned]
            or [one for one in checks if one.name == self._again]
            or [one for one in checks if one.is_open]
            or [one for one in checks if not one.is_settled]
        )
        self._ask(_number(standing), wanting[0] if wanting else None)

    def action_choose(self, by: int) -> None:
        standing = self.session.standing()
        choices = [*standing.checks, None]
        check = self.check_shown(standing)
        at = choices.index(check) if check in choices else 0
        self._ask(_number(standing), choices[(at + by) % len(choices)])
        self._question = self._again = ""
        self.fill()

    # ── typing ───────────────────────────────────────────────────────────────────────────────────

    def typing(self) -> None:
        """Something is being typed: it answers no question."""
        self._read_cold = None
        if self._question == "done":
            self.step_goes_on()
        self._question = ""

    def step_goes_on(self) -> None:
        """The step is not to end: where its end was asked for, what it still wants is again."""
        self._question = ""
        if self._shown_check is None:
            self.choose_next(anew=True)
        self.fill()

    def sent(self, text: str, mode: Mode, *, insist: bool = False) -> None:
        """Enter was pressed behind this; the box is empty by now."""
        standing = self.session.standing()
        check = None if _NAMES_ITS_SIZE.match(text) else self.check_shown(standing)
        line = Sent(text, mode, self._shown_step, check, self.reads_hot, self.coach.choices.gauge, insist)
        self._under_way.append(line)
        if mode == "size" and text.strip() and check is not None:
            self.choose_next()
        self.call_later(self._take_first)

    def hold(self, lines: list[str]) -> None:
        """Lines that were typed before there was a size to see: none is entered until it is given one."""
        standing = self.session.standing()
        for text in lines:
            line = Sent(text, "size", _number(standing), None, self.reads_hot, self.coach.choices.gauge)
            self._refused.append((line, _WHICH))
        if lines:
            waiting = "1 more number waits" if len(lines) == 1 else f"{len(lines)} more numbers wait"
            self.tell(f"{waiting} behind the one in the box: none is entered yet.")

    async def pressed(self, key: str) -> bool:
        """Do what a key of this screen does; False where it is none."""
        for binding in self.keys_told():
            if key in binding.key.split(",") and self.check_action(binding.action, ()) is not False:
                await self.run_action(binding.action)
                return True
        return False

    def in_turn(self, deed: Callable[[], object]) -> None:
        """Do something behind every line that was sent before it."""
        if self._under_way:
            self.call_later(deed)
        else:
            deed()

    def _take_first(self) -> None:
        line = self._under_way.pop(0)
        try:
            self._take(line)
        except Refusal as refusal:
            self._refused.append((line, write(refusal.words, self.shown)))
        self._bring_back()

    def _take(self, line: Sent) -> None:
        standing = self.session.standing()
        if line.mode != "size":
            note = self.session.note if line.mode == "note" else self.session.to_right
            answer = note(line.text)
            if answer.meanwhile:
                self.choose_next()
            self.tell(self.said(answer))
            self.fill()
        elif not line.text.strip():
            if standing.step is not None:
                self.skip(standing)
            else:
                self.tell(_ALL_DONE)
        elif (one := self._named(line.text, standing)) is not None:
            if not one.typed.strip():  # only said which
                self._choose(one.name)
                return
            hot = "" if line.hot else None
            answer = self.session.read(one.name, one.typed, hot=hot, insist=line.insist)
            self._tell_reading(one.name, answer, line)
        elif standing.step is None:
            raise Refusal(_NAMED, standing.sizes[0].label if standing.sizes else "blade length")
        elif line.check is None:
            raise Refusal(_WHICH)
        elif line.step != standing.step.number:
            raise Refusal(
                "{} is a size of step {}, which is not in hand any more: F5 goes back to it, ↑ or ↓ choose "
                "another size.",
                line.check.label,
                line.step,
            )
        else:
            name, hot = line.check.name, "" if line.hot else None
            answer = self.session.read(name, line.text, gauge=line.gauge, hot=hot, insist=line.insist)
            self._tell_reading(name, answer, line)

    def _named(self, text: str, standing: Standing) -> Named | None:
        """The size that a line names, of the step or of those to be measured before its first heat."""
        named_there = _NAMES_ITS_SIZE.match(text)
        return named(text, standing.checks, self.session.first_to_measure() if named_there else ())

    def _choose(self, name: str) -> None:
        """Ask for a size by its name."""
        standing = self.session.standing()
        found = next((one for one in standing.checks if one.name == name), None)
        if found is None:
            raise Refusal("Type what it measures too, such as {}=31.5.", name)
        self._ask(_number(standing), found)
        self._question = self._again = ""
        self.fill()

    @property
    def metal_glows(self) -> bool:
        """Whether by its clock the metal lies on the anvil as hot as it is worked."""
        raise NotImplementedError

    def _tell_reading(self, name: str, answer: Answer, line: Sent) -> None:
        typed = line.text if line.check is not None else ""
        questioned = any(waiting.name == name for waiting in self.session.standing().questioned)
        said = self.said(answer)
        if questioned:
            said = said.replace(INSISTING, _INSISTS)
        checks = self.session.standing().checks
        if questioned and typed.strip().isdigit() and 1 <= int(typed) <= len(checks):
            said += f" Row {int(typed)} is chosen by {int(typed)}= and Enter."
        # What is out or cannot be told is read once more before anything else is.
        read = next((one for one in self.session.standing().checks if one.name == name), None)
        self._again = name if read is not None and read.verdict in _READ_AGAIN and not read.is_settled else ""
        hardly_cold = read is not None and not questioned and not line.hot and self._glows_where_read(read)
        doubted = " Read hot? F7 says so." if hardly_cold and self.app.size.height >= _ROOM_TO_DOUBT else ""
        self.after(f"{said}{doubted}", bad=answer.bad_news or questioned)
        self._read_cold = line if hardly_cold else None

    def _glows_where_read(self, check: Check) -> bool:
        return self.metal_glows and check.kind is Kind.LENGTH and check.dimension != MARK

    @on(Input.Changed, "#typed")
    def _changed(self, event: Input.Changed) -> None:
        if not event.value:
            self._bring_back()

    def _bring_back(self) -> None:
        """What was refused comes back into the box, once nothing else stands in it or is on its way."""
        if not self._refused:
            return
        line, said = self._refused[0]
        # While a note is written a size waits: in the box it would be taken for the note.
        has_its_place = line.mode != "size" or (self._box.mode == "size" and not self._box.size_typed)
        if has_its_place and not (self._under_way or self._box.value):
            self._refused.pop(0)
            if not _NAMES_ITS_SIZE.match(line.text):  # what names its own leaves the one that was chosen
                self._ask(line.step, line.check)
            self._box.give_back(line.text, line.mode)
        others = f" {len(self._refused)} more wait behind it." if self._box.value and self._refused else ""
        self.tell(f"{said.splitlines()[0]}{others}", bad=True)
        self.fill()

    def skip(self, standing: Standing) -> None:
        """Enter came on an empty box."""
        raise NotImplementedError

    # ── what follows ─────────────────────────────────────────────────────────────────────────────

    def enter_in_turn(self, deed: Callable[[], Answer]) -> None:
        """Enter something by a key, behind what was typed before it."""
        self.in_turn(partial(self.enter, deed))

    def enter(self, deed: Callable[[], Answer], *, stays: bool = False) -> bool:
        answer = self.attempt(deed)
        if answer is not None:
            self.after(self.said(answer), bad=answer.bad_news, stays=stays)
        return answer is not None

    def after(self, sentence: str, *, bad: bool = False, stays: bool = False) -> None:
        """Show what an entry means, and once that can be read all that follows from it.

        `stays` leaves the box at the size that is chosen.
        """
        self._question = ""
        self._read_cold = None
        was = self._shown_step, self._shown_check
        standing = self.session.standing()
        if not (stays and self._shown_step == _number(standing) and self.check_shown(standing) is not None):
            self.choose_next(anew=was == (_number(standing), None))
        sentence += self.cold_again()
        self.tell(sentence, bad=bad)
        if bad:
            self.app.bell()
        self.once_shown(self.fill)


#: What begins with a letter may name its size; a colour's or a test's word is found to name none.
_NAMES_ITS_SIZE = re.compile(r"[^=]*=|\s*[^\W\d_]+ *[\d.,]")
_NOWHERE = -1
#: The key that insists.
_INSISTS = "F12"
#: In a window of fewer rows an answer has room for what a reading means and no more.
_ROOM_TO_DOUBT = 18
_READ_AGAIN = (Verdict.OUT, Verdict.UNSURE)
_WHICH = "Choose with ↑ or ↓ which size this is."
_NAMED = (
    "Every step is done: a size is typed with its name now, such as {}=31.5; F5 goes back to the last step."
)
_ALL_DONE = "Every step is done: F5 goes back to the last, F6 writes a note."


def _number(standing: Standing) -> int:
    return standing.step.number if standing.step is not None else 0
