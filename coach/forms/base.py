"""What every form knows: its dimensions, its volume and surface, its sections and how to settle one size."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from operator import attrgetter
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, ClassVar, Literal, NamedTuple, Self

from coach.forms.roots import NoRoot, monotone_root
from coach.quantities import Figure, Kind, Refusal, Words, mm, run_on
from coach.quantities.errors import did_you_mean

Point = tuple[float, float]
Loop = tuple[Point, ...]
End = Literal["start", "finish"]
Facing = Literal["width", "thickness"]
"""What a zone is seen on: its width in a plan view, its thickness in a side view."""


class FormError(Refusal):
    """A form that cannot be made or settled, told in one plain sentence."""


class CrossSection(NamedTuple):
    """One slice square to the length; loops lie in the (across width, across thickness) plane, in mm.

    Loops are centred on the axis and not closed (the first point is not repeated). A hole that runs out
    through both faces is a loop that ends on the outline. Round outlines are inscribed polygons;
    `area_mm2` is the true area.
    """

    area_mm2: float
    outline: Loop
    holes: tuple[Loop, ...] = ()


class Form(ABC):
    """A solid with named dimensions.

    A subclass is a frozen slotted dataclass whose fields are, in this order: a `<dimension>_mm` for each
    dimension, one text for each of OPTIONS, and `stations` where it is drawn from a list of them.
    """

    __slots__ = ()

    KIND: ClassVar[str]  # trade name: its file's, unless it says another
    SUMMARY: ClassVar[str]  # one plain sentence
    VOLUME: ClassVar[str] = ""  # its volume as a formula, for the guide
    WRITTEN: ClassVar[str] = ""  # how a line says it, where that is not its kind
    #: What others call it, or make of it, with what besides is to be known: told where that is written.
    ALSO_CALLED: ClassVar[Mapping[str, str]] = MappingProxyType({})
    DIMENSIONS: ClassVar[tuple[str, ...]]  # in the order of their fields, in which they are shown
    FALLBACKS: ClassVar[Mapping[str, str]] = MappingProxyType({})  # left unsaid: takes this other size
    OPTIONS: ClassVar[Mapping[str, tuple[str, ...]]] = MappingProxyType({})  # the first is the default
    FREE: ClassVar[str] = "length"  # usually left for the volume to settle
    EVEN: ClassVar[tuple[str, ...]] = ("length",)  # the volume grows in proportion to each of these
    STRAIGHT: ClassVar[tuple[str, ...]] = ()  # in proportion but for a share that stays
    CLOSED: ClassVar[bool] = False  # its bar is closed on itself, and has no ends
    BENT: ClassVar[bool] = False  # its bar is bent, wound or rolled to it, and keeps its section and length
    WALL_FROM: ClassVar[str] = (
        ""  # of a bar closed to it: the size inside, which its free size leaves a wall to
    )
    OPENS_AT_START: ClassVar[bool] = False  # at an end of a piece its start is the free end
    STATIONS: ClassVar[bool]  # drawn from a list of stations
    SHEDS: ClassVar[
        Mapping[str, float]
    ]  # the sizes between two faces: by how much a skin off all changes each

    _places: ClassVar[Mapping[str, int]]  # of its dimensions, in their order
    _read_sizes: ClassVar[Callable[[Any], tuple[float, ...]]]
    _read_choices: ClassVar[Callable[[Any], tuple[object, ...]]]

    if TYPE_CHECKING:
        # Declared for the type checker alone: at run time a dataclass would take a property found here
        # as the default of its own field of that name.
        def __init__(self, *sizes_and_choices: object) -> None: ...

        @property
        def length_mm(self) -> float:
            """The length, mm, along which `section` is asked for; of a ring, its mean circumference."""

    def __init_subclass__(cls, **kwargs: object) -> None:
        super().__init_subclass__(**kwargs)
        cls.KIND = vars(cls).get("KIND", cls.__module__.rpartition(".")[2].replace("_", " "))
        fields = cls.__annotations__
        sizes = [name for name in fields if name.endswith("_mm")]
        cls.DIMENSIONS = tuple(name.removesuffix("_mm") for name in sizes)
        cls._places = {name: place for place, name in enumerate(cls.DIMENSIONS)}
        cls.STATIONS = "stations" in fields
        cls.SHEDS = MappingProxyType({name: by for name in cls.DIMENSIONS if (by := _shed(name))})
        cls._read_sizes = staticmethod(_reader(sizes))
        cls._read_choices = staticmethod(_reader([*cls.OPTIONS, *(["stations"] if cls.STATIONS else [])]))

    @abstractmethod
    def volume_mm3(self) -> float:
        """The metal in the form, mm³."""

    @abstractmethod
    def side_surface_mm2(self) -> float:
        """All faces but the two ends, hole walls included, mm²."""

    @abstractmethod
    def end_area_mm2(self, end: End) -> float:
        """The flat face at one end, mm²; 0 where a closed form has none."""

    @abstractmethod
    def section(self, at_mm: float) -> CrossSection:
        """The slice `at_mm` from the start; FormError outside the length."""

    def landmarks(self) -> tuple[float, ...]:
        """Where it turns between its ends, as shares of its length, so that it is looked at there."""
        return ()

    def unbent(self) -> Form | None:
        """The straight bar that it is bent, turned, rolled, split or headed from; None where it is none."""
        return None

    def curled(self, facing: Facing) -> Loop | None:
        """Its outline from x = 0 on, even about the axis, where it is not drawn straight; None where it is.

        Its first half runs along it and its second half back.
        """
        return None

    def openings(self, facing: Facing) -> tuple[tuple[Loop, tuple[float, ...]], ...]:
        """Holes one behind the other, as they are seen from there, each with the sizes written in it."""
        return ()

    def creases(self, facing: Facing) -> tuple[Loop, ...]:
        """Faces of it, seen from there, whose edges no silhouette shows; drawn as the edge of a hole is."""
        return ()

    def faults(self) -> list[Words]:
        """What makes these sizes impossible together, one plain sentence each."""
        return []

    def checked(self) -> Self:
        """This form; FormError, with all its faults, where its sizes cannot go together."""
        if faults := self.faults():
            raise FormError(run_on(faults, "; "))
        return self

    def sizes_mm(self) -> dict[str, float]:
        """Every dimension and its size, mm, in the order they are shown."""
        cls = type(self)
        return dict(zip(cls.DIMENSIONS, cls._read_sizes(self), strict=True))

    def size_mm(self, dimension: str) -> float:
        """One dimension, mm; FormError when the form has none of that name."""
        if dimension not in self.DIMENSIONS:
            raise FormError(unknown_dimension(type(self), dimension))
        size: float = getattr(self, f"{dimension}_mm")
        return size

    def with_sizes(self, sizes_mm: Mapping[str, float]) -> Self:
        """The same form with some sizes changed, unchecked; FormError for a dimension it does not have."""
        cls = type(self)
        sizes = [*cls._read_sizes(self)]
        for dimension, size in sizes_mm.items():
            place = cls._places.get(dimension)
            if place is None:
                raise FormError(unknown_dimension(cls, dimension))
            sizes[place] = size
        return cls(*sizes, *cls._read_choices(self))

    @classmethod
    def filled(cls, sizes_mm: Mapping[str, float], options: Mapping[str, str]) -> dict[str, float]:
        """The sizes given, mm, and those that fall back on another; unsettled ones stay out."""
        sizes = cls._as_given(sizes_mm, options)
        for dimension in cls.DIMENSIONS:
            source = dimension
            while source not in sizes and source in cls.FALLBACKS:
                source = cls.FALLBACKS[source]
            if source in sizes:
                sizes[dimension] = sizes[source]
        return sizes

    @classmethod
    def _as_given(cls, sizes_mm: Mapping[str, float], options: Mapping[str, str]) -> dict[str, float]:
        """The sizes given, for a form whose choices let one of them stand for another."""
        return dict(sizes_mm)

    def solved(self, dimension: str, volume_mm3: float) -> Self:
        """The form with one dimension settled so that it holds `volume_mm3`, mm³.

        FormError when the volume is not positive, when no size will do, when the dimension does not change
        the volume, or when the settled form has faults (a hole that leaves no wall).
        """
        if dimension not in self.DIMENSIONS:
            raise FormError(unknown_dimension(type(self), dimension))
        if not 0.0 < volume_mm3 < math.inf:
            left = Figure(max(volume_mm3, 0.0), Kind.VOLUME)  # what lacks is no metal, not less than none
            raise FormError("the {} form cannot hold {} of metal", self.KIND, left)
        try:
            size_mm = self._settled_mm(dimension, volume_mm3)
        except ZeroDivisionError:  # a section of nothing holds no metal, however long
            raise self._unsolvable(dimension, volume_mm3) from None
        if not 0.0 < size_mm < math.inf:
            raise self._unsolvable(dimension, volume_mm3)
        return self.with_sizes({dimension: size_mm}).checked()

    def _settled_mm(self, dimension: str, volume_mm3: float) -> float:
        size_mm, held_mm3 = self.size_mm(dimension), self.volume_mm3()
        if dimension in self.EVEN:
            return size_mm * volume_mm3 / held_mm3
        if dimension in self.STRAIGHT:
            more_mm3 = self.with_sizes({dimension: 2 * size_mm}).volume_mm3() - held_mm3
            return size_mm + size_mm * (volume_mm3 - held_mm3) / more_mm3
        return self._size_for(dimension, volume_mm3)

    def _size_for(self, dimension: str, volume_mm3: float) -> float:
        """The size, mm, that gives the volume: a root find, for forms or dimensions with no closed form."""
        try:
            return monotone_root(
                lambda size_mm: self.with_sizes({dimension: size_mm}).volume_mm3(),
                volume_mm3,
                start=self.size_mm(dimension),
            )
        except NoRoot:
            raise self._unsolvable(dimension, volume_mm3) from None

    def _unsolvable(self, dimension: str, volume_mm3: float) -> FormError:
        return FormError(
            "no {} makes this {} form hold {} while its other sizes stay as they are",
            said(dimension),
            self.KIND,
            Figure(volume_mm3, Kind.VOLUME),
        )

    def _share_along(self, at_mm: float) -> float:
        """Where along the length `at_mm` lies, 0 at the start and 1 at the finish."""
        length_mm = self.length_mm
        slack_mm = 1e-9 * length_mm
        if not -slack_mm <= at_mm <= length_mm + slack_mm:
            raise FormError("{} is not on a {} form that is {} long", mm(at_mm), self.KIND, mm(length_mm))
        return min(max(at_mm / length_mm, 0.0), 1.0)


#: What the name of a size between two outer faces ends in, and what that of a hole begins with.
_ACROSS = ("width", "thickness", "diameter", "side", "flats", "tine", "edge", "wall")
_INSIDE = ("hole", "far_hole", "inner", "inside")


def _shed(dimension: str) -> float:
    """How much a size grows with each millimetre that comes off every face: below 0 it shrinks.

    What is left of the metal is thinner by both faces, a hole as much wider; a length, and what is measured
    along the metal, stays as it is but for its ends.
    """
    if dimension.startswith(_INSIDE):
        return 2.0
    return -2.0 if dimension.endswith(_ACROSS) else 0.0


def said(dimension: str) -> str:
    """A dimension as a smith says it: `end_width` is the end width."""
    return dimension.replace("_", " ")


def label(zone: str, dimension: str) -> str:
    """A size as it is spoken of, no word twice; at an end it stays, for the zone has that size at both.

    >>> label("blade", "end_thickness"), label("edge", "edge_angle"), label("struck end", "end_diameter")
    ('blade end thickness', 'edge angle', 'struck end end diameter')
    """
    first, _, rest = said(dimension).partition(" ")
    if rest and first != "end" and zone.rpartition(" ")[2] == first:
        return f"{zone} {rest}"
    return f"{zone} {said(dimension)}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a row as they are spoken.

    >>> listed(["poll", "eye", "bit"])
    'poll, eye and bit'
    """
    row = list(words)
    return row[0] if len(row) == 1 else f"{', '.join(row[:-1])} {last} {row[-1]}"


