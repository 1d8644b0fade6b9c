"""What the readings have taught of the shop, as it is told: the figure, and the reading that taught most."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.learned import LearnedOfShop, OfShop, Teacher
from coach.forms import label
from coach.quantities.words import Words, as_words, counted, run_on, say
from coach.telling.page import Line, Section, section
from coach.telling.words import write
from coach.telling.writing import Shown

_UNTAUGHT = {
    OfShop.SCALE: "no reading has told otherwise yet",
    OfShop.SPREAD: "no heat has been measured yet, thickness and width, half way",
    OfShop.FULLNESS: "by weighing, for sizes alone cannot tell it from what the fire took",
    OfShop.TEMPER: "a file skated, which only makes it less likely to be softer",
}


def learned_section(heading: str, learned: Iterable[LearnedOfShop], shown: Shown) -> Section:
    """Every figure that readings can teach, each with its reason."""
    return section(
        heading, (Line(write(say("{}: {}", learned_words(one), why(one)), shown)) for one in learned)
    )


def learned_words(learned: LearnedOfShop) -> Words:
    """`scale 1.3 ±0.3 × reckoned`, `spread 0.31 ±0.13 (book 0.31)`."""
    if learned.what is OfShop.SCALE:
        return say("{} {:±} × reckoned", learned.what, learned.now)
    if learned.what is OfShop.FULLNESS:
        return say("hammered sections {:±} × as full as their sizes make them", learned.now)
    if learned.what is OfShop.TEMPER:
        off = learned.now
        if learned.by is None:
            return say("{} {:±} off the table", learned.steel, off)
        way = "softer" if off.value < 0.0 else "harder"
        return say("{} {:±} {} than the table", learned.steel, off._replace(value=abs(off.value)), way)
    return say("{} {:±} (book {})", learned.what, learned.now, learned.published)


def why(learned: LearnedOfShop) -> Words:
    """Which reading moved it most, and how many more have told something."""
    of_shop = f"the shop's own, from {counted(learned.of_shop, 'job')}" if learned.of_shop else ""
    if learned.by is None:
        return as_words(of_shop or _UNTAUGHT[learned.what])
    more = f"and {learned.others} more" if learned.others else ""
    began = f"begun with {of_shop}" if of_shop else ""
    return run_on((_taught(learned.what, learned.by), more, began), ", ")


def _taught(what: OfShop, by: Teacher) -> Words:
    reading = say("{} {:=}, step {},", label(by.zone, by.dimension), by.size, by.step)
    if what is not OfShop.SPREAD:
        return say("{} took it {} most", reading, "up" if by.up else "down")
    heat = by.heat
    if heat is None:
        return say("{} says how far it ran", reading)
    return say(
        "{} ran from {:n} to {} wide as it went from {:n} to {} thick, step {}",
        heat.zone,
        heat.width_before,
        heat.width,
        heat.thickness_before,
        heat.thickness,
        by.step,
    )
