"""What operations are in the trade: whoever needs to know asks for this, and never for a name."""

from __future__ import annotations

from enum import Enum, StrEnum, auto


class Does(Enum):
    """One thing that an operation does, or asks for, beyond moving metal."""

    __hash__ = object.__hash__  # each is one of a kind: its name need not be hashed at every question

    MARKS_OUT = auto()  # sets where the zones of a cold bar begin
    CUTS_FREE = auto()  # cuts to length, and what is beyond leaves the piece
    PUNCHES = auto()  # makes a hole, whose middle is marked on the bar
    PIERCES = auto()  # makes a row of small holes, laid out on the worked bar
    GROOVES = auto()  # opens a groove or the cleft that steel is laid in
    BENDS = auto()  # turns the bar's line
    ON_EDGE = auto()  # it is the width that lies along the radius, and not the thickness
    BEVELS = auto()  # forges an edge thin, which curves the bar
    HAMMERS_A_SECTION = auto()  # its blows and heats follow from how far it goes
    JOINS = auto()  # makes two metals one solid
    CLOSES = auto()  # welds a zone to itself
    PARTS = auto()  # cuts a zone along its length, into zones of their own where the recipe names them
    FASTENS = auto()  # holds pieces together that stay what they are
    NORMALISES = auto()
    QUENCHES = auto()  # hardens; a recipe may say what in
    TEMPERS = auto()
    WORKS_AN_EDGE = auto()  # takes metal off beside the edge
    FITS_A_HAFT = auto()
    BRIGHT_WORK = auto()  # begins with clean faces, that must not rust before it


class Scope(StrEnum):
    """What one step of an operation goes over."""

    ZONE = "zone"
    PIECE = "piece"  # all zones of it
    JOIN = "join"  # a zone and the zone laid on it


class Cause(StrEnum):
    """What metal leaves a piece by."""

    SCALE = "scale"
    SLUG = "slug"  # of a punch
    KERF = "kerf"  # of a saw
    OFFCUT = "offcut"  # beyond a cut
    SQUEEZE = "squeeze"  # out of a joint, and burnt there
    GROUND = "ground"
    STATED = "stated"  # by the recipe, whatever it is


class HeatKind(StrEnum):
    """What a heat is taken for, which says how hot and how long it usually is."""

    FORGING = "forging"
    WELDING = "welding"
    TREATMENT = "treatment"
    COLD = "cold"


#: The kinds of which a smith takes as many as the work needs; a treatment takes those that it asks for.
AT_THE_HAMMER = (HeatKind.FORGING, HeatKind.WELDING)
