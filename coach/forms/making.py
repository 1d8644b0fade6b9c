"""Makes a form from what was said of it."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from coach.forms.base import Form, FormError, listed, said, unknown_dimension
from coach.forms.finding import form_kind, kinds
from coach.quantities import Words, mm, run_on, say

_NO_OPTIONS: Mapping[str, str] = MappingProxyType({})


def make(
    kind: str,
    sizes_mm: Mapping[str, float],
    options: Mapping[str, str] = _NO_OPTIONS,
    stations: Sequence[tuple[float, float, float]] = (),
) -> Form:
    """A checked form of that kind from its sizes in mm; a dimension left unsaid takes its fallback.

    FormError, naming everything wrong at once: an unknown kind, dimension or option, a missing dimension, a
    size that is not a number above zero, sizes that cannot go together, stations where none belong.
    """
    form = _kind(kind)
    faults: list[Words | str] = []
    sizes: dict[str, float] = {}
    for name, size_mm in sizes_mm.items():
        dimension = name.strip().lower().replace(" ", "_").replace("-", "_")
        if dimension not in form.DIMENSIONS:
            faults.append(unknown_dimension(form, name))
        elif dimension in sizes:
            faults.append(f"the {said(dimension)} is given twice")
        elif not 0.0 < size_mm < math.inf:
            faults.append(say("the {} must be a size above zero, not {}", said(dimension), mm(size_mm)))
            sizes[dimension] = math.nan  # said, though wrongly: it must not be called missing as well
        else:
            sizes[dimension] = size_mm
    chosen = _options(form, options, faults)
    sizes = form.filled(sizes, chosen)
    missing = [said(dimension) for dimension in form.DIMENSIONS if dimension not in sizes]
    if missing:
        faults.append(f"the {form.KIND} form also needs its {listed(missing)}")
    if stations and not form.STATIONS:
        faults.append(f"the {form.KIND} form is not drawn from stations")
    if faults:
        raise FormError(run_on(faults, "; "))
    drawn = [tuple((at, width, thickness) for at, width, thickness in stations)] if form.STATIONS else []
    made = form(*(sizes[dimension] for dimension in form.DIMENSIONS), *chosen.values(), *drawn)
    impossible = made.faults()
    if impossible:
        raise FormError(run_on(impossible, "; "))
    return made


def _kind(kind: str) -> type[Form]:
    name = " ".join(kind.lower().replace("_", " ").split())
    try:
        return form_kind(name)
    except KeyError:
        raise FormError(f"there is no form called {kind[:40]!r}: {_hint(name, kinds())}") from None


def _options(form: type[Form], options: Mapping[str, str], faults: list[Words | str]) -> dict[str, str]:
    for name in options:
        if name not in form.OPTIONS:
            hint = _hint(name, form.OPTIONS) if form.OPTIONS else "it has no choices to make"
            faults.append(f"the {form.KIND} form has no choice called {name[:40]!r}: {hint}")
    chosen: dict[str, str] = {}
    for name, allowed in form.OPTIONS.items():
        choice = options.get(name, allowed[0])
        if choice not in allowed:
            faults.append(f"the {said(name)} cannot be {choice[:40]!r}: {_hint(choice, allowed)}")
        chosen[name] = choice
    return chosen


def _hint(word: str, known: Iterable[str]) -> str:
    words = list(known)
    near = difflib.get_close_matches(word, words, n=1)
    return f"did you mean {near[0]}?" if near else f"choose from {', '.join(words)}"
