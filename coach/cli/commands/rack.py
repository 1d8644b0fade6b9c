"""`coach rack`: the bars and offcuts that lie in the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import number_of
from coach.cli.from_bar import MAKE
from coach.cli.opening import open_shop, recipe_path, shop_to_begin_in
from coach.cli.page import set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Take, Typed, flag

if TYPE_CHECKING:
    from coach.bench.rack import Rack, RackEntry, Suits

SUMMARY = "List the bars and offcuts on the rack; lay one on it, correct it, take it off."
TAKES = (
    Take("name", "the bar's name; with nothing behind it, that bar alone", "NAME"),
    Take(
        "bar",
        "the bar as it is now: section, length or weight, grade, such as 45 x 20, long 310, C45",
        "BAR",
        typed=Typed.RUN_ON,
    ),
    flag("--gone", "it lies there no more"),
    Take("--for", "tell which bar suits a recipe, the one that leaves least over first", "RECIPE"),
    MAKE._replace(help="how many are to be made of that recipe"),
    flag("--history", "every entry of the rack, with its number"),
    Take("--strike", "strike an entry of it out", "ENTRY", number_of("the number of an entry", "12")),
)

#: What a shell finishes after a word.
FINISHES = {"rack": "bars", "--for": "recipes"}


class OnRack(NamedTuple):
    """What lies on the rack."""

    sentence: str  # what was entered; "" where nothing was
    rack: Rack


class RackHistory(NamedTuple):
    """Every entry of the rack."""

    entries: tuple[RackEntry, ...]


class SuitsRecipe(NamedTuple):
    """How each bar suits each piece of a recipe, the best first."""

    recipe: str
    bars: tuple[Suits, ...]


def run(asked: Asked) -> Reply[OnRack | RackHistory | SuitsRecipe]:
    """List what lies there, or enter something for it."""
    _refuse_two(asked)
    if asked.for_ is not None:
        return _suits(asked)
    enters = asked.bar is not None or asked.gone or asked.strike is not None
    with shop_to_begin_in(asked) if enters else open_shop(asked) as shop:
        from coach.telling.rack import rack_history, rack_page
        from coach.telling.words import sentence
        from coach.telling.writing import Shown

        shown, rack, did = Shown(asked.units or "mm"), shop.rack, None
        if asked.history:
            entries = rack.history()
            return reply(set_page(rack_history(entries, shown)), RackHistory(entries))
        if asked.strike is not None:
            did = rack.strike(asked.strike).did
        elif asked.gone:
            did = rack.take_off(asked.name or "").did
        elif asked.bar is not None:
            did = rack.lay(asked.name, asked.bar, asked.units or "mm").did
        there = rack.now()
        if did is None and asked.name is not None:
            there = there._replace(bars=(there.named(asked.name),))
        said = sentence(did, shown) if did is not None else ""
        lines = [*([said, ""] if said else []), *set_page(rack_page(there, shown))]
        return reply(lines, OnRack(said, there))


def _suits(asked: Asked) -> Reply[SuitsRecipe]:
    from coach.drafting.from_rack import suited
    from coach.drafting.make import made_often
    from coach.recipe.text import file_text
    from coach.telling.rack import rack_page, suits_page
    from coach.telling.writing import Shown

    path = recipe_path(asked.for_)
    text, shown = file_text(path), Shown(asked.units or "mm")
    if asked.make is not None:
        text = made_often(text, asked.make)
    with open_shop(asked) as shop:
        rack = shop.rack.now()
        found = suited(text, path.name, rack)
    told = suits_page(found, shown) if rack.bars else rack_page(rack, shown)
    bad = all(one.cannot for one in found)
    return reply(set_page(told), SuitsRecipe(path.stem, found), bad_news=bad)


def _refuse_two(asked: Asked) -> None:
    """Raise Refused where more than one thing is asked for."""
    if asked.gone and asked.name is None:
        raise Refused("Say which bar is gone: `coach rack NAME --gone`.")
    if asked.make is not None and asked.for_ is None:
        raise Refused("--make goes with a recipe: `coach rack --for RECIPE --make 12`.")
    wanted = {
        "--gone": asked.gone,
        "--for": asked.for_ is not None,
        "--history": asked.history,
        "--strike": asked.strike is not None,
        "a bar": asked.bar is not None,
    }
    told = [what for what, is_told in wanted.items() if is_told]
    if len(told) > 1:
        raise Refused(f"{told[0]} and {told[1]} were both given: one thing at a time.")
    if asked.name is not None and told and told[0] not in ("--gone", "a bar"):
        raise Refused(f"{told[0]} goes without the name of a bar: leave {asked.name[:30]!r} out.")
