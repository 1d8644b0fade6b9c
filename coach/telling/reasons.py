"""Why a job stands as it does, in a sentence."""

from __future__ import annotations

import re

from coach.forms import said
from coach.ledger.reason import Reason, Why
from coach.quantities import Refusal, Words, say
from coach.telling.figures import METRIC, write_figure
from coach.telling.words import refusal_text, sentence
from coach.telling.writing import Shown


def reason_text(reason: Reason | Refusal, shown: Shown = METRIC) -> str:
    """Return why a zone or a job stands as it does, or why it cannot be reckoned.

    >>> from coach.quantities.figure import mm
    >>> reason_text(Reason(Why.UNDER, "strap", "thickness", mm(-0.9, 0.1), mm(7.5)))
    'Strap: the thickness stays at 6.6 mm, 0.9 mm under the 7.5 mm the drawing allows, and no step ahead \
puts it right.'
    """
    if isinstance(reason, Refusal):
        return refusal_text(reason, shown)
    told = [sentence(_words(reason, shown), shown)]
    if reason.fire is not None:
        told.append(f"By the readings the fire takes {reason.fire.value:.1f} times the scale reckoned.")
    return " ".join(told)


def _words(reason: Reason, shown: Shown) -> Words:
    zone, size, beyond = reason.zone, said(reason.dimension), reason.beyond
    if reason.why is Why.ENOUGH:
        return say("the metal is enough for every zone")
    if reason.why is Why.TIGHTEST:
        return say(
            "the metal is enough: the tightest is {}, with {} to spare in its {} (at least {})",
            zone,
            beyond,
            size,
            beyond.at_least,
        )
    off = beyond._replace(value=abs(beyond.value))
    if reason.why is Why.FULL:
        return say(
            "the metal is enough, but the {} of {} comes out {} short of its least unless the section is "
            "worked nearer to the size drawn",
            size,
            zone,
            off,
        )
    if reason.why is Why.SHORT:
        side = "short of" if beyond.value < 0.0 else "above"
        return say("{}: the metal makes the {} {:±} {} the least the drawing allows", zone, size, off, side)
    return say(
        "{}: the {} stays at {}, {} {} the {} the drawing allows, and no step ahead puts it right",
        zone,
        size,
        reason.size,
        say("{}", off) if re.search("[1-9]", write_figure(off, shown)) else "a hair",
        "under" if reason.why is Why.UNDER else "over",
        reason.bound,
    )
