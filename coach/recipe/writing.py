"""Writes a recipe's file from what is spelt out of it: short lines, that are read back as they were meant."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from coach.forms import kinds, said
from coach.operations import operations
from coach.operations.does import HeatKind
from coach.operations.measures import read_kind_limits
from coach.quantities import Kind, SizeError, read_temperature_c
from coach.recipe import words
from coach.recipe.naming import named, short
from coach.recipe.shape_words import across, choices_told
from coach.recipe.shape_writing import Told, hole_part, is_size, limits_written, shape_parts, size_word
from coach.recipe.spelling import ADVICE, HEAD

_PLAIN: Final = re.compile(r"[\w±°(][^\n\t]*")


def write_recipe(spelt: Told) -> str:
    """The text of the file that is spelt out so."""
    if spelt.get("units") == "in":
        spelt = _told(_with_inches(spelt))
    lines = [f"recipe: {scalar(spelt['title'])}"] if "title" in spelt else []
    for name in HEAD:
        if name in spelt:
            lines += _entry(words.word(name), spelt[name], "")
    if "margin" in spelt:
        lines += ["usual:", *_entry("margin", spelt["margin"], "  ")]
    lines.append("pieces:")
    drawing = _told(spelt.get("drawing"))
    forms = forms_of_bars(spelt)
    for name, piece in _told(spelt.get("pieces")).items():
        lines += [f"  {scalar(name)}:", *_piece(str(name), _told(piece), drawing)]
    lines.append("steps:")
    steps = spelt.get("steps")
    for step in steps if isinstance(steps, list) else ():
        lines += _step(_told(step), drawing, forms)
    return "\n".join(lines) + "\n"


def _with_inches(part: object, name: str = "") -> object:
    """The same with a unit at every whole number of ten inches and more, as a line wants it."""
    if isinstance(part, Mapping):
        return {key: _with_inches(value, str(key)) for key, value in part.items()}
    if isinstance(part, list):
        return [_with_inches(one, name) for one in part]
    meant = named().get(said(name))
    if meant is None or meant.kind is not Kind.LENGTH or re.search("[a-z\"']", str(part)):
        return part
    return f"{part} in" if re.search(r"(?<![\d/.,])[1-9]\d+(?![\d/.,])", str(part)) else part


def forms_of_bars(spelt: Told) -> dict[str, str]:
    """What form each zone has before the first step."""
    found: dict[str, str] = {}
    for name, piece in _told(spelt.get("pieces")).items():
        zones = _told(piece).get("zones", name)
        for zone in zones if isinstance(zones, list) else [zones]:
            found[str(zone)] = _form_of_bar(spelt, _told(piece))
    return found


def _form_of_bar(spelt: Told, piece: Told) -> str:
    """The form of the bar, of the stack, or of what another piece's bar has to give."""
    stock, pieces = _told(piece.get("stock")), _told(spelt.get("pieces"))
    if "stack" in piece:
        return "flat"
    if "beside" in stock:
        return _form_of_bar(spelt, _told(pieces.get(str(stock["beside"]))))
    if "from" in stock:
        return str(_told(_told(spelt.get("drawing")).get(str(stock["from"]))).get("form"))
    return str(stock.get("form"))


def _told(value: object) -> Told:
    return value if isinstance(value, Mapping) else {}


def _piece(name: str, piece: Told, drawing: Told) -> Iterator[str]:
    if "metal" in piece:
        yield f"    metal: {scalar(piece['metal'])}"
    layers = piece.get("stack")
    if isinstance(layers, list):
        yield "    stack:"
        for one in map(_told, layers):
            line = f"{one.get('metal')}, {bar_line(one)}"
            yield f"      - {scalar(line)}"
    if "stock" in piece:
        yield f"    bar: {scalar(bar_line(_told(piece['stock'])))}"
    if "given_up" in piece:
        yield f"    given up: {scalar(piece['given_up'])}"
    zones = piece.get("zones")
    if zones is None:
        if name in drawing:
            yield f"    size: {scalar(zone_line(_told(drawing[name])))}"
        return
    yield "    zones:"
    for zone in zones if isinstance(zones, list) else [zones]:
        if zone in drawing:
            yield f"      {scalar(zone)}: {scalar(zone_line(_told(drawing[str(zone)])))}"


def bar_line(stock: Told) -> str:
    """The line of a bar."""
    shared = [f"{how} {stock[how]}" for how in ("from", "beside") if how in stock]
    parts = shared or [*shape_parts(stock, drawn=True)]
    return ", ".join([*parts, *([f"doubt {stock['doubt']}"] if "doubt" in stock else [])])


