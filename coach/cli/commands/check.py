"""`coach check`: every fault of a recipe, before any fire is lit."""

from __future__ import annotations

from codecs import BOM_UTF8
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Final, NamedTuple

from coach.cli.codes import BAD_NEWS, GOOD
from coach.cli.echo import drawn_pieces, echo_lines
from coach.cli.once import but_for_what_follows, by_one_heat, once
from coach.cli.opening import RECIPE, recipe_path
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Reply
from coach.cli.trouble import what_happened
from coach.cli.typed_again import typed
from coach.quantities.takes import Typed, flag
from coach.quantities.words import counted
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from coach.bench.decided_by import DecidedBy
    from coach.bench.understood import Understood
    from coach.ledger.questions import Question
    from coach.ledger.verdict import PlanState
    from coach.ledger.weigh import Finding
    from coach.recipe.faults import Fault
    from coach.recipe.model import Recipe

SUMMARY = "Read recipes and name every fault: file, line, column, what is wrong."
TAKES = (
    RECIPE._replace(name="recipes", typed=Typed.SEVERAL),
    flag("--fix", "write the allowances that the margin of a recipe asks for into its file"),
    flag("--echo", "say what each line is taken to mean, and draw the finished piece"),
)


class Allowance(NamedTuple):
    """Metal to be marked out of a zone beyond its plan."""

    zone: str
    share: float  # of its volume


class CheckedRecipes(NamedTuple):
    """The recipes that were checked."""

    recipes: tuple[Checked, ...]


def run(asked: Asked) -> Reply[CheckedRecipes]:
    """Check each recipe; the answer is bad news when any has a fault."""
    paths = [recipe_path(wanted) for wanted in asked.recipes]
    check = _checked if len(paths) == 1 else _checked_whatever_happens
    told = [check(path, asked) for path in paths]
    lines = [line for one, shown, _ in told for line in _lines(one, shown)]
    checked = CheckedRecipes(tuple(one for one, _, _ in told))
    return Reply(tuple(lines), checked, max(code for *_, code in told))


def _checked_whatever_happens(path: Path, asked: Asked) -> tuple[Checked, Shown, int]:
    """The same of one of several recipes, of which the others are told whatever this one does."""
    try:
        return _checked(path, asked)
    except Exception as error:
        code, trouble, _ = what_happened(error, ["check", str(path)], Shown())
        return Checked(str(path), False, "", 0, None, None, (), (), (), (), trouble=trouble), Shown(), code


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in one recipe; the names are the JSON's keys."""

    recipe: str  # the file
    ok: bool  # whether it can be forged as it is written
    title: str  # its title; empty when it cannot be read
    steps: int  # how many steps it has
    verdict: PlanState | None  # as `coach plan` gives it; `null` where it cannot be reckoned
    chance: float | None  # of making the drawing
    faults: tuple[Fault, ...]  # what keeps the recipe from being read
    findings: tuple[Finding, ...]  # what the metal cannot do
    questions: tuple[Question, ...]  # what may well be meant, and may be a slip
    warnings: tuple[str, ...]  # what is worth a look before the fire is lit
    allowances: tuple[Allowance, ...] = ()  # what was written into its file
    trouble: str = ""  # why it could not be checked at all; empty where it was
    understood: tuple[Understood, ...] = ()  # with --echo, what each line is taken to say
    drawn: tuple[str, ...] = ()  # with --echo, the finished pieces as lines of text
    why: str = ""  # why it is not on plan, though nothing is wrong: the size that decides; else empty
    decided_by: DecidedBy | None = None  # the step that leaves that size, or its zone
    orders: tuple[str, ...] = ()  # in what order several pieces of one bar are forged


def _fixed(path: Path) -> tuple[Allowance, ...]:
    """Write the allowances that a recipe's margin asks for; none where it asks for none or has faults."""
    from coach.bench.margins import allowances_for
    from coach.ledger.working import LedgerError
    from coach.recipe.faults import RecipeFaults
    from coach.recipe.fixing import with_allowances
    from coach.recipe.reader import read_recipe_file

    try:
        recipe = read_recipe_file(path)
        if recipe.enough_for is None:
            return ()
        shares = allowances_for(recipe, recipe.enough_for)
        if shares:
            _write(path, with_allowances(recipe.text, recipe.source, shares))
    except (RecipeFaults, LedgerError):  # the check tells them
        return ()
    return tuple(Allowance(zone, share) for zone, share in shares.items())


def _write(path: Path, text: str) -> None:
    """The file with another text, as readable for others as it was; through a link what it points to."""
    from coach.written import put

    file = path.resolve()
    mark = BOM_UTF8 if file.read_bytes().startswith(BOM_UTF8) else b""
    put(file, mark + text.encode(), over=True, mode=file.stat().st_mode & 0o777)


_NO_ROOM: Final = (
    "More than the margin that is written in would leave a size beside its drawing: wider limits make room."
)
#: How the coach is asked to mark out what the plan alone would leave short.
_NO_MARGIN: Final = (
    "With margin: enough for 95 % under usual, coach check --fix reckons such lengths and writes them in."
)


