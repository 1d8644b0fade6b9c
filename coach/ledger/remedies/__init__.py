"""Ways back onto plan: one remedy, one file, found by looking in this package; each reckoned by forecast."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from coach.ledger.remedies.base import Failed, Remedy, ShortSkin, Situation, Soundness
from coach.ledger.remedies.offer import Offer, WayBack, reckoned

__all__ = [
    "Failed",
    "Offer",
    "Remedy",
    "ShortSkin",
    "Situation",
    "Soundness",
    "WayBack",
    "offers",
    "remedies",
]


@cache
def remedies() -> tuple[Remedy, ...]:
    """Every remedy there is, by name."""
    found: dict[str, Remedy] = {}
    for listed in pkgutil.iter_modules(__path__):
        module = importlib.import_module(f"{__name__}.{listed.name}")
        for thing in vars(module).values():
            if (
                isinstance(thing, type)
                and issubclass(thing, Remedy)
                and thing.__module__ == module.__name__
                and "NAME" in vars(thing)
            ):
                found[thing.NAME] = thing()
    return tuple(found[name] for name in sorted(found))


def offers(situation: Situation) -> tuple[Offer, ...]:
    """Everything that can be done about a job as it stands, the best first; empty when nothing is wrong."""
    found = [
        offer
        for remedy in remedies()
        for idea in remedy.ideas(situation)
        if (offer := reckoned(situation, remedy, idea)) is not None
    ]
    return tuple(sorted(found, key=lambda offer: offer.rank))
