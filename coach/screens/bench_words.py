"""The bench's longer texts: what to do, what has been done, the line above the box, and the help."""

from __future__ import annotations

from textual.content import Content

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.operations.does import HeatKind
from coach.operations.gauges import by_gauge
from coach.quantities import Kind, counted
from coach.screens.wording import Ink, one_line
from coach.telling.reading import SLIP

BENCH_HELP = """
    Above stands what is read from the anvil: the size that is worked to, how far it has to go, the
    clock of the heat beside the colour the metal should have, and whether the piece is on its plan.
    Below stands what to do; Tab turns to metal, what to measure, picture, steps, finished sizes.

    Signs: ▼ take down, ▲ let grow, ✓ good, » past here, a later step mends it, ✗ past or out,
    ? questioned or not to be told, ~ old, · not read.

    Type what the gauge reads and press Enter: it goes to the size on the line of the box. 31.5, 31,5, 1
    1/4 in, 3 cm will do; `coach config set whole_numbers tenths` takes 315 by calliper as 31.5. Another
    size goes by its first letters or its number: l 91, 2=91; a weight, such as 108 g, is the piece's.
    Enter alone goes on to the next size and ends the step after the last. What was refused is typed anew
    upon itself; what waits for Enter waits on, Ctrl+U strikes it. Hot (F7) takes sizes on glowing metal
    back to cold, to the step's end; right behind a size taken as cold it makes that hot.

    F2 each time the metal comes out of the fire: it counts a heat and starts the clock. When the bell rings
    it goes back; F3 says so, and the clock shows how long it has soaked. Who counts blows types 40 blows:
    they are of the last heat.

    A reading that cannot be right is questioned and counts for nothing; the same reading twice makes it
    stand, and so does F12. A test takes 1 for pass, 2 for doubt, 3 for fail; a temperature may be typed
    as its colour. When something has gone wrong, the star (*) shows the ways back.

    F6 writes a note; F6 again something to put right. F8 strikes out the last entry; F9 shows all of them.
    Every entry is kept the moment it is made. All of it can be done from the number pad.
"""

#: Why a line that was sent off waits.
WHICH = "Choose with ↑ or ↓ which size this is."
NO_SIZES = "This step asks for no size: one of another step goes by its whole name and =, such as {}=31.5."
NOT_YET = "{} waits for Enter."
#: Where that was another step's, and none of its sizes was chosen for it.
OF_NO_SIZE = (
    "{} was typed at step {}, which is not in hand: ↑ or ↓ choose a size of this one, Ctrl+U strikes it."
)
GONE = (
    "{} is a size of step {}, which is not in hand any more: F5 goes back to it, ↑ or ↓ choose another size."
)
AHEAD = "{} is a size of step {}, which is still ahead: ↑ or ↓ choose another size, Ctrl+U strikes it."
NAMED = (
    "Every step is done: a size is typed with its name now, such as {}=31.5; F5 goes back to the last step."
)
ALL_DONE = "Every step is done: F5 goes back to the last, F6 writes a note."
#: What is said of a number that F8 took out of the box.
NOT_ENTERED = "{} was not entered, and is taken back. F8 again strikes out the last entry."
#: What is said of a key that bounced, or was held down.
TWICE = "The key came twice at once: it did that once."
#: What is said of an Enter that may be of the same burst as the one before it, or of a key held down.
TOO_QUICK = "That Enter came too quickly behind the one before, and answers nothing: press it again."

#: What is said when a question is not answered with yes.
LEFT_AS_IT_IS = {
    "heat": "No heat is marked.",
    "night": "No heat is marked.",
    "fire": "Nothing is said of the fire.",
    "leave": "What was typed stays.",
    "begun": "The job goes on.",
}

#: Beyond so many times the heats planned each further one is asked about: a key may be held down.
_MANY = 3

#: What the box asks for, the longest first: whatever there is room for.
_TYPE = {
    Kind.TEST: ("1 pass, 2 doubt or 3 fail, then Enter", "1 pass, 2 doubt, 3 fail", "1, 2 or 3"),
    Kind.TEMPERATURE: ("type the temperature or its colour, then Enter", "degrees or a colour", "then Enter"),
    Kind.TIME: ("type the time, such as 5 min or 2 h", "such as 5 min or 2 h", "then Enter"),
    Kind.HARDNESS: ("type the hardness, then Enter", "then Enter"),
}
_THEN_ENTER = "then Enter"
_TYPE_TENTHS = ("tenths: 184 is 18.4, then Enter", "184 is 18.4", _THEN_ENTER)
_TYPE_A_SIZE = ("type the size, then Enter", "size, then Enter", "then Enter")


def prompt_words(what: str, how: str) -> Content:
    """The line above the box."""
    return Content.assemble(one_line(what, Ink.STRONG), "   ", one_line(how, Ink.QUIET))


