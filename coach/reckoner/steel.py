"""What is known of a grade of iron or steel, and how it is hardened and tempered, each with its source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple

from coach.metals.grade import PROPERTIES, Grade, template_text
from coach.metals.hardening import (
    DISSOLVED_CARBON_SHARE,
    LEAST_CARBON_SHARE,
    CannotHarden,
    HardeningAdvice,
    coupon_test,
    hardening_advice,
    quench_caution,
)
from coach.metals.transformation import (
    NotGiven,
    Reckoned,
    ac3_c,
    lower_critical,
    martensite_start,
    martensite_starts,
    upper_critical,
)
from coach.quantities import Shown, write_share, write_temperature
from coach.telling.words import write

#: Each equation is a fit to measured steels, good to 10 to 20 °C (from memory).
CRITICAL_DOUBT_C: Final = 20.0

_LB_FT3: Final = 0.062428  # in one kg/m³
#: What the coupons of an unknown steel are quenched in.
_TRIED: Final = ("oil", "water")


class ListedSteelView(NamedTuple):
    """One grade in the list of all."""

    name: str  # its name
    aliases: tuple[str, ...]  # its other names
    standard: str  # the standard that it is made to
    carbon: float | None  # per cent by mass
    quench: str  # the medium; empty when it is not known or it is not hardened


class SteelsView(NamedTuple):
    """Every grade, softest first."""

    steels: tuple[ListedSteelView, ...]  # a list of listed steels, softest first


class ElementView(NamedTuple):
    """One element of a grade, in per cent by mass."""

    element: str  # its symbol
    low: float  # the least
    nominal: float  # what is reckoned with
    high: float  # the most


class PropertyView(NamedTuple):
    """One figure of a grade's file, or why there is none."""

    name: str  # as the grade's file has it, with its unit
    value: float | None  # the figure; `null` when it is not known
    text: str  # as shown, empty when not known
    source: str  # with how far it is confirmed, in brackets at its end; or why it is not known


class CriticalView(NamedTuple):
    """A temperature at which the steel turns, reckoned from its composition."""

    name: str  # Ac1, Ac3 or Ms; Ms again by other equations
    temperature_c: float | None  # None where the steel has none
    text: str
    source: str  # with how far it is confirmed, in brackets at its end; or why there is none
    extrapolated: str  # why it is outside the published range, empty when it is not


class HardeningView(NamedTuple):
    """From what heat a grade is hardened, in what, and what comes before and after."""

    low_c: float  # the lowest hardening heat
    high_c: float  # the highest
    text: str
    source: str  # where they are from and how far that is confirmed
    quench: str  # the medium, empty when it is not known
    steps: tuple[tuple[str, str], ...]  # what is done, and how, in order
    retained_share: float | None  # of austenite after a quench to 20 °C, a share of 1
    retained: str  # the same in a sentence


class SteelView(NamedTuple):
    """All that is known of one grade."""

    metal: str  # its name
    aliases: tuple[str, ...]  # its other names
    standard: str  # the standard that it is made to
    notes: str  # what it is good for
    carbon: float | None  # per cent by mass
    composition: tuple[ElementView, ...]  # empty when it is not known
    composition_source: str  # or why it is not known
    properties: tuple[PropertyView, ...]  # properties
    criticals: tuple[CriticalView, ...]  # empty without a composition
    hardening: HardeningView | None  # the hardening; `null` when it is not hardened or that is not known
    not_hardened: str  # why there is no hardening
    coupon_test: tuple[str, ...]  # step by step, where the hardening is not known
    cautions: tuple[str, ...]  # what can hurt


class StarterView(NamedTuple):
    """A file to begin a grade of one's own with."""

    metal: str  # the grade's name
    file: str  # where to save it
    text: str


def steels(found: Iterable[Grade]) -> SteelsView:
    """The list of these grades.

    >>> from coach.metals.grade import grades
    >>> steels(grades()).steels[0].name
    'wrought iron'
    """
    return SteelsView(
        tuple(
            ListedSteelView(
                one.name,
                one.aliases,
                one.standard,
                one.carbon_share,
                "" if one.quench is None else one.quench.medium,
            )
            for one in found
        )
    )


def steel(grade: Grade, shown: Shown) -> SteelView:
    """All that is known of a grade, and its hardening.

    Sources: the grade's file, `coach.metals.transformation` and `coach.metals.hardening`.

    >>> from coach.metals.grade import grade
    >>> steel(grade("1084"), Shown()).hardening.text
    '800 °C to 830 °C'
    """
    advice, why = None, ""
    try:
        advice = hardening_advice(grade)
    except CannotHarden as reason:
        why = str(reason)
    coupons = _coupons(grade, advice)
    return SteelView(
        metal=grade.name,
        aliases=grade.aliases,
        standard=grade.standard,
        notes=" ".join(grade.notes.split()),
        carbon=grade.carbon_share,
        composition=tuple(ElementView(symbol, *share) for symbol, share in grade.composition.items()),
        composition_source=_source(grade, "composition"),
        properties=tuple(_properties(grade, shown)),
        criticals=_criticals(grade.nominal, shown),
        hardening=None if advice is None else _hardening(advice, grade, shown),
        not_hardened=why,
        coupon_test=coupons,
        cautions=_cautions(advice, coupons),
    )


