"""The tests of the shop that have no figure: what is done, and what passes, leaves a doubt or fails."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.operations.does import Does
from coach.quantities import SizeError

PASS: Final = 1.0
DOUBT: Final = 0.5
FAIL: Final = 0.0

_WORDS: Final[Mapping[float, tuple[str, ...]]] = {
    PASS: ("pass", "passed", "p", "yes", "y", "ok", "good", "1"),
    DOUBT: ("doubt", "doubtful", "d", "unsure", "?", "2"),
    FAIL: ("fail", "failed", "f", "no", "n", "bad", "3"),
}
_LONGEST_ECHO: Final = 30


class ShopTest(NamedTuple):
    """One test as a smith makes it (common practice, no source)."""

    how: str  # what to do, and what passes
    after_doubt: str
    after_fail: str
    caution: str = ""
    #: What mends a failure, the gentlest first: operations that are done again. None where none does.
    mended_by: tuple[Does, ...] = ()
    spoils: bool = False  # whether a failure can mean that the piece is lost
    not_yet: bool = False  # whether a failure only means that it is made again a little later


#: By the name that a checkpoint asks for it by. A pass never proves a weld or a temper: it finds no fault.
SHOP_TESTS: Final[Mapping[str, ShopTest]] = MappingProxyType(
    {
        "magnet": ShopTest(
            "Touch the steel with a magnet as it comes up: pass when it no longer pulls.",
            "turn the piece, soak a little longer and touch it again on the thickest of the steel",
            "it is not hot enough to harden: a shade brighter, then touch it again",
            not_yet=True,
        ),
        "file test": ShopTest(
            "Draw a sharp file over the steel, beside the edge: pass when it skates.",
            "clean the skin off and try again a little deeper",
            "soft skin or a lost quench: grind a spot clean and try there; if it bites, harden it again",
            mended_by=(Does.QUENCHES,),
        ),
        "ring test": ShopTest(
            "Hang the piece and tap it: pass when it rings clear.",
            "brush the joints and the edge, and look for a dark line or a crack",
            "a dull note is an open joint or a crack: find it before anything else is done",
            mended_by=(Does.JOINS,),
            spoils=True,
        ),
        "weld line": ShopTest(
            "Watch the joint as it cools, then brush it: pass when no line stays dark and none opens.",
            "flux it and look again at the next heat, or etch it when it is clean",
            "the weld is open there: flux, and another welding heat from the middle out",
            mended_by=(Does.JOINS,),
            spoils=True,
        ),
        "etch": ShopTest(
            "Grind the joint clean and etch it: pass when the line is fine, bright and unbroken.",
            "clean it, etch a little longer and look with a glass",
            "black in the line is flux or scale shut in: weld it again or cut it out",
            "Etchant burns eyes and skin and gives off fumes: gloves, goggles, fresh air, and acid into "
            "water, never the other way.",
            mended_by=(Does.JOINS,),
            spoils=True,
        ),
        "crack test": ShopTest(
            "Oil, wipe, chalk: pass when no line of oil comes through by daylight.",
            "grind the line lightly: a scratch goes, a crack goes on",
            "a crack does not close: grind it out while there is metal, or cut it off",
            spoils=True,
        ),
        "bend test": ShopTest(
            "Bend a coupon welded in the same fire a right angle over its own thickness, the weld outside: "
            "pass when it holds.",
            "bend a second one",
            "weld no tool by that fire and flux: find out why first",
            "A coupon can fly when it breaks: eyes and face covered, nobody in line with it.",
        ),
        "flex test": ShopTest(
            "Press the edge over a rod so that it bends a little: pass when it springs back whole.",
            "grind it nearer to its finished thickness and try again",
            "an edge that stays bent is soft and one that chips is hard: temper anew, or harden again",
            "An edge that is too hard breaks out: eyes covered.",
            mended_by=(Does.TEMPERS, Does.QUENCHES),
        ),
        "chop test": ShopTest(
            "A dozen blows across dry hardwood, one of them through a knot: pass when the edge is as it was.",
            "hone it and try again",
            "a rolled edge is soft or too thin, a chipped one hard or too thin: temper or grind by that",
            mended_by=(Does.TEMPERS, Does.QUENCHES),
        ),
        "head test": ShopTest(
            "Swing it from hand to hand and strike the butt on the bench: pass when the head does not move.",
            "strike it home again and look at the wedge",
            "take the haft out and fit it anew: a loose head is not used",
            mended_by=(Does.FITS_A_HAFT,),
        ),
    }
)

#: The same as keys of sizes, for a checkpoint names them like one.
TEST_KEYS: Final[Mapping[str, ShopTest]] = MappingProxyType(
    {name.replace(" ", "_"): test for name, test in SHOP_TESTS.items()}
)


def read_outcome(text: str) -> float:
    """PASS, DOUBT or FAIL from what was typed; raises SizeError with one sentence.

    >>> read_outcome("pass"), read_outcome("2"), read_outcome("F")
    (1.0, 0.5, 0.0)
    """
    typed = text.strip().lower()
    for outcome, words in _WORDS.items():
        if typed in words:
            return outcome
    shown = typed if len(typed) <= _LONGEST_ECHO else typed[:_LONGEST_ECHO] + "…"
    raise SizeError(f"{shown!r} is no outcome of a test: type pass, doubt or fail, or 1, 2 or 3.")


def write_outcome(outcome: float) -> str:
    """The word for an outcome.

    >>> write_outcome(0.5)
    'doubt'
    """
    return _WORDS[min(_WORDS, key=lambda known: abs(known - outcome))][0]
