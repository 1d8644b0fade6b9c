"""How what is typed at the bench arrives: each line at the size that was shown as it was typed.

A gauge types faster than the coach reckons. So a line leaves the box in the key event that sends it, with the
size it is of; it is reckoned in its turn, and keys that enter something wait for the lines before them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise

from textual import on
from textual.widgets import Input

from coach.bench.answer import Answer
from coach.bench.checks import Check
from coach.bench.in_turn import in_turn
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.ledger.verdict import Verdict
from coach.operations.measures import MARK
from coach.quantities import Kind, Refusal
from coach.screens.bench_choosing import ChoosingScreen, number_of
from coach.screens.bench_words import (
    AHEAD,
    ALL_DONE,
    GONE,
    NAMED,
    NOT_YET,
    OF_NO_SIZE,
    TWICE,
    behind_a_reading,
    slip_by_key,
    which_words,
)
from coach.screens.beside_sizes import put_down, says_blows_alone
from coach.screens.in_tenths import is_in_tenths, with_its_point
from coach.screens.named_sizes import (
    Named,
    doubted_words,
    is_of,
    may_name_its_size,
    meant_as_heat,
    named,
    named_row,
)
from coach.screens.waiting import Sent, Waiting, Waits
from coach.screens.widgets.entry_box import MEANT_AFTER_S, Mode
from coach.telling.words import write


class TypingScreen(ChoosingScreen):
    """Takes the lines that are typed, each at its size."""

    OVER = False
    TAKES_NUMBERS = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._doubted_elsewhere: Sent | None = None  # a size of another step, as long as its doubt is told
        self._asked = ""  # the sentence of what is in question
        self._pressed_last = "", 0.0  # the last key that acts once, and when it came
        self._sent_last: Sent | None = None  # the size that was sent off last; None behind a note
        self.waiting = Waiting()
        self._told = "", False  # what was said last, and whether that is bad
        self._hot_in = _NOWHERE  # the step whose sizes are read hot
        self._read_cold: Sent | None = None  # the reading just entered, where the metal can hardly be cold

    @property
    def reads_hot(self) -> bool:
        """Whether sizes are read on glowing metal; no further than the end of the step."""
        return self._hot_in == number_of(self.session.standing())

    @property
    def gauge_chosen(self) -> str | None:
        """The gauge chosen for the step in hand; None where its own counts, as at the beginning of each."""
        chosen = self.coach.choices
        return chosen.gauge if chosen.gauge_of == self.in_hand else None

    @property
    def in_hand(self) -> str:
        """The step in hand of the job, as it is known by."""
        return f"{number_of(self.session.standing())} of {self.session.job}"

    def read_hot(self, hot: bool) -> None:
        """Take the next sizes hot or cold."""
        self._hot_in = number_of(self.session.standing()) if hot else _NOWHERE

    def take_hot(self, line: Sent) -> None:
        """Enter the reading just taken anew, as one of hot metal."""
        if self.attempt(self.session.strike) is not None:
            self._under_way.insert(0, line._replace(hot=True))
            self._take_first()

    def as_usual_again(self) -> str:
        """That another step has begun, and sizes are read cold and by its own gauge; "" where they were."""
        told, chosen = "", self.coach.choices
        if chosen.gauge and chosen.gauge_of.endswith(f" of {self.session.job}") and not self.gauge_chosen:
            self.coach.choose(chosen._replace(gauge=None, gauge_of=""))
            told = " By the step's own gauge again."
        if self._hot_in == _NOWHERE or self.reads_hot:
            return told
        self._hot_in = _NOWHERE
        return f" Cold again.{told}"

    # ── typing ───────────────────────────────────────────────────────────────────────────────────

    def typing(self) -> None:
        """Something is being typed: it answers no question."""
        self._read_cold = None
        if self._question == "done":
            self.step_goes_on()
        self._question = ""

    def let_question_go(self) -> None:
        """Another key than its own was pressed: what is in question is left as it is."""
        if self._question:
            self.step_goes_on()

    def step_goes_on(self) -> None:
        """The step is not to end: where its end was asked for, what it still wants is again."""
        self._question = ""
        if self._shown_check is None:
            self.choose_next(anew=True)
        self.fill()

    def sent(self, text: str, mode: Mode, *, insist: bool = False, meant: bool = True) -> None:
        """Enter was pressed behind this; the box is empty by now."""
        order = self.waiting.next_order() if mode == "size" else self.waiting.behind_all()
        line = self._line(text, mode, order)._replace(insist=insist, meant=meant)
        self._under_way.append(line)
        self._sent_last = line if mode == "size" and text.strip() else None
        here = line.check is not None or line.step == number_of(self.session.standing())
        if mode == "size" and text.strip() and line.of and here:
            self.choose_next()
        self.call_later(self._take_first)

    def _line(self, text: str, mode: Mode, order: int) -> Sent:
        """A line with all that holds as it is typed."""
        check = is_of(text, self.check_shown(self.session.standing()))
        rows, gauge = self._rows, self.gauge_chosen
        line = Sent(order, text, mode, self._shown_step, rows, check, self.reads_hot, gauge)
        return line._replace(names=self._names(line)) if mode == "size" else line

    def _names(self, line: Sent) -> str:
        """The size that a line names and gives; "" where it does not, or wrongly."""
        try:
            one = self._named(line)
        except Refusal:
            return ""
        return one.name if one is not None and one.typed.strip() else ""

    def next_in_order(self) -> None:
        """What comes with the line before it is of the row behind that one's, whatever is good by now."""
        last, standing = self._sent_last, self.session.standing()
        if last is None or last.check is None or not last.step == self._shown_step == number_of(standing):
            return
        given = {one.names for one in self._under_way}
        rows = [one for one in standing.checks if one.name == last.check.name or one.name not in given]
        for one, behind in pairwise(rows):
            if one.name == last.check.name:
                self._ask(standing, behind)

    def hold(self, lines: list[str]) -> None:
        """Lines that were typed before there was a size to see: none is entered until it is given one."""
        for text in lines:
            line = self._line(text, "size", self.waiting.behind_all())
            self.waiting.put(line._replace(check=None), "", as_it_stands=True)
        if lines:
            self._bring_back()
        if more := len(self.waiting):
            waiting = "1 more number waits" if more == 1 else f"{more} more numbers wait"
            self.tell(f"{waiting} behind the one in the box: none is entered yet.")

    def begin_anew(self) -> None:
        """Another number is begun upon one that was given back, which waits on if it can stand."""
        held = self.waiting.let_go()
        if held is None or not held.as_it_stands:
            return
        line, standing = held.line, self.session.standing()
        if self._of_no_size(line.text, line.step):  # what is begun is of the step in hand
            self.waiting.put(line, held.said, as_it_stands=True)
            self._ask(standing, next((one for one in in_turn(standing) if one.is_open), None))
            return
        if line.step != self._shown_step:  # another size was chosen since
            line = line._replace(check=None, step=self._shown_step, rows=self._rows)
        self.waiting.put(line, held.said, as_it_stands=True)

    async def pressed(self, key: str) -> bool:
        """Do what a key of this screen does; False where it is none."""
        for binding in self.keys_told():
            if key in binding.key.split(",") and self.check_action(binding.action, ()) is not False:
                if not self._is_bounced(binding.action):
                    await self.run_action(binding.action)
                elif self._question and self._asked:
                    self._ask_this(self._asked)
                elif (told := self._told[0]) and TWICE not in told:
                    self.tell(f"{told} {TWICE}", bad=self._told[1])
                return True
        return False

    def _ask_this(self, told: str, besides: str = "") -> None:
        """Ask what is in question, with what is said `besides` for now."""
        raise NotImplementedError

    def _is_bounced(self, action: str) -> bool:
        """Whether a key that acts once came again at once, by a glove that bounced or a key held down."""
        if action not in _ONCE:
            self._pressed_last = "", 0.0
            return False
        (before, at), now = self._pressed_last, self.coach.stopwatch()
        self._pressed_last = action, now
        return action == before and now - at < MEANT_AFTER_S

    def in_turn(self, deed: Callable[[], object]) -> None:
        """Do something behind every line that was sent before it."""
        if self._under_way:
            self.call_later(deed)
        else:
            deed()

    def tell(self, sentence: str, *, bad: bool = False, asks: bool = False) -> None:
        self._told = sentence, bad
        self._doubted_elsewhere = None
        super().tell(sentence, bad=bad, asks=asks)

    def _take_first(self) -> None:
        line = self._under_way.pop(0)
        self._told = "", False
        try:
            one = self._named(line) if line.mode == "size" else None
            if one is not None:
                line = line._replace(check=named_row(line.text, one.name, line.rows))
            self._take(line, one)
        except Refusal as refusal:
            stands = isinstance(refusal, _AsItStands)
            self.waiting.put(line, write(refusal.words, self.shown), as_it_stands=stands)
            self._told = "", False
        self._bring_back()

    def _take(self, line: Sent, one: Named | None) -> None:
        standing = self.session.standing()
        if line.mode != "size" or says_blows_alone(line.text):
            answer = put_down(self.session, line.text, line.mode)
            if answer.meanwhile:
                self.choose_next()
            self.tell(self.said(answer))
            self.fill()
        elif not line.text.strip():
            self.skip(standing, meant=line.meant) if standing.step is not None else self.tell(ALL_DONE)
        elif one is None and standing.step is None:
            raise Refusal(NAMED, standing.sizes[0].label if standing.sizes else "blade length")
        elif line.check is not None and line.step != number_of(standing):
            ahead = 0 < number_of(standing) < line.step
            raise _AsItStands(AHEAD if ahead else GONE, line.check.label, line.step)
        elif one is not None and not one.typed.strip():  # only said which
            self._choose(one.name)
            self.tell("")  # what was said was of another size
        elif one is not None:
            self._read(one, line)
        elif line.check is not None:
            self._read(Named(line.check.name, line.text), line)
        elif line.step != number_of(standing):
            raise _AsItStands(OF_NO_SIZE, line.text.strip(), line.step)
        else:
            raise _AsItStands(which_words(standing))

    def _read(self, one: Named, line: Sent) -> None:
        hot, was_off = "" if line.hot else None, self.session.standing().is_off
        read = next((row for row in line.rows if row.name == one.name), None)
        if is_in_tenths(read, line.gauge, self.session.system):
            one = one._replace(typed=with_its_point(one.typed))
        gauge = line.gauge if read is None or read.gauge else None  # no gauge chosen gives a heat or a test
        answer = self.session.read(one.name, one.typed, gauge=gauge, hot=hot, insist=line.insist)
        self._tell_reading(one.name, answer._replace(bad_news=answer.alarms(was_off=was_off)), line)

    def _named(self, line: Sent) -> Named | None:
        """The size that a line names, of the rows that stood there or of those to be measured first."""
        is_named = may_name_its_size(line.text)
        others = self.session.first_to_measure() if is_named else ()
        besides = self.session.may_be_read() if is_named else ()
        return named(line.text, line.rows, others, besides, takes_weight=line.check is None)

    @property
    def metal_glows(self) -> bool:
        """Whether by its clock the metal lies on the anvil as hot as it is worked."""
        raise NotImplementedError

    def _tell_reading(self, name: str, answer: Answer, line: Sent) -> None:
        did, checks, said = answer.did, self.session.standing().checks, slip_by_key(self.said(answer))
        name, questioned = (did.name, did.is_questioned) if isinstance(did, Check) else (name, False)
        if questioned:
            said = doubted_words(said, line.text, checks, name)
        # What is questioned, out or not to be told is read once more before anything else is.
        read = next((one for one in checks if one.name == name), None)
        again = read is not None and read.verdict in _READ_AGAIN and not read.is_settled
        self._again = name if questioned or again else ""
        hardly_cold = read is not None and not questioned and not line.hot and self._glows_where_read(read)
        doubted = behind_a_reading(said, hardly_cold, self.reads_hot, self.app.size.height)
        doubted = doubted or meant_as_heat(line.text, name, checks)
        self.after(f"{said}{doubted}", bad=answer.bad_news or questioned)
        self._read_cold = line if hardly_cold else None
        self._doubted_elsewhere = line if questioned and read is None else None

    def _glows_where_read(self, check: Check) -> bool:
        return self.metal_glows and check.kind is Kind.LENGTH and check.dimension != MARK

    @on(Input.Changed, "#typed")
    def _changed(self, event: Input.Changed) -> None:
        if not event.value and not self._box.value:
            if self.waiting.empty():  # what was said of it goes with it
                self.tell("")
            self._told = "", False
            self._bring_back()

    def _bring_back(self) -> None:
        """What waits first comes back into the box, once nothing else stands in it or is on its way."""
        waits = self.waiting.first()
        if waits is None:
            return
        line = waits.line
        # While a note is written a size waits: in the box it would be taken for the note.
        has_its_place = line.mode != "size" or (self._box.mode == "size" and not self._box.size_typed)
        if comes := has_its_place and not (self._under_way or self._box.value):
            self.waiting.take()
            if line.check is not None or (may_name_its_size(line.text) and line.step != self._shown_step):
                self._shown_step, self._shown_check, self._rows = line.step, line.check, line.rows
            elif waits.as_it_stands and line.step != number_of(self.session.standing()):
                self._shown_step, self._shown_check = line.step, None
            self._box.give_back(line.text, line.mode)
        if comes or not waits.as_it_stands:
            self._tell_of(waits)
        self.fill()

    def _tell_of(self, waits: Waits) -> None:
        """Say what is with a line that came back or waits, behind what was answered to the one before."""
        (told, bad), line, standing = self._told, waits.line, self.session.standing()
        if waits.as_it_stands and (said := self._of_no_size(line.text, line.step)):
            bad = bad or not told
        elif waits.as_it_stands and (line.check is None or line.step == number_of(standing)):
            unsaid = self.check_shown(standing) is None and not may_name_its_size(line.text)
            said = which_words(standing) if unsaid else NOT_YET.format(line.text.strip())
            bad = bad or (unsaid and not told)
        else:
            said, told, bad = waits.said.splitlines()[0], "", True
        behind = self.waiting.behind() if self._box.value else ""
        self.tell(f"{told} {said}{behind}".strip(), bad=bad)

    def _of_no_size(self, text: str, step: int) -> str:
        """What to do with a number of no size whose step is not in hand any more; "" where it is not so."""
        standing = self.session.standing()
        if step in (_NOWHERE, number_of(standing)) or standing.step is None or may_name_its_size(text):
            return ""
        return OF_NO_SIZE.format(text.strip(), step) if self.check_shown(standing) is None else ""

    def skip(self, standing: Standing, *, meant: bool) -> None:
        """Enter came on an empty box; `meant` for itself, and not of a burst or of a key held down."""
        raise NotImplementedError

    # ── what follows ─────────────────────────────────────────────────────────────────────────────

    def enter_in_turn(self, deed: Callable[[], Answer]) -> None:
        """Enter something by a key, behind what was typed before it."""
        self.in_turn(partial(self.enter, deed))

    def enter(self, deed: Callable[[], Answer], *, stays: bool = False) -> bool:
        was_off, answer = self.session.standing().is_off, self.attempt(deed)
        if answer is not None:
            self.after(self.said(answer), bad=answer.alarms(was_off=was_off), stays=stays)
        return answer is not None

    def after(self, sentence: str, *, bad: bool = False, stays: bool = False) -> None:
        """Show what an entry means, and once that can be read all that follows from it.

        `stays` leaves the box at the size that is chosen.
        """
        self._question = ""
        self._read_cold = None
        was = self._shown_step, self._shown_check
        standing = self.session.standing()
        self._by_hand = self._by_hand and stays
        if not (stays and self._shown_step == number_of(standing) and self.check_shown(standing) is not None):
            self.choose_next(anew=was == (number_of(standing), None))
        typed = self._box.size_typed if self._shown_check is None else ""
        left = self._of_no_size(typed, self._shown_step) if typed.strip() else ""
        self.tell(f"{sentence}{self.as_usual_again()} {left}".rstrip(), bad=bad)
        if bad:
            self.app.bell()
        self.once_shown(self.fill)


_NOWHERE = -1
#: What would answer its own question, or do to another entry or step what was meant for the last.
_ONCE = ("done", "strike", "back", "no_heat")
_READ_AGAIN = (Verdict.OUT, Verdict.UNSURE)


class _AsItStands(Refusal):
    """A line only wants a size, or its step again."""
