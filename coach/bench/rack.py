"""The shop's rack: the bars and offcuts that lie there, what was cut off them, and for which job."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import NamedTuple

from coach.bench.bar_there import read_bar_there, section_of
from coach.bench.entering import EntryFault
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.errors import LogDamaged, NoSuchJob
from coach.log.jobs import Log
from coach.log.kinds.brought_back import BroughtBack
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.rack_bar import RackBar
from coach.log.kinds.rack_cut import RackCut
from coach.log.kinds.rack_cut_anew import RackCutAnew
from coach.log.kinds.rack_gone import RackGone
from coach.log.kinds.set_aside import SetAside
from coach.log.kinds.struck import Struck
from coach.log.names import JOB_NAMES, as_kept, is_job_name
from coach.metals.grade import grade
from coach.quantities.errors import did_you_mean
from coach.quantities.figure import Figure, grams, mm
from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.quantities.words import Words, say
from coach.recipe.model import Recipe
from coach.reckoner.asking.reading import TypedBar

#: What is shorter is a crop of the saw and no bar (judgement).
_LEAST_KEPT_MM = 5.0
_MOST_NAMED = 3
#: A bar that is laid on the rack by its weight is as long as that makes it, so nearly (judgement).
_BY_WEIGHT_SHARE = 0.03


class TakenOff(NamedTuple):
    """A length that a job has taken of a bar since it was last measured."""

    job: str
    length: Figure
    entry: int  # the number of its entry


class LyingBar(NamedTuple):
    """A bar on the rack as it is now."""

    name: str
    section: Words  # `hexagon 19 mm`
    form: str  # square, flat, round and so on
    sizes: tuple[Figure, ...]  # of its section, the greatest first
    metal: str  # its grade
    length: Figure  # what is left of it
    mass: Figure | None  # of that; None where its grade is known no more
    by_weight: bool  # whether it was weighed, and its length reckoned from that
    cuts: tuple[TakenOff, ...]
    entry: int  # the number of the entry that says how it was last measured
    laid_as: str = ""  # the grade that it was laid as, where a job found it to be another; "" for none
    found_by: str = ""  # that job

    @property
    def alike(self) -> str:
        """What bars have in common that are one as good as another for a piece."""
        return f"{self.metal} {self.form} {' '.join(f'{one.value:.3f}' for one in self.sizes)}"


class RackEntry(NamedTuple):
    """One entry of the rack, for a list of them."""

    number: int
    at: str  # ISO 8601, UTC
    words: Words
    struck: bool  # whether it counts no more


class RackTold(NamedTuple):
    """What was entered for the rack."""

    did: Words
    entry: int  # its number


class Rack(NamedTuple):
    """The bars that lie there, in the order they were laid, and how far its entries go."""

    bars: tuple[LyingBar, ...] = ()
    last: int = 0  # the number of its last entry; 0 for none
    not_followed: tuple[str, ...] = ()  # jobs of which is told what they were to take, and not what they took

    def named(self, name: str) -> LyingBar:
        """The bar of that name; raises EntryFault."""
        wanted = as_kept(name)
        for bar in self.bars:
            if bar.name == wanted:
                return bar
        if not self.bars:
            raise EntryFault("The rack is empty: lay a bar on it, such as {}.", _SUCH_AS)
        names = [bar.name for bar in self.bars]
        hint = did_you_mean(wanted, names, f"there are {', '.join(names[:8])}.")
        raise EntryFault("No bar on the rack is called {}: {}", repr(name[:40]), hint)


class Suits(NamedTuple):
    """How a bar of the rack suits a piece of a recipe."""

    piece: str  # as the recipe calls it
    bar: str  # its name
    section: Words
    metal: str  # its grade
    needed: Figure | None  # of this bar, the kerf with it; None where it cannot be reckoned
    left: Figure | None  # of the bar afterwards
    heats: int  # that the recipe takes from it; 0 where it cannot be reckoned
    cannot: Words  # why it is no bar for that; nothing where it is one


class RackCuts(NamedTuple):
    """What a job is to take off the rack."""

    rack: Rack  # as it was when the bars were chosen
    lengths: tuple[tuple[str, float], ...]  # the bar, and how much of it in mm

    def of(self, job: str) -> tuple[int, list[RackCut]] | None:
        """The entries for that job, behind the last one of the rack; None where it takes nothing off it."""
        cuts = [RackCut(name=bar, length_mm=length_mm, job=job) for bar, length_mm in self.lengths]
        return (self.rack.last, cuts) if cuts else None


NO_CUTS = RackCuts(Rack(), ())
"""Of a job whose bar is not from the rack."""

#: How much more than it was to take a job has taken of a bar of a form, sizes and grade since, mm; None where
#: that cannot be told. The number is 0, or of the entry of the job that a piece was cut anew by.
Beyond = Callable[[str, LyingBar, int], float | None]
#: The grade that a job found the steel of such a bar to be; "" for none, and where it cannot be told.
Found = Callable[[str, LyingBar], str]


def _as_it_was(_: str, __: LyingBar) -> str:
    return ""


_SUCH_AS = '`coach rack long-one "hexagon 19, long 500, C80"`'


class RackOfShop:
    """The rack that a log keeps beside its jobs; raises LogError for what a disk can do."""

    def __init__(self, log: Log, now: Callable[[], str], beyond: Beyond, found: Found = _as_it_was) -> None:
        """`now` tells the moment of an entry: ISO 8601, UTC; `beyond` what a job took beside its plan."""
        self._log, self._now, self._beyond, self._found = log, now, beyond, found

    def now(self, *, as_planned: bool = False) -> Rack:
        """What lies there; `as_planned` each job took of it what it was to take, which is soon told."""
        entries = self._log.rack()
        not_followed: dict[str, None] = {}

        def beyond(job: str, bar: LyingBar, way: int) -> float:
            more_mm = 0.0 if as_planned else self._beyond(job, bar, way)
            if more_mm is None:
                not_followed[job] = None
            return more_mm or 0.0

        found = _as_it_was if as_planned else self._found
        return Rack(_bars(entries, self._is_taken, beyond, found), len(entries), tuple(not_followed))

    def if_taken(self, job: str, taken: Callable[[LyingBar, int], float]) -> tuple[LyingBar, ...]:
        """What would lie there if a job took so much beside its plan of such a bar."""

        def beyond(one: str, bar: LyingBar, way: int) -> float:
            return taken(bar, way) if one == job else self._beyond(one, bar, way) or 0.0

        return _bars(self._log.rack(), self._is_taken, beyond, self._found)

    def is_cut_for(self, job: str) -> bool:
        """Whether anything was cut off the rack for a job."""
        return any(isinstance(one.body, RackCut) and one.body.job == job for one in self._log.rack())

    def history(self) -> tuple[RackEntry, ...]:
        """Every entry, those struck out included."""
        entries = self._log.rack()
        counting = _counting(entries)
        return tuple(
            RackEntry(one.number, one.at, one.body.words(), one.number not in counting) for one in entries
        )

    def lay(self, name: str, typed: str, system: System) -> RackTold:
        """Lay a bar on the rack, or say how one that lies there measures now; raises a Refusal."""
        kept = _name(name)
        rack = self.now()
        was = next((bar for bar in rack.bars if bar.name == kept), None)
        body = rack_bar(kept, typed, system, was)
        entry = self._enter(rack, body)
        bar = self.now().named(kept)
        did = "corrected on the rack: {}, {} {}, {} long" if was else "on the rack: {}, {} {}, {} long"
        return RackTold(say(did, kept, bar.metal, bar.section, length_words(bar)), entry)

    def take_off(self, name: str) -> RackTold:
        """Say that a bar lies there no more; raises EntryFault."""
        rack = self.now()
        bar = rack.named(name)
        entry = self._enter(rack, RackGone(name=bar.name))
        return RackTold(say("off the rack: {}", bar.name), entry)

    def strike(self, number: int) -> RackTold:
        """Strike an entry out; striking a strike brings back what it struck. Raises EntryFault."""
        entries = self._log.rack()
        if not 1 <= number <= len(entries):
            most = f"they are numbered 1 to {len(entries)}" if entries else "it has none yet"
            raise EntryFault(f"The rack has no entry {number}: {most}.")
        if number not in _counting(entries):
            raise EntryFault(f"Entry {number} of the rack is struck out already.")
        struck = entries[number - 1].body
        if isinstance(struck, RackCutAnew) and self._is_taken(struck):
            raise EntryFault(
                f"Entry {number} is what another piece of {struck.job} was cut from: strike that way back "
                f"out there, and the bar is whole again."
            )
        if isinstance(struck, RackCut) and self._is_taken(struck):
            raise EntryFault(
                f"Entry {number} is what {struck.job} was begun from: set that job aside before its first "
                f"heat, and the bar is whole again."
            )
        rack = Rack(last=len(entries))
        return RackTold(say("Entry {} of the rack is struck out", number), self._enter(rack, Struck(number)))

    def undo(self) -> RackTold:
        """Strike out the last entry that counts, of those that were entered by hand. Raises EntryFault."""
        entries = self._log.rack()
        counting = _counting(entries)
        for one in reversed(entries):
            if one.number in counting and isinstance(one.body, RackBar | RackGone):
                told = self.strike(one.number)
                return told._replace(did=say("taken back: {}", one.body.words()))
        raise EntryFault("There is nothing to take back: nothing was entered for the rack.")

    def _enter(self, rack: Rack, body: Body) -> int:
        return self._log.add_to_rack(rack.last, self._now(), [body])[0].number

    def cut_anew(self, bar: str, length_mm: float, job: str, way: int) -> None:
        """Take what another piece is made of off a bar, for as long as that entry of the job counts."""
        last = Rack(last=len(self._log.rack()))
        self._enter(last, RackCutAnew(name=bar, length_mm=length_mm, job=job, way=way))

    def _is_taken(self, cut: RackCut) -> bool:
        """Whether what was cut for a job is off its bar: not where it was set aside before any work on it."""
        try:
            entries = self._log.entries(cut.job)
        except NoSuchJob:
            return True
        except LogDamaged:
            return True
        counting = _counting(entries)
        if isinstance(cut, RackCutAnew):
            return cut.way in counting
        bodies = [one.body for one in entries if one.number in counting]
        if any(one.MOVES_METAL or isinstance(one, Done | BackInFire) for one in bodies):
            return True
        laid = [one for one in bodies if isinstance(one, SetAside | BroughtBack)]
        return not (laid and isinstance(laid[-1], SetAside))


def rack_bar(name: str, typed: str, system: System, was: LyingBar | None = None) -> RackBar:
    """A bar as it was typed, what is not told of it as it was before; raises a Refusal."""
    there = read_bar_there(typed, system, was.metal if was else "")
    _, _, more = there.section.partition(", ")
    if more:
        grade(more)  # what is neither section nor length nor weight is meant for a grade, and is none
        raise EntryFault("{} has two sections: a bar of the rack has one all along.", repr(typed[:40]))
    section = section_of(there, system) if there.section or was is None else _section(was)
    metal = there.metal or (was.metal if was else "")
    if not metal:
        raise EntryFault("Say the grade of the bar too, such as {}.", _SUCH_AS)
    length_mm = there.length_mm
    if length_mm is None:
        raise EntryFault("Say how long the bar is, or what it weighs: such as {}, or 350 g.", "long 500")
    return RackBar(
        name=name,
        typed=typed.strip(),
        form=section.kind,
        width_mm=section.width_mm,
        thickness_mm=section.thickness_mm,
        metal=grade(metal).name,
        length_mm=length_mm,
        mass_g=there.mass_g,
    )


def length_words(bar: LyingBar) -> Words:
    """How long a bar is: as measured, or about so much where it was weighed."""
    return say("{:~}" if bar.by_weight else "{:=}", bar.length)


def what_lies_there(rack: Rack, recipe: Recipe) -> str:
    """A sentence about the bars there that are of a grade which a recipe wants; "" where there is none."""
    wanted = {grade(piece.metal).name for piece in recipe.pieces.values() if piece.metal}
    names = [bar.name for bar in rack.bars if bar.metal in wanted]
    if not names:
        return ""
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return f"Of its grade there lies on the rack: {', '.join(names[:_MOST_NAMED])}{more}."


def as_typed(bar: LyingBar) -> str:
    """A bar in the words of a recipe, with its units: what `--bar` takes."""
    sizes = " x ".join(f"{one.value:g} mm" for one in bar.sizes)
    section = sizes if len(bar.sizes) > 1 else f"{bar.form} {sizes}"
    return f"{section}, long {bar.length.value:.1f} mm, {bar.metal}"


def _section(bar: LyingBar) -> TypedBar:
    return TypedBar(bar.form, tuple(one.value for one in bar.sizes))


def _name(name: str) -> str:
    kept = as_kept(name)
    if not is_job_name(kept):
        raise EntryFault("{} cannot be a bar's name: it takes {}.", repr(name[:40]), JOB_NAMES)
    return kept


def _counting(entries: Sequence[Entry]) -> frozenset[int]:
    """The numbers of the entries that are not struck out."""
    struck: set[int] = set()
    for one in reversed(entries):
        if isinstance(one.body, Struck) and one.number not in struck:
            struck.add(one.body.entry)
    return frozenset(one.number for one in entries) - struck


def _bars(
    entries: Sequence[Entry],
    is_taken: Callable[[RackCut], bool],
    beyond: Callable[[str, LyingBar, int], float],
    proved: Found,
) -> tuple[LyingBar, ...]:
    """What the entries lead to; what is left of a bar and is no bar any more lies there no more."""
    counting = _counting(entries)
    found: dict[str, LyingBar] = {}
    told: set[tuple[str, str, int]] = set()  # what a job took beside its plan is of one of its bars alike
    for one in entries:
        body = one.body
        if one.number not in counting:
            continue
        if isinstance(body, RackBar):
            found[body.name] = _lying(body, one.number)
        elif isinstance(body, RackGone):
            found.pop(body.name, None)
        elif isinstance(body, RackCut) and body.name in found and is_taken(body):
            way = body.way if isinstance(body, RackCutAnew) else 0
            bar, alike = found[body.name], (body.job, found[body.name].alike, way)
            more_mm = 0.0 if alike in told else beyond(body.job, bar, way)
            told |= {alike}
            left, metal = _cut(bar, body.length_mm + more_mm, body.job, one.number), proved(body.job, bar)
            found[body.name] = _found_to_be(left, metal, body.job)
    return tuple(bar for bar in found.values() if bar.length.value >= _LEAST_KEPT_MM)


def _lying(body: RackBar, number: int) -> LyingBar:
    both = (body.width_mm, body.thickness_mm)
    sizes = both if body.form == "flat" else both[:1]
    section = TypedBar(body.form, sizes)
    doubt_mm = body.length_mm * _BY_WEIGHT_SHARE if body.mass_g is not None else 0.0
    return _weighed(
        LyingBar(
            name=body.name,
            section=section.words,
            form=body.form,
            sizes=tuple(map(mm, sizes)),
            metal=body.metal,
            length=mm(body.length_mm, doubt_mm),
            mass=None,
            by_weight=body.mass_g is not None,
            cuts=(),
            entry=number,
        )
    )


def _cut(bar: LyingBar, cut_mm: float, job: str, number: int) -> LyingBar:
    left = bar.length._replace(value=max(bar.length.value - cut_mm, 0.0))
    off = TakenOff(job, mm(max(cut_mm, 0.0)), number)
    return _weighed(bar._replace(length=left, cuts=(*bar.cuts, off)))


def _found_to_be(bar: LyingBar, metal: str, job: str) -> LyingBar:
    """What is left of a bar of which a job found that it is of another grade."""
    if not metal or metal == bar.metal:
        return bar
    return _weighed(bar._replace(metal=metal, laid_as=bar.laid_as or bar.metal, found_by=job))


def _weighed(bar: LyingBar) -> LyingBar:
    with suppress(Refusal):
        per_mm_g = grade(bar.metal).density_kg_m3 * 1e-6 * _section(bar).area_mm2
        return bar._replace(mass=grams(bar.length.value * per_mm_g))
    return bar