def zone_line(drawn: Told) -> str:
    """The line of a zone."""
    parts = [*shape_parts(drawn, drawn=True)]
    take_up = drawn.get("take_up")
    names = take_up if isinstance(take_up, list) else [] if take_up is None else [take_up]
    usual = kinds()[str(drawn["form"])].FREE if drawn.get("form") in kinds() else ""
    if names and [words.key(str(name)) for name in names] != [usual]:
        parts.append("takes up " + " then ".join(short(words.key(str(name))) for name in names))
    if "allowance" in drawn:
        parts.append(f"allowance {drawn['allowance']}")
    into = drawn.get("splits_into")
    if into:
        parts.append(f"splits into {' and '.join(map(str, into if isinstance(into, list) else [into]))}")
    if "remains" in drawn:
        parts.append(f"remains {drawn['remains']}")
    return ", ".join(parts)


def _step(step: Told, drawing: Told, forms: dict[str, str]) -> Iterator[str]:
    name = str(step.get("do"))
    line, keys = step_line(step, drawing, forms)
    head = f"  - {name}: {scalar(line)}"
    yield head
    for key, text in keys.items():
        yield f"    {key}: {scalar(text)}"
    for key in ADVICE:
        if key not in step:
            continue
        value = step[key]
        if key == "check":
            names = [str(one) for one in value] if isinstance(value, list) else [str(value)]
            yield f"    check: {scalar(', '.join(names) or words.NONE)}"
        else:
            yield from _entry(key, value, "    ")


def step_line(step: Told, drawing: Told, forms: dict[str, str]) -> tuple[str, dict[str, str]]:
    """The line of a step behind its operation, and the keys that must stand below it.

    Args:
        step: spelt out.
        drawing: the drawing, spelt out.
        forms: which form each zone has so far; the one it has after the step stands there then.
    """
    name = str(step.get("do"))
    todo = operations()[name]
    own = str(step.get("piece", step.get("zone", "")))
    heated = step.get("heated")
    lies_hot = [str(one) for one in heated] if isinstance(heated, list) else [str(heated)] if heated else []
    also = [one for one in lies_hot if one not in (own, step.get("lay"))]
    together = int(str(step.get("together", 0)))
    first, also = " and ".join([own, *also[:together]]), also[together:]
    if "lay" in step:
        first += f" with {step['lay']}"
    elif also and todo.HEAT_KIND is HeatKind.WELDING:
        first += f" with {' and '.join(also)}"
        also = []
    if isinstance(holds := step.get("holds"), list) and holds:
        first = f"{' and '.join(map(str, holds))} by {first}"
    if isinstance(tried_on := step.get("tried_on"), list) and tried_on:
        first = f"{first} to {' and '.join(map(str, tried_on))}"
    parts, keys = [first], dict[str, str]()
    to = step.get("to")
    asked = _told(to)
    drawn = _told(drawing.get(own)).get("form")
    if to == words.DRAWING:
        if step.get("form") == drawn and todo.RESHAPES:
            step = {key: value for key, value in step.items() if key != "form"}
        forms[own] = str(drawn)
        plain = not any(key in step for key in ("form", "stations"))
        if not todo.to_drawing or (todo.FIXES and "loses" in step) or not plain:
            parts.append("to the drawing")
        parts += _choices(step)
        asked = _told(step.get("besides"))
    else:
        if step.get("form") == todo.FORM and step.get("form") not in ("flat", "taper"):
            step = {key: value for key, value in step.items() if key != "form"}
        shape = {
            **{
                key: step[key]
                for key in ("form", "hole", "through", "stations", *choices_told())
                if key in step
            },
            **asked,
        }
        forms[own] = str(step.get("form") or todo.FORM or forms.get(own))
        if "section" in step and "form" not in shape and _says_form(str(step["section"]), asked):
            shape |= {"form": step["section"]}
        elif "form" not in shape and "stations" not in shape:
            shape |= {"form": forms[own]} if _says_form(forms[own], asked) else {}
        parts += shape_parts(shape, drawn=False)
        nothing = not any(is_size(name) for name in asked) and "stations" not in step
        nothing = nothing and step.get("form", drawn) == drawn
        means_drawing = todo.to_drawing or step.get("form") is not None
        if nothing and means_drawing and not (todo.FIXES and "loses" in step):
            parts.append("as it is")
    for name, text in asked.items():
        if name == "temperature":
            parts.append(f"at {_degrees(str(text), limits=True)}")
        elif not is_size(name):
            parts.append(f"{short(name)} {limits_written(str(text), name)}")
    if "free" in step:
        parts.append(f"{short(words.key(str(step['free'])))} free")
    parts += _heats(step)
    for amount in todo.AMOUNTS:
        if amount in step:
            parts.append(f"{size_word(amount)} {step[amount]}")
    if "loses" in step:
        parts.append(f"loses {step['loses']}")
    if "quench" in step:
        parts.append(f"quench {step['quench']}")
    colour = step.get("colour")
    temperatures = [f"at {text}" for text in _temperatures(step, asked)]
    if colour and "," in str(colour):
        keys["at"] = ", ".join([str(colour), *(text.removeprefix("at ") for text in temperatures)])
    else:
        parts += [f"at {colour}"] if colour else []
        parts += temperatures
    if also:
        parts.append(f"also hot {' and '.join(also)}")
    return ", ".join(part for part in parts if part), keys


