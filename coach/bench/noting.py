"""What is put down beside the work: notes, photographs, and the list of things to put right."""

from __future__ import annotations

from coach.bench.amending import Amending
from coach.bench.answer import Answer
from coach.bench.entering import EntryFault
from coach.bench.meanwhile import enters, enters_whatever_came
from coach.bench.own_blows import blows_said, last_heat
from coach.bench.righting import thing_to_put_right
from coach.bench.taken_then import noted_then
from coach.log.kinds.blows_counted import BlowsCounted
from coach.log.kinds.heat import Heat
from coach.log.kinds.late_note import LateNote
from coach.log.kinds.late_photograph import LatePhotograph
from coach.log.kinds.note import Note
from coach.log.kinds.photograph import Photograph
from coach.log.kinds.put_right import PutRight
from coach.quantities.words import as_words, counted, say


class Noting(Amending):
    """The part of a session that changes nothing of the metal."""

    @enters_whatever_came
    def note(self, text: str, at: str = "") -> Answer:
        """Write something down for later; `at` a time as it is typed, or now."""
        step = self._state.step
        if not (kept := text.strip()):
            raise EntryFault("The note is empty: type what is to be remembered.")
        if at:
            number, then = noted_then(self._state, at, self._clock())
            return Answer(say("noted at {}", at.strip()), self._enter(LateNote(kept, number, then)).number)
        entry = self._enter(Note(text=kept, step=step.number if step is not None else 0))
        return Answer(as_words("noted"), entry.number)

    @enters_whatever_came
    def to_right(self, text: str, zone: str | None = None) -> Answer:
        """Put something on the list to put right, as `thing_to_put_right` reads it; raises EntryFault."""
        thing = thing_to_put_right(self.recipe, self._state.step, text, zone)
        entry = self._enter(thing)
        where = f" of the {thing.zone}" if thing.zone else ""
        return Answer(say("on the list to put right{}: {}", where, thing.text), entry.number)

    @enters_whatever_came
    def righted(self, entry: int) -> Answer:
        """Take something off the list to put right, for it is right now; raises EntryFault."""
        listed = self.standing().to_right
        made = self._enter(PutRight(entry=entry))
        found = next(one for one in listed if one.entry == entry)
        return Answer(say("put right: {}", found.words), made.number)

    @enters
    def count_blows(self, blows: int, of: int = 0) -> Answer:
        """Say how many blows were struck in the heat of entry `of`, or the last; a later count is meant.

        Raises EntryFault: no heat is marked; OutOfLimits: nobody strikes so many.
        """
        heat = of or last_heat(self._state)
        if not heat:
            raise EntryFault("No heat is marked that these blows were struck in: mark the heat first.")
        was = blows_said(self._state).get(heat)
        entry = self._enter(BlowsCounted(entry=heat, blows=blows))
        body = self._state.counted[heat].body
        assert isinstance(body, Heat)
        before = f", not {was}" if was not in (None, blows) else ""
        which = "the heat" if of else "the last heat"
        told = say("{} in {} of step {}{}", counted(blows, "blow"), which, body.step, before)
        return Answer(told, entry.number)

    @enters_whatever_came
    def photograph(self, file: str, text: str = "", at: str = "") -> Answer:
        """Put down that a photograph was taken, by its file; `at` a time as it is typed, or now.

        Raises OutOfLimits, and EntryFault where there was no such time.
        """
        step = self._state.step
        body = Photograph(file=file, text=text.strip(), step=step.number if step is not None else 0)
        if at:
            number, then = noted_then(self._state, at, self._clock())
            body = LatePhotograph(**{**vars(body), "step": number}, taken_at=then)
        return Answer(say("put down: {}", body.words()), self._enter(body).number)
