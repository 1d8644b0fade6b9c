"""What every operation has in common: how it reshapes a zone and accounts for the metal it takes."""

from __future__ import annotations

from abc import ABC
from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import ClassVar, NamedTuple

from coach.forms import Form
from coach.operations.does import Cause, Does, HeatKind, Scope
from coach.operations.shape import NOTHING, Shape
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Kind, Words

#: Rounds of the scale loss, which needs the form it leaves, which needs the loss; after the second the volume
#: of a bar of forging size moves by less than a millionth (computed; our choice).
ROUNDS = 3


class Work(NamedTuple):
    """What one step asks of one zone, in plain numbers."""

    shape: Shape  # the shape it leaves
    sizes_mm: Mapping[str, float]  # every size of that shape but the free one
    free: str  # the dimension the volume settles
    heats: float = 0.0
    face_loss_mm: float = 0.0  # scale taken off every bare face in one heat
    bare_ends: tuple[bool, bool] = (False, False)  # whether the start and the finish end scale too
    amounts: Mapping[str, float] = NOTHING  # what the recipe states, by name with unit
    free_mm: float | None = None  # the free dimension, where the step fixes it by taking metal away
    loss_share: float = 0.0  # extra loss that the recipe states, any of these three
    loss_mm3: float = 0.0
    loss_length_mm: float = 0.0
    cuts: int = 1  # along the zone, where it is split


class Worked(NamedTuple):
    """What a step leaves of a zone."""

    form: Form
    volume_mm3: float
    taken_mm3: Mapping[Cause, float]


def bare_surface_mm2(form: Form, work: Work) -> float:
    """The faces that scale: the sides and hole walls, and the ends that are free."""
    surface = form.side_surface_mm2()
    if work.bare_ends[0]:
        surface += form.end_area_mm2("start")
    if work.bare_ends[1]:
        surface += form.end_area_mm2("finish")
    return surface


