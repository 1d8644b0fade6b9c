"""The tools of the study: what is drawn, in which order it is made, and the recipe as a smith writes it."""

from __future__ import annotations

from typing import NamedTuple


class Size(NamedTuple):
    """A size of the drawing or of a step, mm."""

    name: str
    aim: float
    limit: float  # ± this

    @property
    def low(self) -> float:
        """The least allowed."""
        return self.aim - self.limit

    @property
    def high(self) -> float:
        """The most allowed."""
        return self.aim + self.limit

    def holds(self, size_mm: float) -> bool:
        """Whether a size is inside."""
        return self.low <= size_mm <= self.high

    def __str__(self) -> str:
        return f"{self.aim:g} ±{self.limit:g}"


class Draw(NamedTuple):
    """A zone forged to a section, its length left to the metal."""

    zone: str
    sizes: tuple[Size, ...]
    heats: int

    @property
    def line(self) -> str:
        """The step in the recipe."""
        verb = "taper" if len(self.sizes) > 1 and "end_" in self.sizes[-1].name else "draw"
        names = ", ".join(size.name.replace("_", " ") for size in self.sizes)
        work = f"{self.zone}, {section(self.sizes)}, {self.heats} heats"
        return f"  - {verb}: {work}\n    check: {names}, length\n"


class Cut(NamedTuple):
    """A zone cut off its bar, cold."""

    zone: str

    @property
    def line(self) -> str:
        """The step in the recipe."""
        return f"  - cut: {self.zone}, cold\n    check: length\n"


class Tool(NamedTuple):
    """One tool: its bar, its zones along it, and how they are worked."""

    name: str
    bar: str  # in the words of a recipe
    bar_sizes: tuple[float, ...]  # side or diameter; width and thickness
    drawing: dict[str, tuple[Size, ...]]  # each zone's sizes, its length last
    steps: tuple[Draw | Cut, ...]

    @property
    def cut_first(self) -> Tool:
        """The same, cut off its bar before it is forged: so it can be weighed."""
        return self._replace(steps=tuple(sorted(self.steps, key=lambda step: isinstance(step, Draw))))

    def text(self, ease: float) -> str:
        """The recipe, the limits of its lengths times `ease`."""
        lines = [
            f"recipe: {self.name}\n",
            "scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm}\n",
            f"pieces:\n  {self.name}:\n    metal: mild steel\n    bar: {self.bar}, long 900\n    zones:\n",
        ]
        for zone, sizes in self.eased(ease).items():
            lines.append(f"      {zone}: {section(sizes[:-1])}, long {sizes[-1]}\n")
        marks = ", ".join(f"{zone}.mark" for zone in list(self.drawing)[:-1])
        lines.append(f"steps:\n  - mark out: {self.name}\n    check: {marks}\n")
        return "".join([*lines, *(step.line for step in self.steps)])

    def eased(self, ease: float) -> dict[str, tuple[Size, ...]]:
        """The drawing, the limits of its lengths times `ease`."""
        return {
            zone: (*sizes[:-1], sizes[-1]._replace(limit=round(sizes[-1].limit * ease, 2)))
            for zone, sizes in self.drawing.items()
        }


def section(sizes: tuple[Size, ...]) -> str:
    """A section in the words of a recipe."""
    by_name = {size.name: str(size) for size in sizes}
    if "side" in by_name:
        return f"square {by_name['side']}"
    if "end_diameter" in by_name:
        return f"round {by_name['diameter']} to {by_name['end_diameter']}"
    if "diameter" in by_name:
        return f"round {by_name['diameter']}"
    near = f"{by_name['width']} x {by_name['thickness']}"
    return (
        f"{near} to {by_name['end_width']} x {by_name['end_thickness']}" if "end_width" in by_name else near
    )


def _flat(wide: float, thick: float, wide_limit: float = 0.8, thick_limit: float = 0.5) -> tuple[Size, ...]:
    return Size("width", wide, wide_limit), Size("thickness", thick, thick_limit)


def _taper(near: tuple[float, float], far: tuple[float, float]) -> tuple[Size, ...]:
    return (
        *_flat(*near),
        Size("end_width", far[0], 0.8),
        Size("end_thickness", far[1], 0.4),
    )


def _long(aim: float, limit: float) -> Size:
    return Size("length", aim, limit)


_TONGUE = _taper((26.0, 8.0), (14.0, 4.0))
_LATCH = Tool(
    "latch",
    "30 x 10",
    (30.0, 10.0),
    {
        "tongue": (*_TONGUE, _long(90.0, 4.0)),
        "plate": (*_flat(26.0, 8.0), _long(130.0, 5.0)),
        "stop": (*_flat(30.0, 10.0, 1.5, 0.8), _long(25.0, 2.5)),
    },
    (Draw("plate", _flat(26.0, 8.0), 2), Draw("tongue", _TONGUE, 3), Cut("stop")),
)

_ROD = (Size("diameter", 12.0, 0.5),)
_POINT = (Size("diameter", 12.0, 0.6), Size("end_diameter", 4.0, 0.6))
_TOMMY = Tool(
    "tommy",
    "round 18",
    (18.0,),
    {
        "point": (*_POINT, _long(70.0, 4.0)),
        "rod": (*_ROD, _long(180.0, 7.0)),
        "knob": (Size("diameter", 18.0, 0.8), _long(20.0, 2.5)),
    },
    (
        Draw("rod", (Size("diameter", 14.5, 0.8),), 3),
        Draw("rod", _ROD, 2),
        Draw("point", _POINT, 2),
        Cut("knob"),
    ),
)

_NECK, _TAIL = (Size("side", 13.0, 0.5),), (Size("side", 9.0, 0.5),)
_STAKE = Tool(
    "stake",
    "square 20",
    (20.0, 20.0),
    {
        "tail": (*_TAIL, _long(110.0, 6.0)),
        "neck": (*_NECK, _long(90.0, 5.0)),
        "head": (Size("side", 20.0, 0.9), _long(40.0, 3.0)),
    },
    (
        Draw("tail", (Size("side", 14.0, 0.8),), 2),
        Draw("neck", _NECK, 3),
        Draw("tail", _TAIL, 3),
        Cut("head"),
    ),
)

_LEAF = _taper((36.0, 5.0), (20.0, 3.0))
_HINGE = Tool(
    "hinge",
    "40 x 8",
    (40.0, 8.0),
    {
        "leaf": (*_LEAF, _long(140.0, 7.0)),
        "strap": (*_flat(36.0, 5.0), _long(160.0, 8.0)),
        "root": (*_flat(38.0, 7.0), _long(60.0, 4.0)),
        "lug": (*_flat(40.0, 8.0, 1.8, 0.7), _long(30.0, 3.0)),
    },
    (
        Draw("strap", _flat(37.0, 6.3, 1.0, 0.6), 2),
        Draw("strap", _flat(36.0, 5.0), 3),
        Draw("root", _flat(38.0, 7.0), 1),
        Draw("leaf", _LEAF, 4),
        Cut("lug"),
    ),
)

TOOLS = (_LATCH, _TOMMY, _STAKE, _HINGE)
#: How wide the limits of the lengths are, as a share of those written above: from too narrow to ample.
EASES = (0.35, 0.7, 1.0, 1.6)
