"""What a question to the reckoner may be refused for; the text of each is one plain sentence."""

from __future__ import annotations

from typing import Final

from coach.bench.reckon_typed import NotReckoned
from coach.finish.edge import FinishError
from coach.fire.blows import CannotReckon
from coach.fire.colours import UnknownColour
from coach.fire.cooling import ImpossibleHeat
from coach.fire.flow_stress import NotCovered
from coach.fire.glow import OutOfRange as NoGlow
from coach.fire.limits import NothingToHeat
from coach.fire.passes import Undrawable
from coach.fire.spreading import OutOfReach
from coach.metals.diffusion import NoProfile, OutOfField
from coach.metals.elongation import OutOfRange
from coach.metals.grade import GradeFaults, UnknownGrade
from coach.metals.hardening import CannotHarden
from coach.metals.hardness import HardnessError
from coach.metals.skin import NoSkin
from coach.metals.solidus import NoSolidus
from coach.metals.tempering import TemperingError
from coach.metals.transformation import NotAComposition
from coach.metals.wanted_hardness import UnknownPart
from coach.quantities import SizeError

REFUSALS: Final = (
    CannotHarden,
    CannotReckon,
    FinishError,
    GradeFaults,
    HardnessError,
    ImpossibleHeat,
    NoGlow,
    NoProfile,
    NoSkin,
    NoSolidus,
    NotAComposition,
    NotCovered,
    NotReckoned,
    NothingToHeat,
    OutOfField,
    OutOfRange,
    OutOfReach,
    SizeError,
    TemperingError,
    Undrawable,
    UnknownColour,
    UnknownGrade,
    UnknownPart,
)