def unknown_dimension(form: type[Form], dimension: str) -> str:
    """The sentence that a form has no such dimension, with the nearest right word."""
    known = [said(name) for name in form.DIMENSIONS]
    hint = did_you_mean(said(dimension), known, f"it has {', '.join(known)}")
    return f"the {form.KIND} form has no {said(dimension)[:40]}: {hint}"


def rectangle(across_width_mm: float, across_thickness_mm: float) -> Loop:
    """A rectangle centred on the axis, mm."""
    half_width, half_thickness = across_width_mm / 2, across_thickness_mm / 2
    return (
        (-half_width, -half_thickness),
        (half_width, -half_thickness),
        (half_width, half_thickness),
        (-half_width, half_thickness),
    )


def turned_by(loop: Loop, angle_rad: float) -> Loop:
    """An outline turned about the axis."""
    cosine, sine = math.cos(angle_rad), math.sin(angle_rad)
    return tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in loop)


#: An inscribed 72-gon lacks 0.13 % of its circle: finer than any screen or print shows (our choice).
ROUND_FACETS = 72


def circle(diameter_mm: float) -> Loop:
    """A circle centred on the axis as an inscribed polygon, mm."""
    radius = diameter_mm / 2
    return tuple((radius * cosine, radius * sine) for cosine, sine in _UNIT_CIRCLE)


#: The corners of a unit circle drawn with them (our choice).
_UNIT_CIRCLE = tuple(
    (math.cos(2 * math.pi * step / ROUND_FACETS), math.sin(2 * math.pi * step / ROUND_FACETS))
    for step in range(ROUND_FACETS)
)


def _reader(names: Sequence[str]) -> Callable[[Any], tuple[Any, ...]]:
    """A function that reads these attributes as one tuple; attrgetter is several times faster than a loop."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda form: tuple(getattr(form, name) for name in names)
