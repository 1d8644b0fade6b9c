"""The longer mark that gives back what metal went, alone and beside a change of the heats."""

from __future__ import annotations

from coach.bench.begun_with import Known
from coach.bench.edit_for_next import Edit, Try, with_lines
from coach.bench.metal_gone import Fall, is_worth_telling, to_spare_by
from coach.ledger.looking_back import look_back
from coach.quantities import Figure
from coach.quantities.words import Words, say
from coach.recipe.model import Recipe


def longer_mark(
    recipe: Recipe, fall: Fall, left: Figure, known: tuple[Known, ...], try_: Try
) -> Edit | Words:
    """So much more bar for the zone that what went would be there again; or why not.

    `left` is what the zone has to spare in the end; `known` is what the next job of the recipe begins with.
    """
    if left.value > fall.gone_mm:
        return say("{} to spare is left, more than went", left)
    a_share_mm = to_spare_by(recipe, fall, known)
    if a_share_mm <= 0.0:
        return say("a longer mark gives the {} nothing to spare", fall.first.label)
    marked = _allowance(recipe, fall, fall.gone_mm / a_share_mm)
    found = _tried(recipe, fall, marked, try_)
    if isinstance(found, Edit):
        return found
    return say("it would take an allowance of {}, and {}", marked, found)


def longer_beside(
    recipe: Recipe, fall: Fall, known: tuple[Known, ...], heats: Edit, try_: Try
) -> Edit | None:
    """The same where the heats are planned otherwise as well; None where that is enough.

    More heats mark what they work out longer for their own scale: that is bar which the allowance need not
    give once more. Fewer heats mark it shorter, and the metal that went is to be given all the same.
    """
    from coach.recipe.reader import read_recipe

    zone = fall.first.zone
    changed = read_recipe(with_lines(recipe, [heats.line]), recipe.source)
    before, after = (look_back(one).start_mm3[zone] for one in (recipe, changed))
    a_share_mm = to_spare_by(recipe, fall, known)
    gone_mm = fall.gone_mm - a_share_mm * (after / before - 1.0)
    if a_share_mm <= 0.0 or not is_worth_telling(fall, gone_mm):
        return None
    found = _tried(recipe, fall, _allowance(recipe, fall, gone_mm / a_share_mm), try_)
    return found if isinstance(found, Edit) else None


def beside_heats(beside: Edit | None, heats: Edit) -> Words:
    """What is said behind a longer mark of what it needs once the heats are planned otherwise."""
    if beside is None:
        return say("but not where you {} as well: that marks it out for what went", heats.told)
    return say("or {} where you {} as well", beside.line.partition(" = ")[2], heats.told)


def _allowance(recipe: Recipe, fall: Fall, more_share: float) -> str:
    return f"{100.0 * (recipe.drawing[fall.first.zone].allowance_share + more_share):.1f} %"


def _tried(recipe: Recipe, fall: Fall, marked: str, try_: Try) -> Edit | Words:
    zone = fall.first.zone
    told = say("mark the {} out longer, with an allowance of {}", zone, marked)
    return try_(f"allowance {zone} = {marked}", told)