def starter(name: str, folder: Path) -> StarterView:
    """A file to begin a grade of one's own with, which goes into `folder`; raises GradeFaults for no name.

    >>> starter("Old File", Path("grades")).text.splitlines()[0]
    '# Save this as grades/old-file.toml; the coach then knows it by its name and aliases.'
    """
    text = template_text(name)
    plain = "".join(letter if letter.isalnum() else "-" for letter in name.strip().casefold())
    file = folder / f"{'-'.join(filter(None, plain.split('-'))) or 'grade'}.toml"
    told = f"# Save this as {file}; the coach then knows it by its name and aliases.\n"
    return StarterView(name.strip(), str(file), told + text)


def _properties(grade: Grade, shown: Shown) -> Iterator[PropertyView]:
    for name in PROPERTIES:
        value = getattr(grade, name)
        yield PropertyView(name, value, _text(name, value, shown), _source(grade, name))


def _text(name: str, value: float | None, shown: Shown) -> str:
    if value is None:
        return ""
    if name == "density_kg_m3":
        return f"{value * _LB_FT3:.0f} lb/ft³" if shown.system == "in" else f"{value:.0f} kg/m³"
    return f"{value:g} %" if name == "carbon_share" else write_temperature(value, shown)


def _source(grade: Grade, name: str) -> str:
    return grade.sources.get(name) or grade.unknown.get(name, "")


def _criticals(nominal: dict[str, float], shown: Shown) -> tuple[CriticalView, ...]:
    if not nominal:
        return ()
    try:
        ac3_c(nominal)
        upper = _critical("Ac3", upper_critical(nominal), shown)
    except NotGiven as reason:
        upper = CriticalView("Ac3", None, "", str(reason), "")
    # Of more carbon than this the rest stays behind as carbide, so that the martensite has no more.
    dissolved = {**nominal, "C": min(nominal["C"], DISSOLVED_CARBON_SHARE)}
    capped = f"with {DISSOLVED_CARBON_SHARE:g} % carbon dissolved, " if dissolved != nominal else ""
    chosen = martensite_start(dissolved)
    starts = [
        found._replace(source=f"{capped}{found.source}", extrapolated=whole.extrapolated)
        for found, whole in zip(martensite_starts(dissolved), martensite_starts(nominal), strict=True)
    ]
    starts.sort(key=lambda one: one.celsius != chosen.celsius)
    return (
        _critical("Ac1", lower_critical(nominal), shown),
        upper,
        *(_critical("Ms", one, shown) for one in starts),
    )


def _critical(name: str, found: Reckoned, shown: Shown) -> CriticalView:
    text = write_temperature(found.celsius, shown)
    return CriticalView(name, found.celsius, text, found.source, found.extrapolated)


def _hardening(advice: HardeningAdvice, grade: Grade, shown: Shown) -> HardeningView:
    quench = write(advice.quench_words, shown)
    if grade.quench is not None:
        quench = f"{quench} {grade.quench.words}"
    retained = ""
    if advice.retained_share is not None:
        retained = (
            f"About {write_share(advice.retained_share)} of austenite is left after a quench to "
            f"{write_temperature(20.0, shown)}: Koistinen and Marburger 1959 (from memory)."
        )
    return HardeningView(
        low_c=advice.low_c,
        high_c=advice.high_c,
        text=f"{write_temperature(advice.low_c, shown)} to {write_temperature(advice.high_c, shown)}",
        source=advice.source,
        quench="" if advice.quench is None else advice.quench.medium,
        steps=(
            ("normalise", write(advice.normalise_words, shown)),
            ("magnet", write(advice.magnet, shown)),
            ("soak", advice.soak),
            ("quench", quench),
            ("temper", write(advice.temper_words, shown)),
        ),
        retained_share=advice.retained_share,
        retained=retained,
    )


def _coupons(grade: Grade, advice: HardeningAdvice | None) -> tuple[str, ...]:
    """The test for a steel whose heat or medium nobody knows; none for iron that does not harden."""
    if advice is not None:
        return () if advice.quench is not None else coupon_test()
    soft = grade.carbon_share is not None and grade.carbon_share < LEAST_CARBON_SHARE
    return () if soft else coupon_test()


def _cautions(advice: HardeningAdvice | None, coupons: tuple[str, ...]) -> tuple[str, ...]:
    """Of the grade's own medium, or of oil and water, in which coupons are tried."""
    media = _TRIED if coupons else () if advice is None else tuple(advice.cautions)
    return tuple(quench_caution(medium) for medium in media)
