"""What is known of a grade of iron or steel, and how it is hardened and tempered, each with its source."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final, NamedTuple

from coach.metals import own_folders
from coach.metals.grade import grades
from coach.metals.grade_file import PROPERTIES, Grade, template_text
from coach.metals.hardening import COUPON_TEST, LEAST_CARBON_SHARE, CannotHarden, Hardening, hardening_advice
from coach.metals.quenches import QUENCHES
from coach.metals.transformation import CriticalPoint, critical_points
from coach.quantities import NOTHING, Figure, Kind, Words, celsius, run_on, say
from coach.quantities.takes import Take, Typed
from coach.reckoner.asking.reading import NotReckoned
from coach.reckoner.asking.takes import grade_named
from coach.reckoner.asking.told import Caution, Rows, Told, Under, Verbatim, rows

SUMMARY = "Tell what is known of a steel, and how it is hardened."
SOURCES = (
    "Sources: those of each grade, told beside its figures with how far they are confirmed; K. W. Andrews "
    "1965 and S. M. C. van Bohemen 2012 (confirmed second-hand) for the temperatures at which it turns, "
    "good to 20 °C at best; common practice for the rest. Coupons of your own bar count more."
)
TAKES = (
    grade_named("such as C45 or 1084; else the list of all", Typed.RUN_ON, needed=False),
    Take("--template", "print a file to begin a grade of your own with", "NAME"),
)

#: What the coupons of an unknown steel are quenched in.
_TRIED: Final = ("oil", "water")
# Two figures of a grade that are read together, the first one first.
_TOGETHER: Final = (
    ("density", "density_kg_m3", "density_kg_m3"),
    ("carbon", "carbon_share", "carbon_share"),
    ("forge", "forging_high_c", "forging_low_c"),
    ("weld", "welding_low_c", "welding_high_c"),
    ("normalise", "normalising_high_c", "normalising_low_c"),
    ("harden", "hardening_low_c", "hardening_high_c"),
    ("temper", "tempering_low_c", "tempering_high_c"),
)


class ListedSteel(NamedTuple):
    """One grade in the list of all."""

    name: str
    aliases: tuple[str, ...]  # its other names
    standard: str  # that it is made to
    carbon: Figure | None  # None when it is not known
    quench: str  # what it is quenched in; empty when that is not known or it is not hardened


class Steels(NamedTuple):
    """Every grade."""

    steels: tuple[ListedSteel, ...]  # softest first


class ElementOfASteel(NamedTuple):
    """One element of a grade."""

    element: str  # its symbol
    low: Figure  # the least
    nominal: Figure  # what is reckoned with
    high: Figure  # the most


class FigureOfAGrade(NamedTuple):
    """One figure of a grade's file, or why there is none."""

    name: str  # as the grade's file has it
    figure: Figure | None  # None when it is not known
    source: str  # where it is from and how far that is confirmed, or why it is not known


class Steel(NamedTuple):
    """All that is known of one grade."""

    metal: str  # its name
    aliases: tuple[str, ...]  # its other names
    standard: str  # that it is made to
    notes: str  # what it is good for
    carbon: Figure | None  # None when it is not known
    composition: tuple[ElementOfASteel, ...]  # empty when it is not known
    composition_source: str  # where that is from, or why it is not known
    properties: tuple[FigureOfAGrade, ...]
    criticals: tuple[CriticalPoint, ...]  # empty without a composition
    hardening: Hardening | None  # None when it is not hardened or that is not known
    not_hardened: Words  # why there is none
    coupon_test: tuple[str, ...]  # how heat and quench are found, step by step, where they are not known
    cautions: tuple[str, ...]  # what can hurt


class StarterFile(NamedTuple):
    """A file to begin a grade of one's own with."""

    metal: str  # the grade's name
    file: str  # where to save it
    text: str  # what it says


def reckon(grade: Grade | None = None, template: str | None = None) -> Steels | Steel | StarterFile:
    """All that is known of a grade, and its hardening; without one the list, or a file to begin one with.

    Raises NotReckoned for both at once, GradeFaults for no name. Sources: the grade's file,
    `coach.metals.transformation` and `coach.metals.hardening`.

    >>> from coach.metals.grade import grade
    >>> reckon(grade("1084")).hardening.low.value, reckon().steels[0].name
    (800.0, 'wrought iron')
    """
    if template is not None:
        if grade is not None:
            raise NotReckoned(
                "--template begins a grade of your own: leave the GRADE out, or the --template."
            )
        return starter(template)
    if grade is not None:
        return _steel(grade)
    return Steels(
        tuple(
            ListedSteel(
                one.name,
                one.aliases,
                one.standard,
                _content(one.carbon_share),
                "" if one.quench is None else one.quench.medium,
            )
            for one in grades()
        )
    )