class Operation(ABC):
    """One operation in the trade's words; a subclass in its own file declares what differs.

    The metal account is always V' = V - taken - scale. Scale is the number of heats, times the loss per
    face in a heat, times the mean of the bare surface before and after the step.
    """

    NAME: ClassVar[str]  # its file's, unless it says another
    SUMMARY: ClassVar[str]
    ALSO_CALLED: ClassVar[tuple[str, ...]] = ()  # by other shops: told where one of these is written for it
    ACCOUNT: ClassVar[str] = ""  # for the guide: what it takes besides scale, or what else is to be known
    DOES: ClassVar[frozenset[Does]] = frozenset()
    SCOPE: ClassVar[Scope] = Scope.ZONE
    FORM: ClassVar[str | None] = None  # the form it leaves unless the recipe says; None keeps the form
    FREE: ClassVar[str | None] = None  # None takes the form's usual free dimension
    RESHAPES: ClassVar[bool] = True  # False for steps that move no metal on purpose
    DRAWN: ClassVar[bool] = True  # False where a step without a size does not ask for the drawing's
    LIGHT: ClassVar[bool] = False  # True where light blows go on until not one may fall
    KEEPS_SECTION: ClassVar[str] = (
        ""  # why the bar's section stays as it was where it bends, turns or parts it
    )
    KEEPS_FORM: ClassVar[bool] = False  # True where it takes away from a zone and makes no other form of it
    FIXES: ClassVar[bool] = False  # True where a stated free dimension is reached by taking metal away
    GATHERS: ClassVar[bool] = False  # True where it can make a section bigger than it found it
    #: The usual bite as a share of the width (common practice, no source); None where it thins by no bites.
    BITE_SHARE: ClassVar[float | None] = None
    RUNS: ClassVar[bool] = False  # True where sizes that nobody asks for run as the zone is thinned
    #: The heats that it is planned with where the recipe names none (common practice, no source).
    HEATS: ClassVar[int] = 1
    HEAT_KIND: ClassVar[HeatKind] = HeatKind.FORGING
    GAUGE: ClassVar[str] = "calliper"
    #: Measured, but not a size of a form: name -> what it is, one of those in `coach.operations.measures`.
    EXTRAS: ClassVar[Mapping[str, Kind]] = {}
    #: Of those, which the work makes more of as it goes (True), and which less (False).
    GROWS: ClassVar[Mapping[str, bool]] = {}
    #: The heats that a recipe may tell apart by name, in the order they are usually taken.
    HEAT_NAMES: ClassVar[tuple[str, ...]] = ()
    AMOUNTS: ClassVar[Mapping[str, Kind]] = {}  # what a recipe may state: name -> length or share
    CAUTION: ClassVar[str] = ""  # what no row of hazards.toml says
    HAZARDS: ClassVar[
        tuple[str, ...]
    ] = ()  # rows of hazards.toml, besides those that find it by what it does
    UNDONE_BY_FIRE: ClassVar[bool] = False  # True where a later heat spoils it, so that it is done again
    #: Standard uncertainty of what it takes besides scale, as a share of that (common practice, no source).
    TAKEN_DOUBT_SHARE: ClassVar[float] = 0.3
    #: What must be done before the job may rest: a temper after a quench. None where it may.
    UNSAFE_UNTIL: ClassVar[Does | None] = None
    UNSAFE_WHY: ClassVar[str] = ""  # why that is so
    #: The same of one of its named heats: after which the job may not rest, and why.
    UNSAFE_HEATS: ClassVar[Mapping[str, str]] = {}
    TRIED_ON: ClassVar[bool] = False  # whether its line may name what the zone is tried on: fit: pin to eye
    #: The operation that does it once more, where it cannot itself be done twice.
    AGAIN_BY: ClassVar[str | None] = None
    AGAIN_HEATS: ClassVar[int | None] = None  # when it is done once more; None takes the step's own
    AGAIN_AFTER: ClassVar[Does | None] = None  # what is done once more before it
    AGAIN_CAUTION: ClassVar[str] = ""
    AFTER_OUT: ClassVar[Mapping[str, Words]] = MappingProxyType({})  # what is done about an extra that is out
    #: The same where it is over the most that is wanted, and where it is under the least.
    AFTER_OVER: ClassVar[Mapping[str, Words]] = MappingProxyType({})
    AFTER_UNDER: ClassVar[Mapping[str, Words]] = MappingProxyType({})
    COOLS_BURIED: ClassVar[bool] = False  # True where it is left to cool in ash, lime or the fire
    #: What to see to before the fire of a step that undoes it.
    BEFORE_FIRE: ClassVar[str] = ""

    def hazards(self, amounts: Collection[str], *, hot: bool) -> tuple[str, ...]:
        """The rows of hazards.toml that it names, hot or cold, where a recipe states these amounts."""
        return self.HAZARDS

    def __init_subclass__(cls) -> None:
        cls.NAME = vars(cls).get("NAME", cls.__module__.rpartition(".")[2].replace("_", " "))

    @property
    def to_drawing(self) -> bool:
        """Whether a step that says no size works to those of the drawing."""
        return self.RESHAPES and self.DRAWN and self.SCOPE is Scope.ZONE

    @classmethod
    def kind_of(cls, dimension: str) -> Kind | None:
        """What is measured under a name that is no size of a form; None when nothing is.

        Every operation's work can be put to the tests of the shop.
        """
        return cls.EXTRAS.get(dimension) or (Kind.TEST if dimension in SHOP_TESTS else None)

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """Metal this operation itself takes, by cause, besides scale and what the recipe states."""
        return {}

    def scaling_surface_mm2(self, before: Form, after: Form, work: Work) -> float:
        """The bare surface that one heat of this operation scales."""
        return 0.5 * (bare_surface_mm2(before, work) + bare_surface_mm2(after, work))

    def scales(self, form: type[Form], amounts: Collection[str]) -> bool:
        """Whether its heats take scale off all of a zone of that form, where a recipe states such amounts."""
        return True

    def surplus_mm3(self, before: Form, volume_mm3: float, work: Work) -> float:
        """Metal beyond what a fixing operation must find before it; only asked where FIXES is true."""
        raise TypeError(f"{self.NAME} does not fix a dimension")

    def layers_times(self, before: Form, after: Form) -> int:
        """How many times as many layers lie in the zone after it."""
        return 1

    def branch(self, shape: Shape) -> Shape | None:
        """The shape of each branch that one of this shape is cut into along its length; None for none."""
        return None

    def know(self, before: Form, after: Form) -> Iterable[Words]:
        """What a smith wants to know of the work, from the solid before it and the one it is to leave."""
        return ()

    def know_cuts(self, before: Form, shares: Mapping[str, float]) -> Iterable[Words]:
        """Where it cuts a zone along its length into others, with the share of the metal of each."""
        return ()

    def work(self, before: Form, volume_mm3: float, work: Work) -> Worked:
        """Carry out one step on a zone.

        Args:
            before: the zone's solid before the step.
            volume_mm3: its volume, with whatever a join lays on it.
            work: the sizes asked for and the losses.

        Raises:
            FormError: the volume left cannot make the shape asked for.
        """
        taken = self.taken_mm3(before, volume_mm3, work)
        stated = stated_loss_mm3(before, volume_mm3, work)
        if stated:
            taken[Cause.STATED] = stated
        left = volume_mm3 - sum(taken.values())
        draft = work.shape.draft({**work.sizes_mm, work.free: before.sizes_mm().get(work.free, 1.0)})
        form = draft.solved(work.free, left)
        scale_mm = work.heats * work.face_loss_mm
        if scale_mm == 0.0:
            return Worked(form, left, taken)
        for _ in range(ROUNDS):
            scale = scale_mm * self.scaling_surface_mm2(before, form, work)
            form = form.solved(work.free, left - scale)
        taken[Cause.SCALE] = scale
        return Worked(form, left - scale, taken)


def stated_loss_mm3(before: Form, volume_mm3: float, work: Work) -> float:
    """The extra loss that the recipe states for a step, as a volume."""
    lost = volume_mm3 * work.loss_share + work.loss_mm3
    if work.loss_length_mm:
        lost += end_mm3(before, work.loss_length_mm)
    return lost


def end_mm3(form: Form, long_mm: float) -> float:
    """What stands in so much of a form's end, mm³: its section there, at its middle and where it ends.

    Simpson's rule, exact where the area is at most cubic along it (Kern & Bland, Solid Mensuration, 1938,
    from memory), as in a bar and a taper. Of what has no flat end nothing is taken off.
    """
    last_mm2 = form.end_area_mm2("finish")
    if not last_mm2 or long_mm >= form.length_mm or form.length_mm != form.sizes_mm().get("length"):
        return long_mm * last_mm2
    begins_mm = form.length_mm - long_mm
    first_mm2, middle_mm2 = (form.section(at).area_mm2 for at in (begins_mm, begins_mm + 0.5 * long_mm))
    return long_mm / 6.0 * (first_mm2 + 4.0 * middle_mm2 + last_mm2)
