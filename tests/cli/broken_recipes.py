"""Recipes that the metal cannot follow, each with what is found and what stands at its place in the file."""

from __future__ import annotations

from typing import NamedTuple


class Broken(NamedTuple):
    """One recipe, and the finding that it must give."""

    piece: str  # what its one piece says below its name
    steps: tuple[str, ...]
    what: str  # as `coach check --json` calls it
    at: str  # the text of the file that the line and column lead to
    told: str  # part of the sentence


def text_of(broken: Broken, title: str) -> str:
    """The recipe as it stands in its file."""
    pieces = "\n".join(f"    {line}" for line in broken.piece.splitlines())
    steps = "\n".join(f"  - {step}" for step in broken.steps)
    return f"recipe: {title}\npieces:\n  pin:\n{pieces}\nsteps:\n{steps}\n"


_PIN = "metal: mild steel\nbar: round 12\nsize: round 12 to 6 ±0.5, long 100 ±3"
_STEEL = 'metal: "1084"\nbar: round 12\nsize: round 12 to 6 ±0.5, long 100 ±3'
_KNOB = "metal: mild steel\nbar: square 16\nsize: square 24 ±1, long 100 ±3"
_HARD = "harden: pin, at 800 °C, quench oil"

BROKEN = {
    # A cone of 100 mm from 12 to 6 mm takes 58.3 mm of the bar (π/12·(12²+12·6+6²)·100 over π/4·12²).
    "bar too short": Broken(
        _PIN.replace("round 12\n", "round 12, long 40\n"),
        ("taper: pin",),
        "bar too short",
        "round 12, long 40",
        "40 mm long",
    ),
    "asked and not made": Broken(
        _PIN,
        ("draw: pin, square 8, long 100, 2 heats", "taper: pin"),
        "the metal makes another size",
        "draw: pin",
        "a length of 100 mm",
    ),
    # Forging Industry Association: three thicknesses of bar stand free; 100·24²/16² is 225 mm, five times 48.
    "upset too long": Broken(
        _KNOB, ("upset: pin, 1 heat",), "upset past its length", "upset: pin", "Plan 5 heats"
    ),
    "a rod upset": Broken(
        _KNOB.replace("square 16", "square 8").replace("square 24 ±1", "square 12 ±1"),
        ("upset: pin, 30 heats",),
        "upset past its length",
        "upset: pin",
        "folds wherever it is hottest",
    ),
    "closer than a calliper tells": Broken(
        _PIN.replace("6 ±0.5", "6 ±0.05"), ("taper: pin",), "finer than the hand", "round 12 to 6", "±0.3 mm"
    ),
    # Published tables leave 1084 some 55 HRC at 300 °C in minutes, and 62 only below 200 °C (from memory).
    "a colour that leaves it softer": Broken(
        _STEEL,
        ("taper: pin", _HARD, "temper: pin, at blue, hardness 62 to 64"),
        "not a heat for that hardness",
        "temper: pin",
        "A run to blue",
    ),
    "a heat that leaves it softer": Broken(
        _STEEL,
        ("taper: pin", _HARD, "temper: pin, at 300 °C, hardness 62 to 64"),
        "not a heat for that hardness",
        "temper: pin",
        "300 °C leaves 1084",
    ),
    "burnt": Broken(_PIN, ("taper: pin, at 1500 °C",), "too hot for the metal", "taper: pin", "burn"),
    "tempered soft": Broken(
        _STEEL, ("taper: pin", "temper: pin, at 200 °C"), "out of order", "temper: pin", "nothing to temper"
    ),
    "beside its drawing": Broken(
        _PIN.replace("bar: round 12", "bar: round 10").replace("round 12 to 6", "round 10 to 6"),
        ("taper: pin, round 10 to 8 ±0.5",),
        "ends beside the drawing",
        "taper: pin",
        "end diameter",
    ),
    "steel wider than its seat": Broken(
        "metal: wrought iron\nbar: square 30\nsize: square 30 ±1, long 60 ±8\n",
        ("weld: pin with face, square 30 ±1, 2 heats, at 1300 °C",),
        "steel off its seat",
        "weld: pin",
        "the face is 50",
    ),
}
_FACE = """\
  face:
    metal: C45
    bar: 50 x 12
    size: 50 ±1 x 10 ±0.5, long 50 ±1.5
steps:
  - cut: face, cold
"""


def broken_text(name: str) -> str:
    """The text of one of them."""
    text = text_of(BROKEN[name], name.capitalize())
    if BROKEN[name].what == "steel off its seat":
        return text.replace("steps:\n", _FACE)
    return text
