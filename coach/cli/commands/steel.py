"""`coach steel`: the grades, what is known of one and how it is hardened; a file for one of your own."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, named, table
from coach.cli.question_lines import RECKONER, sentences, shown, sourced
from coach.cli.reply import Refused, Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.steel import (
        CriticalView,
        HardeningView,
        PropertyView,
        StarterView,
        SteelsView,
        SteelView,
    )

SUMMARY = "Tell what is known of a steel, and how it is hardened."
GROUP = RECKONER

# Two figures of a grade that are read together, the first one first.
_TOGETHER = (
    ("density", "density_kg_m3", "density_kg_m3"),
    ("carbon", "carbon_share", "carbon_share"),
    ("forge", "forging_high_c", "forging_low_c"),
    ("weld", "welding_low_c", "welding_high_c"),
    ("normalise", "normalising_high_c", "normalising_low_c"),
    ("harden", "hardening_low_c", "hardening_high_c"),
    ("temper", "tempering_low_c", "tempering_high_c"),
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("grade", metavar="GRADE", nargs="*", help="such as C45 or 1084; else the list of all")
    parser.add_argument("--template", metavar="NAME", help="print a file to begin a grade of your own with")
    sourced(
        parser,
        "Sources: those of each grade, told beside its figures with how far they are confirmed; K. W. "
        "Andrews 1965 and S. M. C. van Bohemen 2012 (confirmed second-hand) for the temperatures at which "
        "it turns, good to 20 °C at best; common practice for the rest. Coupons of your own bar count more.",
    )


def run(asked: argparse.Namespace) -> Reply[SteelsView | SteelView | StarterView]:
    """Tell the list, one grade, or the file."""
    if asked.template is not None and asked.grade:
        raise Refused("--template begins a grade of your own: leave the GRADE out, or the --template.")
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[SteelsView | SteelView | StarterView]:
    from coach.metals.grade import grade, grades
    from coach.reckoner.steel import starter, steel, steels

    if asked.template is not None:
        from coach.places import grade_folder

        begun = starter(asked.template, grade_folder())
        return reply(begun.text.splitlines(), begun)
    if not asked.grade:
        every = steels(grades())
        return reply(_list(every), every)
    view = steel(grade(" ".join(asked.grade)), shown(asked))
    return reply(_lines(view), view)


def _list(view: SteelsView) -> list[str]:
    rows = (
        (
            one.name,
            "carbon unknown" if one.carbon is None else f"{one.carbon:g} % carbon",
            one.quench or ("quench unknown" if one.carbon is None else "no quench"),
            "; ".join(part for part in (", ".join(one.aliases), one.standard) if part),
        )
        for one in view.steels
    )
    return [*table(rows, indent=""), "", *sentences("`coach steel GRADE` tells all of one.")]


def _lines(view: SteelView) -> list[str]:
    title = ", ".join((view.metal, *view.aliases))
    lines = [*sentences(title), *named("  standard", view.standard, 12), *named("  notes", view.notes, 12)]
    lines += headed("Composition, per cent by mass: least, nominal, most", _composition(view))
    lines += headed("Known of it", table(_figures(view.properties)))
    lines += headed("Reckoned from its composition, give or take 20 °C (36 °F)", _criticals(view.criticals))
    if view.hardening is not None:
        lines += headed("Hardening", _hardening(view.hardening))
    lines += headed("Not hardened" if not view.coupon_test else "Not known", sentences(view.not_hardened))
    steps = ((f"{number}.", text) for number, text in enumerate(view.coupon_test, 1))
    lines += headed("The coupon test", table(steps))
    return [*lines, *(["", *sentences(*_cautions(view))] if view.cautions else [])]


def _composition(view: SteelView) -> list[str]:
    if not view.composition:
        return sentences(f"Not known. {view.composition_source}")
    rows = [(one.element, f"{one.low:g}", f"{one.nominal:g}", f"{one.high:g}") for one in view.composition]
    return [*table(rows), *sentences(f"Source: {view.composition_source}.")]


def _figures(properties: tuple[PropertyView, ...]) -> list[tuple[str, str, str]]:
    by_name = {one.name: one for one in properties}
    rows = []
    for label, first, last in _TOGETHER:
        pair = [by_name[first], by_name[last]] if first != last else [by_name[first]]
        text = " to ".join(dict.fromkeys(one.text or "unknown" for one in pair))
        rows.append((label, text, "; ".join(dict.fromkeys(one.source.rstrip(".") for one in pair))))
    return rows


def _criticals(found: tuple[CriticalView, ...]) -> list[str]:
    rows = ((one.name, one.text or "none", one.source) for one in found)
    return [*table(rows), *sentences(*dict.fromkeys(one.extrapolated for one in found))]


def _hardening(view: HardeningView) -> list[str]:
    first, *rest = view.steps
    rows = [first, ("harden", f"From {view.text}. Source: {view.source}."), *rest]
    return [*table(rows), *sentences(view.retained)]


def _cautions(view: SteelView) -> list[str]:
    return [f"Caution: {text}" for text in view.cautions]