def _checked(path: Path, asked: Asked) -> tuple[Checked, Shown, int]:
    """One recipe read and weighed, the units to tell it in, and the exit code that it asks for."""
    allowances = _fixed(path) if asked.fix else ()
    from coach.bench.in_file import questions_in_file
    from coach.bench.outlook import outlook
    from coach.ledger.looking_back import look_back
    from coach.ledger.questions import questions
    from coach.ledger.verdict import PlanState
    from coach.ledger.working import LedgerError
    from coach.recipe.faults import RecipeFaults
    from coach.recipe.reader import read_recipe_file
    from coach.telling.why import reason_text
    from coach.telling.worth_a_look import worth_a_look

    title, steps, shown = "", 0, Shown(asked.units or "mm")
    try:
        recipe = read_recipe_file(path)
        title, steps, shown = recipe.title, len(recipe.steps), Shown(asked.units or recipe.system)
        reckoned = look_back(recipe)
        plan = outlook(reckoned)
        warnings = tuple(write(words, shown) for words in worth_a_look(plan))
        if recipe.enough_for is not None and _lacks_allowances(recipe, recipe.enough_for):
            warnings += (f"The margin is not written in yet: coach check --fix {typed(path)} writes it.",)
        elif warnings:
            warnings += (_NO_MARGIN if recipe.enough_for is None else _NO_ROOM,)
    except RecipeFaults as error:
        faults, shown = error.faults, Shown(asked.units or error.system or "mm")
    except LedgerError as error:
        faults = faults_of(error, recipe.text, str(path)).faults
    else:
        ok, chance = plan.verdict is not PlanState.OFF_PLAN and not plan.findings, plan.chance
        found, unsure = once(by_one_heat(plan.findings)), once(questions_in_file(recipe, questions(reckoned)))
        found, unsure = but_for_what_follows(recipe, found, unsure)
        told = plan.verdict, chance, (), found, unsure, warnings, allowances
        orders = tuple(f"{row.order[:1].upper()}{row.order[1:]}." for row in reckoned.rows if row.order)
        checked = Checked(str(path), ok, title, steps, *told, orders=orders)
        if plan.verdict is not PlanState.ON_PLAN and not plan.findings:
            from coach.bench.decided_by import decided_by

            why = reason_text(plan.reason, shown)
            checked = replace(checked, why=why, decided_by=decided_by(reckoned, plan.reason))
        if asked.echo:
            from coach.bench.understood import understood

            lines = understood(reckoned)
            checked = replace(checked, understood=lines, drawn=drawn_pieces(reckoned, shown))
        return checked, shown, GOOD if ok else BAD_NEWS
    return Checked(str(path), False, title, steps, None, None, faults, (), (), ()), shown, BAD_NEWS


def _why(checked: Checked) -> Iterator[str]:
    """Which size decides, where the step stands that leaves it, and which that is."""
    if checked.why and (by := checked.decided_by) is not None:
        place = f":{by.line}:{by.column}" if by.line else ""
        left = f" It is as step {by.step}, {by.title}, leaves it." if by.step else ""
        yield f"{checked.recipe}{place}: {checked.why}{left}"
    elif checked.why:
        yield f"{checked.recipe}: {checked.why}"


def _lacks_allowances(recipe: Recipe, chance: float) -> bool:
    from coach.bench.margins import allowances_for

    return bool(allowances_for(recipe, chance))


def _placed(checked: Checked, one: Finding | Question, shown: Shown) -> str:
    return f"{checked.recipe}:{one.line}:{one.column}: {write(one.sentence, shown)}"


def _lines(checked: Checked, shown: Shown) -> list[str]:
    from coach.ledger.verdict import PlanState
    from coach.telling.why import chance_beside

    wrong = [f"{checked.recipe}: {checked.trouble}"] if checked.trouble else []
    wrong += [write(fault.words, shown) for fault in checked.faults]
    wrong += [_placed(checked, one, shown) for one in checked.questions if one.brings]  # before what follows
    asked_apart = [one for one in checked.questions if not one.brings]
    told = [*checked.findings, *(asked_apart if checked.findings else ())]
    told.sort(key=lambda one: one.line)  # what is asked of a step above may be why one below cannot be
    wrong += [_placed(checked, one, shown) for one in told]
    stands = "ok"
    if checked.chance is not None and checked.verdict not in (None, PlanState.ON_PLAN):
        chance = chance_beside(checked.verdict, checked.chance)
        stands = ", ".join(filter(None, (checked.verdict, chance)))
    if asked := counted(len(checked.questions), "question") if checked.questions else "":
        stands = f"ok but for {asked}" if stands == "ok" else f"{stands}, {asked}"
    ok = f"{checked.recipe}: {stands}, {checked.title}, {counted(checked.steps, 'step')}"
    fixed = [
        f"{checked.recipe}: the allowance of {one.zone} is {one.share * 100:.1f} % now"
        for one in checked.allowances
    ]
    return [
        *fixed,
        *([] if checked.trouble or checked.faults or checked.findings else [ok]),
        *wrong,
        *_why(checked),
        *(_placed(checked, one, shown) for one in ([] if checked.findings else asked_apart)),
        *(f"{checked.recipe}: worth a look: {text}" for text in checked.warnings),
        *(f"{checked.recipe}: {text}" for text in checked.orders),
        *echo_lines(checked.understood, shown),
        *checked.drawn,
    ]