#: What the box asks for when it takes no size, and what stands in it when it is empty.
NOTE_PROMPTS = {
    "note": (
        prompt_words("A note", "F6 again: to put right; Esc: later"),
        "type the note, then Enter",
    ),
    "right": (
        prompt_words("To put right", "zone: what is wrong; Esc: later"),
        "type it, then Enter",
    ),
}


def note_words(mode: str, width: int) -> tuple[Content, str]:
    """The line above the box that takes a note, and what the empty box asks for, in a window so wide."""
    words, asks = NOTE_PROMPTS[mode]
    room = width - words.cell_length
    return words, next((one for one in (asks, _THEN_ENTER) if len(one) < room - 2), "")


def which_words(standing: Standing) -> str:
    """What to do with a number that nobody said the size of."""
    if standing.checks or not standing.sizes:
        return WHICH
    return NO_SIZES.format(standing.sizes[0].label)


def typing_words(check: Check, room: int, *, tenths: bool = False) -> str:
    """What the empty box asks for, in so many cells; nothing where there is no room."""
    size = _TYPE_TENTHS if tenths else _TYPE_A_SIZE
    return next((one for one in _TYPE.get(check.kind, size) if len(one) <= room), "")


def opening_words(check: Check | None) -> str:
    """What is said as the bench opens, by what the box asks for."""
    if check is None:
        return "F1 tells what each key does."
    if check.kind is Kind.TEST:
        return "Type 1, 2 or 3 by what the test shows, then Enter; F1 tells the rest."
    return "Type what the gauge reads, then Enter; F1 tells the rest."


def how_read(check: Check, *, hot: bool, gauge: str | None) -> str:
    """What a size is read with and how hot; nothing for what no gauge of the shop measures."""
    if not check.gauge:
        return ""
    instead = f" instead of {check.gauge.removeprefix('by ')}" if gauge not in (None, check.gauge) else ""
    return f"{'HOT' if hot else 'cold'}, {by_gauge(gauge or check.gauge)}{instead}"


def no_fire(step: StepToDo, draws: int) -> str:
    """What is said of a fire that a step needs none of, which may undo what the step `draws` made.

    One that is done at a low heat, as a temper, has its heat from an oven or a hot block.
    """
    needs = "no forge fire, only its own low heat" if step.temperature is not None else "no fire"
    return f"This step needs {needs}{f': a fire draws what step {draws} made' if draws else ''}."


def heat_doubted(standing: Standing, draws: int) -> str:
    """Why one more heat is asked about before it counts; empty where it is not."""
    step = standing.step
    if step is not None and step.heat_kind == HeatKind.COLD and not step.heats_planned:
        return no_fire(step, draws)
    if step is not None and standing.heats >= _MANY * max(step.heats_planned, 1):
        return f"{counted(standing.heats, 'heat')} of {step.heats_planned} planned are marked."
    return ""


def counts_the_planned(standing: Standing) -> bool:
    """Whether the end of the step counts heats that nobody marked."""
    return standing.step is not None and standing.step.heats_planned > 0 and not standing.heats


def planned_words(standing: Standing) -> str:
    """The heats that the end of the step counts then."""
    if standing.heats_told is not None:
        return f"the {counted(standing.heats_told, 'heat').removeprefix('1 ')} told before"
    planned = standing.step.heats_planned if standing.step is not None else 0
    return f"the {counted(planned, 'planned heat').removeprefix('1 ')}"


def asked_words(question: str, standing: Standing) -> str:
    """What Enter on the empty box says yes to; nothing where nothing is asked."""
    if question == "done" and standing.step is not None:
        if counts_the_planned(standing):
            return f"Enter counts {planned_words(standing)}"
        return f"Enter finishes step {standing.step.number}"
    if question == "heat":
        return "Enter marks one more heat" if standing.heats else "Enter marks a heat"
    return _ASKED.get(question, "")


_ASKED = {
    "begun": "Enter sets the job aside",
    "night": "Enter: it lay hot, Delete: it did not",
    "fire": "Enter says that it is in the fire",
}


#: In a window of fewer rows an answer has room for what a reading means and no more.
_ROOM_TO_DOUBT = 18


def slip_by_key(said: str) -> str:
    """What was said of a reading, with the key that strikes it out.

    >>> slip_by_key(f"About 3 more heats. {SLIP}")
    'About 3 more heats. A slip? F8 strikes it out.'
    """
    return said.replace(SLIP, "A slip? F8 strikes it out.")


def behind_a_reading(said: str, is_hardly_cold: bool, reads_hot: bool, height: int) -> str:
    """What the key of hot sizes does about what was said of a reading; nothing where it does nothing.

    >>> behind_a_reading("Too near the least allowed: measure again, cold.", False, True, 24)
    ' F7 sets the box to cold.'
    """
    if height < _ROOM_TO_DOUBT:
        return ""
    if is_hardly_cold:
        return " Read hot? F7 says so."
    return " F7 sets the box to cold." if reads_hot and said.rstrip(".").endswith("cold") else ""
