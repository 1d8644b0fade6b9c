"""Reads recipes from text and from files: every fault of layout, structure and meaning at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from coach.operations.measures import read_length_or_none
from coach.quantities.units import System
from coach.recipe import words
from coach.recipe.branches import with_branches
from coach.recipe.drawing import read_drawing
from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Findings
from coach.recipe.findings import Path as InTree
from coach.recipe.keys import is_sound, unit_of
from coach.recipe.model import Piece, Recipe, Scale
from coach.recipe.nodes import Node
from coach.recipe.pieces import read_pieces, taken_too_early, with_shared_bars
from coach.recipe.progress import Progress
from coach.recipe.short_name import short_name
from coach.recipe.sizes import read_margin, read_share_or_none
from coach.recipe.spelling import Speller
from coach.recipe.steps import read_steps
from coach.recipe.text import file_text
from coach.recipe.tree import read_plain, tree_of_sound_text

#: What is believed hangs together from zone to zone, so each costs more than the one before; no recipe of
#: those that come with the coach has ten (our choice).
_MOST_ZONES = 100


def read_recipe(text: str, source: str) -> Recipe:
    """The recipe in a file's text; raises RecipeFaults with every fault at once."""
    text = text.removeprefix("\ufeff")
    tree = tree_of_sound_text(text)
    if tree is not None and is_sound(tree):
        speller = Speller(tree, unit_of(tree))
        spelt, meant = speller.spell(), Findings()
        if not speller.findings.found:
            recipe = assemble(spelt, source, text, meant)
            if not meant.found:
                return recipe
    return read_wording_faults(text, source)


def read_wording_faults(text: str, source: str) -> Recipe:
    """The same by the readers that know what to say of a fault: the parser in Python and pydantic."""
    from coach.recipe.meant import as_meant
    from coach.recipe.misspelt import besides_misspelt
    from coach.recipe.schema import check
    from coach.recipe.told_once import told_once

    plain = read_plain(text, source)
    findings, meant = Findings(), Findings()
    findings.add_unless_explained(plain.findings.found)
    findings.add_unless_explained(check(plain.tree))
    plain = as_meant(plain)
    speller = Speller(plain.tree, unit_of(plain.tree))
    spelt = speller.spell()
    findings.add_unless_explained(speller.findings.found)
    findings.found += besides_misspelt(plain.tree, speller)
    recipe = assemble(spelt, source, text, meant)
    unread = _zones_with_slips(findings)
    findings.add_unless_explained(
        slip._replace(path=speller.origins.of(slip.path, at_key=slip.at_key), at_key=False)
        for slip in meant.found
        if not (slip.missing and _zone_of(spelt, slip.path).endswith(unread))
    )
    if findings.found:
        findings.found = [*told_once(findings.found, plain.tree)]
        system: System = "in" if unit_of(plain.tree) == "in" else "mm"
        raise RecipeFaults(findings.faults(plain.places, source), system)
    return recipe


def _zones_with_slips(findings: Findings) -> tuple[str, ...]:
    """The zones that are told wrongly: what a step lacks of those stands where the slip is.

    A piece that is made several times has its own name before them.
    """
    paths = [slip.path for slip in findings.found]
    return tuple(str(path[3]) for path in paths if len(path) > 3 and path[0::2][:2] == ("pieces", "zones"))


def _zone_of(spelt: Mapping[str, object], path: InTree) -> str:
    """The zone of the step that a path leads into."""
    steps = spelt.get("steps")
    if len(path) < 2 or path[0] != "steps" or not isinstance(steps, list) or not isinstance(path[1], int):
        return ""
    step = steps[path[1]] if path[1] < len(steps) else None
    return str(step.get("zone", "")) if isinstance(step, dict) else ""


def read_recipe_file(path: Path) -> Recipe:
    """The recipe in a file of UTF-8 text; raises RecipeFaults, also when the file cannot be read."""
    return read_recipe(file_text(path), str(path))


def assemble(tree: Mapping[str, object], source: str, text: str, findings: Findings) -> Recipe:
    """The recipe of a spelt-out tree as far as it can be built; what is wrong with it goes to the findings.

    What is wrong with the structure of its file `schema.check` finds, and it is passed over here.
    """
    head = Node(dict(tree), (), findings)
    unit: System = "in" if head.get("units").word("unit", words.UNITS) == "in" else "mm"
    root = replace(head, unit=unit)
    title = root.get("title").line()
    pieces = read_pieces(root.get("pieces"))
    drawing = read_drawing(root.get("drawing"), pieces)
    pieces = with_branches(root.get("drawing"), pieces)
    if (zones := sum(len(piece.every_zone) for piece in pieces.values())) > _MOST_ZONES:
        many = f"there are {zones} zones, and a recipe has {_MOST_ZONES} at most: make two recipes of it"
        findings.add(("pieces",), many)
    pieces = with_shared_bars(root.get("pieces"), pieces, drawing)
    steps = read_steps(root.get("steps"), Progress(pieces, drawing))
    taken_too_early(pieces, steps, findings)
    recipe = Recipe(
        title=title,
        name=short_name(title, source),
        summary=root.get("summary").text(),
        pieces=pieces,
        drawing={zone: drawn for zone, drawn in drawing.items() if drawn is not None},
        steps=steps,
        marks_in_row=any(piece.beside for piece in pieces.values()) or _share_a_source(pieces.values()),
        scale=_scale(root.get("scale")),
        tools=tuple(root.get("tools").texts()),
        system=unit,
        forge=root.get("forge").line(),
        duration=root.get("time").line(),
        text=text,
        source=source,
    )
    margin = root.get("margin").size(read_margin)
    if margin is not None and margin.share is not None:
        usual = {
            zone: drawn
            if "allowance" in told_of(root, zone)
            else drawn._replace(allowance_share=margin.share)
            for zone, drawn in recipe.drawing.items()
        }
        recipe = recipe._replace(drawing=usual)
    elif margin is not None:
        recipe = recipe._replace(enough_for=margin.chance)
    mark_mm = root.get("marks").in_unit(read_length_or_none)
    return recipe if mark_mm is None else recipe._replace(mark_doubt_mm=mark_mm)


def _share_a_source(pieces: Iterable[Piece]) -> bool:
    """Whether several are taken from what one other piece came to."""
    sources = [piece.source for piece in pieces if piece.source]
    return len(sources) > len({*sources})


def told_of(root: Node, zone: str) -> Mapping[str, object]:
    """What the spelt-out drawing says of a zone."""
    told = root.get("drawing").get(zone).value
    return told if isinstance(told, dict) else {}


def _scale(node: Node) -> Scale:
    if not node:
        return Scale()
    if node.is_text:  # none
        return Scale(0.0, 0.0, 0.0, 0.0, 0.0)
    told = {
        **{
            f"{name}_mm": node.get(name).in_unit(read_length_or_none)
            for name in ("forging", "welding", "treatment")
        },
        **{f"{name}_share": node.get(name).size(read_share_or_none) for name in ("fire", "doubt")},
    }
    return Scale(**{name: one for name, one in told.items() if one is not None})
