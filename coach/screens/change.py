"""The day goes otherwise than the recipe: what of it, in a line, then what that does to the job."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.drafting.bar_there import bar_still_open, change, change_told
from coach.operations.does import Does, HeatKind
from coach.quantities.figure import Wanted
from coach.quantities.words import counted
from coach.recipe.same_work import same_on_others
from coach.screens.asking import AskingScreen, Question
from coach.telling.figures import write_wanted
from coach.telling.file_amended import change_section
from coach.telling.page import Section
from coach.telling.writing import Shown

WAY_IN = {
    "key": "ctrl+x",
    "words": "Change",
    "told": "Change steps or drawing: skip, put off",
    "group": "Write",
}


#: What keeps its place: marks are made on the cold bar, and hard steel is tempered at once.
_IN_PLACE = (Does.MARKS_OUT, Does.QUENCHES, Does.TEMPERS)


def such_as(session: Session) -> tuple[tuple[str, str], ...]:
    """What may be typed, by the steps and the sizes of this job."""
    standing, steps = session.standing(), session.recipe.steps
    first = standing.step.number if standing.step is not None else len(steps)
    ahead = range(first, len(steps) + 1)
    one, other, last = ahead[0], ahead[len(ahead) // 2], ahead[-1]
    # Marking out, a quench and its temper keep their places; what shapes nothing can be left out as well.
    free = [number for number in ahead if not any(map(steps[number - 1].does, _IN_PLACE))]
    loose = [number for number in free if not steps[number - 1].targets]
    skipped = next((number for number in loose if number >= other), next(iter(loose), 0))
    put_off = next((number for number in ahead[:-1] if {number, number + 1} <= {*free}), 0)
    zone = steps[one - 1].zones[0]
    shown = Shown(session.system)
    worked = {zone for number in ahead for zone in steps[number - 1].zones}
    lengths = [size for size in standing.sizes if size.dimension == "length"]
    size = next((size for size in lengths if size.zone in worked), None)
    heated = next((number for number in ahead if steps[number - 1].heats), None)
    drawn = f"{size.zone}.length = {write_wanted(_shorter(size.wanted), shown)}" if size is not None else ""
    heats = anew = ""
    pieces = session.may_be_given_up
    if heated is not None:
        step = steps[heated - 1]
        heats = f"heats {heated} = {step.heats + 1}"
        anew = f"step {heated}: {step.operation}: {step.zones[0]}, {counted(step.heats + 2, 'heat')}"
    found = (
        (
            bar_still_open(session),
            "the bar that lies there; or 350 g, and its grade",
        ),
        (drawn, "a size of the drawing is another one"),
        (f"skip {skipped}" if skipped else "", "a step is not wanted"),
        (f"move {last} before {other}" if last != other else "", "another order; or after"),
        *_in_one_heat(session, ahead),
        (f"put off {put_off}" if put_off else "", "the step behind it comes first"),
        (f"give up {pieces[-1]}" if pieces else "", "a piece is made no more"),
        (
            "next piece" if same_on_others(session.recipe, first - 1) else "",
            "the same work on the next piece",
        ),
        (f"again {one}", "a step once more"),
        (heats, "more heats, or fewer"),
        (f"add: straighten: {zone}", f"a step of your own, next; or add after {other}: …"),
        (anew, "a step worded anew"),
        (_bath(session, first), "the bath that was used"),
    )
    return tuple((line, told) for line, told in found if line)


def _shorter(wanted: Wanted) -> Wanted:
    """A little less than is drawn, for an example that changes something."""
    limits = wanted.limits
    return wanted._replace(
        limits=limits.moved(0.5 * (limits.low - limits.nominal)) if limits.low > -inf else limits
    )


def _in_one_heat(session: Session, ahead: range) -> list[tuple[str, str]]:
    """Two steps ahead whose metal can be worked in one heat, the first of them."""
    steps = session.recipe.steps
    forged = {at for at in ahead if steps[at - 1].heats and steps[at - 1].heat_kind is HeatKind.FORGING}
    pair = next((at for at in ahead if {at, at + 1} <= forged), None)
    return [] if pair is None else [(f"{pair} and {pair + 1} in one heat", "two steps in one heat")]


def _bath(session: Session, first: int) -> str:
    """A line for the last quench that is done or in hand, in another bath than its own; "" before any."""
    quenched = [one for one in session.recipe.steps[:first] if one.does(Does.QUENCHES) and one.quench]
    other = "water" if quenched and quenched[-1].quench == "oil" else "oil"
    return f"quench {quenched[-1].number} = {other}" if quenched else ""


class ChangeScreen(AskingScreen):
    """Asks for the change in a line, shows how the job stands with it, and enters it."""

    NAME = "A change of the job"
    HELP_TEXT = """
        The day goes otherwise than the recipe: say it in a line. While it is marked out, the bar that lies
        there: bar 45 x 20, long 310, or bar poll = 45 x 20, 350 g, C45, that also later, as long as nothing
        is done to that piece. A size of the drawing:
        plate.length = 44 ±6. A step that is not wanted: skip 7. Another order: move 9 before 7,
        move 7 after 9, next 9, put off 7. Two steps in one heat: 7 and 8 in one heat. Once more: again 6.
        Of several made alike the next one in hand: next piece; what is entered of this one waits for it.
        One of them is made no more: give up hook 2.
        More heats, or fewer: heats 7 = 3. A step of your own, in a recipe's words: add: straighten: shank,
        1 heat does it next, add after 6: … puts it there. A step otherwise: step 7: and the step anew.
        Another bath was used than the recipe's: quench 7 = oil, also once that step is done.

        The coach shows what is otherwise and how the job stands with it, and says why where that cannot be:
        a temper before its quench, a step that is done. Enter enters it; Undo at the bench takes it back.
        The recipe's file stays as it is; `coach recipe-of` writes the recipe that was really forged.
    """
    FIRST_TELLS = "Say it in a line; Enter shows what it does to the job before it is entered."
    MUST_BE_TOLD = "Type what is otherwise, as one of the lines above says it."
    ENTERS = ("Go on so?", "enters it")
    TELLS_AT_END = "Nothing is entered yet. Enter enters it; Undo at the bench takes it back."

    def title_told(self) -> str:
        return f"A change of {self.session.recipe.title}"

    def questions(self) -> Sequence[Question]:
        """One line: what is otherwise."""
        asks = "What is otherwise: of the steps ahead, or of the drawing"
        return (Question("what", asks, such_as=such_as(self.session)),)

    def comes_of_it(self) -> Section:
        return change_section(change_told(self.session, self.told["what"]), self.shown)

    def entered(self) -> Answer:
        return change(self.session, self.told["what"])