def told(answer: Steels | Steel | StarterFile) -> Iterator[Told]:
    """The list, one grade, or the file."""
    if isinstance(answer, StarterFile):
        yield Verbatim(answer.text)
    elif isinstance(answer, Steels):
        yield rows(
            (
                one.name,
                "carbon unknown" if one.carbon is None else say("{} carbon", one.carbon),
                one.quench or ("quench unknown" if one.carbon is None else "no quench"),
                "; ".join(part for part in (", ".join(one.aliases), one.standard) if part),
            )
            for one in answer.steels
        )
        yield Under("", ("`coach steel GRADE` tells all of one.",))
    else:
        yield from _steel_told(answer)


def starter(name: str) -> StarterFile:
    """A file to begin a grade of one's own with, for the folder of the smith's own; raises GradeFaults."""
    text = template_text(name)
    plain_name = "".join(letter if letter.isalnum() else "-" for letter in name.strip().casefold())
    folder = own_folders()[-1] if own_folders() else Path()
    file = folder / f"{'-'.join(filter(None, plain_name.split('-'))) or 'grade'}.toml"
    first = f"# Save this as {file}; the coach then knows it by its name and aliases.\n"
    return StarterFile(name.strip(), str(file), first + text)


def _steel(grade: Grade) -> Steel:
    advice, why = None, NOTHING
    try:
        advice = hardening_advice(grade)
    except CannotHarden as reason:
        why = reason.words
    soft = grade.carbon_share is not None and grade.carbon_share < LEAST_CARBON_SHARE
    # Coupons are for a steel whose heat or medium nobody knows, not for iron that does not harden.
    known = advice is not None and advice.quench and not advice.reckoned
    coupons = () if known or (advice is None and soft) else COUPON_TEST
    media = (advice.quench,) if advice is not None and advice.quench else _TRIED if coupons else ()
    return Steel(
        grade.name,
        grade.aliases,
        grade.standard,
        " ".join(grade.notes.split()),
        _content(grade.carbon_share),
        tuple(
            ElementOfASteel(symbol, *(Figure(part, Kind.CONTENT) for part in parts))
            for symbol, parts in grade.composition.items()
        ),
        grade.said_of("composition"),
        tuple(
            FigureOfAGrade(name, _figure(name, getattr(grade, name)), grade.said_of(name))
            for name in PROPERTIES
        ),
        critical_points(grade.nominal) if grade.composition else (),
        advice,
        why,
        coupons,
        tuple(QUENCHES[medium] for medium in media),
    )


def _steel_told(answer: Steel) -> Iterator[Told]:
    yield ", ".join((answer.metal, *answer.aliases))
    yield rows(pair for pair in (("standard", answer.standard), ("notes", answer.notes)) if pair[1])
    if answer.composition:
        elements = rows((one.element, *(say("{:n}", part) for part in one[1:])) for one in answer.composition)
        heading = "Composition, per cent by mass: least, nominal, most"
        yield Under(heading, (elements, f"Source: {answer.composition_source}"))
    else:
        yield Under("Composition", (f"Not known. {answer.composition_source}",))
    yield Under("Known of it", (_known(answer.properties),))
    criticals = rows(
        (one.name, say("{:±}", one.temperature) if one.temperature else "none", one.source)
        for one in answer.criticals
    )
    beyond = dict.fromkeys(one.extrapolated for one in answer.criticals)
    yield Under("Critical temperatures from its composition", (criticals, *beyond))
    if (one := answer.hardening) is not None:
        first, *rest = one.steps
        heats = say("From {} to {}. Source: {}.", one.low, one.high, one.source)
        if one.reckoned:
            heats = run_on((heats, "Reckoned, not published: begin there with coupons."))
        left = "{:±} of austenite is left after a quench to {}: Koistinen and Marburger 1959 (from memory)."
        retained = "" if one.retained is None else say(left, one.retained, celsius(20.0))
        yield Under("Hardening", (rows((first, ("harden", heats), *rest)), retained))
    yield Under("Not known" if answer.coupon_test else "Not hardened", (answer.not_hardened,))
    steps = rows((f"{number}.", text) for number, text in enumerate(answer.coupon_test, 1))
    yield Under("The coupon test", (steps,))
    for caution in answer.cautions:
        yield Caution(caution)


def _known(properties: tuple[FigureOfAGrade, ...]) -> Rows:
    by_name = {one.name: one for one in properties}
    lines = []
    for label, first, last in _TOGETHER:
        pair = [by_name[first], by_name[last]] if first != last else [by_name[first]]
        figures = dict.fromkeys(one.figure for one in pair)
        words = run_on((say("{}", one) if one is not None else "unknown" for one in figures), " to ")
        lines.append((label, words, "; ".join(dict.fromkeys(one.source.rstrip(".") for one in pair))))
    return rows(lines)


def _content(per_cent: float | None) -> Figure | None:
    return None if per_cent is None else Figure(per_cent, Kind.CONTENT)


def _figure(name: str, value: float | None) -> Figure | None:
    if name == "carbon_share" or value is None:
        return _content(value)
    return Figure(value / 1000.0, Kind.DENSITY) if name == "density_kg_m3" else celsius(value)