def _says_form(form: str, asked: Told) -> bool:
    """Whether the sizes asked for are said as a section of the form that the zone has then anyway."""
    names = [name for name in asked if is_size(name)]
    whole = {
        "flat": ["width", "thickness"],
        "taper": ["width", "thickness", "end_width", "end_thickness"],
        "round taper": ["diameter", "end_diameter"],
        **{bar: [name] for bar, name in across().items()},
    }
    return form in whole and names[: len(whole[form])] == whole[form]


def _choices(step: Told) -> list[str]:
    if "form" in step or "stations" in step:
        return [
            *shape_parts(
                {
                    key: step[key]
                    for key in ("form", "hole", "through", "stations", *choices_told())
                    if key in step
                },
                drawn=False,
            )
        ]
    return [hole_part(step, {})] if "hole" in step or "through" in step else []


def _heats(step: Told) -> Iterator[str]:
    heats, kind = step.get("heats"), step.get("heat")
    forging = kind if kind is not None and kind != HeatKind.COLD else None
    if isinstance(heats, Mapping):
        yield "heats " + " + ".join(f"{number} {words.word(str(name))}" for name, number in heats.items())
    elif str(heats) == "0":
        yield "same heat"
    elif heats is not None:
        yield f"{heats} {f'{forging} ' if forging else ''}heat{'' if str(heats) == '1' else 's'}"
    elif forging:
        yield f"{forging} heat"
    if kind == HeatKind.COLD:
        yield "cold"


def _temperatures(step: Told, asked: Told) -> Iterator[str]:
    wanted, own = asked.get("temperature"), step.get("temperature")
    if own is not None and (wanted is None or not _is_middle(str(own), str(wanted))):
        yield _degrees(str(own))


def _is_middle(own: str, wanted: str) -> bool:
    """Whether a temperature is the one that limits aim at, which then need not be said."""
    try:
        aim = read_kind_limits(Kind.TEMPERATURE, wanted, "mm").nominal
        return read_temperature_c(own) == aim
    except SizeError:
        return False


def _degrees(text: str, *, limits: bool = False) -> str:
    """A temperature with its unit; a bare one that is to be kept, with the limits that it has."""
    written = re.sub(r"(?<=\d) ?°?([CF])\b", r" °\1", limits_written(text))
    if not re.search("[CF]$", written):
        written += " °C"
    if limits and not re.search(r"±|\+| to |at ", written):
        number, unit = written.split(" ")
        written = f"{number} ±15 {unit}" if unit == "°C" else f"{number} ±27 {unit}"
    return written


def _entry(name: str, value: object, indent: str) -> list[str]:
    """A key with its text, its list of texts, or its names and values."""
    if isinstance(value, Mapping):
        inside = ", ".join(f"{words.word(str(key))}: {scalar(one)}" for key, one in value.items())
        return [f"{indent}{name}: {{{inside}}}"]
    if isinstance(value, Sequence) and not isinstance(value, str):
        if not value:
            return [f"{indent}{name}: []"]
        return [f"{indent}{name}:", *(f"{indent}  - {scalar(one)}" for one in value)]
    return [f"{indent}{name}: {scalar(value)}"]


def scalar(value: object) -> str:
    """A text as YAML takes it for a text."""
    text = str(value)
    odd = ": " in text or " #" in text or text.endswith(":") or text != text.strip()
    if _PLAIN.fullmatch(text) and not odd and not set(text) & set("{}[]`"):
        return text
    return json.dumps(text, ensure_ascii=False)
