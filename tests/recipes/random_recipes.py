"""Random recipes over every form, operation and join there is, each the same for the same number."""

from __future__ import annotations

import random
from typing import Any, cast

from coach.forms import kinds
from coach.operations import Operation, operations
from coach.operations.does import Scope
from coach.quantities import Kind
from coach.recipe.shapes import bar_kinds
from coach.recipe.writing import write_recipe

METALS = ("mild steel", "C45", "wrought iron", "1084")
_OF_A_KIND = {
    Kind.LENGTH: ("2 ±1", "8 ±1", "20 ±2"),
    Kind.GAP: ("at most 1",),
    Kind.ANGLE: ("30", "90 ±5"),
    Kind.TEMPERATURE: ("780 to 810 °C", "200 to 230 °C"),
    Kind.TIME: ("10 min", "at least 1 h"),
    Kind.HARDNESS: ("54 to 58",),
    Kind.SHARE: ("2 %",),
}


def random_recipe(number: int) -> str:
    """The text of a recipe; what its steps ask may be more than its metal can give."""
    tree = _Maker(random.Random(number)).tree()
    # By a die of its own, so that the recipes without a split stay what they were.
    splitter = _Maker(random.Random(f"split {number}"))
    return write_recipe(splitter.split(tree) if splitter.die.random() < _SPLIT_SHARE else tree)


#: So large a share of them has a zone that splits into others.
_SPLIT_SHARE = 0.5


class _Maker:
    """Makes one recipe by the draws of a die."""

    def __init__(self, die: random.Random) -> None:
        self.die = die

    def tree(self) -> dict[str, object]:
        """The recipe, spelt out."""
        die = self.die
        zones = [f"zone {letter}" for letter in "abc"[: die.randint(1, 3)]]
        pieces: dict[str, object] = {"body": {**self._piece(), "zones": zones}}
        drawing: dict[str, object] = {zone: self._zone() for zone in zones}
        steps: list[object] = []
        if die.random() < 0.7:
            steps.append({"do": "mark out", "piece": "body"})
        if die.random() < 0.4:
            pieces["steel"] = self._piece()
            drawing["steel"] = self._zone()
            steps += self._steps(["steel"], die.randint(0, 2))
            steps.append({"do": "draw", "zone": "steel", "to": "drawing"})
            steps += self._steps(zones, die.randint(0, 2))
            steps.append({"do": "weld", "zone": die.choice(zones), "lay": "steel"})
        steps += self._steps(zones, die.randint(1, 5))
        for zone in zones:
            if die.random() < 0.8:
                todo = die.choice(("draw", "taper", "spread", "upset", "grind", "set down", "drift", "bevel"))
                steps.append({"do": todo, "zone": zone, "to": "drawing"})
        return {
            "title": f"Recipe {die.randint(1, 999)}",
            "pieces": pieces,
            "drawing": drawing,
            "steps": steps,
        }

    def split(self, tree: dict[str, object]) -> dict[str, object]:
        """The same with its last zone split into others, which are worked after it."""
        pieces, drawing, steps = (cast(Any, tree[name]) for name in ("pieces", "drawing", "steps"))
        zones = pieces["body"]["zones"]
        whole, die = zones[-1], self.die
        branches = [f"branch {letter}" for letter in "abc"[: die.choice((2, 2, 3))]]
        share = f" {die.randint(15, 60)} %" if die.random() < 0.6 else ""
        kind = die.choice(("flat", "square", "taper", "round"))
        whole_told = {"form": kind, **self._sizes(kind), "splits_into": [branches[0] + share, *branches[1:]]}
        if die.random() < 0.7:
            whole_told.pop("length")
        drawing[whole] = whole_told
        zones += branches
        drawing |= {branch: self._zone() for branch in branches}
        if len(zones) == 1 + len(branches) and die.random() < 0.9:
            zones.insert(0, "stem")
            stock = pieces["body"]["stock"]
            drawing["stem"] = {**stock, "length": self._size(40, 160)}
        if die.random() < 0.8:
            steps.append({"do": "draw", "zone": whole, "to": "drawing"})
        cut: dict[str, object] = {"do": "split", "zone": whole}
        if die.random() < 0.3:
            cut["slit"] = self._size(1, 4)
        if die.random() < 0.2:
            cut["loses"] = die.choice(("3 mm", "2 %", "5 g"))
        if die.random() < 0.95:
            steps.append(cut)
        steps += self._steps(branches, die.randint(0, 2))
        steps += [
            {"do": "draw", "zone": branch, "to": "drawing"} for branch in branches if die.random() < 0.95
        ]
        return tree

    def _size(self, least: float = 4, most: float = 40) -> str:
        return f"{self.die.uniform(least, most):.0f}"

    def _sizes(self, kind: str) -> dict[str, object]:
        form = kinds()[kind]
        sizes: dict[str, object] = {}
        for name in form.DIMENSIONS:
            size = self._size(40, 160) if name == "length" else self._size(3, 12 if "hole" in name else 40)
            sizes[name] = size if self.die.random() < 0.5 else f"{size} ±{self._size(1, 4)}"
        for name, choices in form.OPTIONS.items():
            sizes[name] = self.die.choice(choices)
        if form.STATIONS:
            rows = [[str(at), self._size(), self._size()] for at in (0, 30, 100)]
            sizes = {"stations": rows}
        if sizes.get("hole") == "round":
            del sizes["hole_width"], sizes["far_hole_width"]
        return sizes

    def _piece(self) -> dict[str, object]:
        kind = self.die.choice(bar_kinds())
        stock = {name: self._size(8) for name in kinds()[kind].DIMENSIONS if name != "length"}
        return {"metal": self.die.choice(METALS), "stock": {"form": kind, **stock}}

    def _zone(self) -> dict[str, object]:
        kind = self.die.choice((*bar_kinds(), "taper", "eyed", *sorted(kinds())))
        told: dict[str, object] = {"form": kind, **self._sizes(kind)}
        if self.die.random() < 0.3:
            told["allowance"] = "3 %"
        return told

    def _steps(self, zones: list[str], count: int) -> list[object]:
        simple = [
            todo for todo in operations().values() if todo.SCOPE is Scope.ZONE and todo.UNSAFE_UNTIL is None
        ]
        return [self._step(self.die.choice(simple), self.die.choice(zones)) for _ in range(count)]

    def _step(self, todo: Operation, zone: str) -> dict[str, object]:
        die = self.die
        told: dict[str, object] = {"do": todo.NAME, "zone": zone}
        to: dict[str, object] = {}
        if todo.RESHAPES and die.random() < 0.6:
            kind = todo.FORM or die.choice(sorted(kinds()))
            sizes = self._sizes(kind)
            for choice in ("hole", "through", "stations", *kinds()[kind].OPTIONS):
                if choice in sizes:
                    told[choice] = sizes.pop(choice)
            if die.random() < 0.7 and kind != todo.FORM:
                told["form"] = kind
            to |= {name: size for name, size in sizes.items() if die.random() < 0.7}
        elif todo.RESHAPES:
            told["to"] = "drawing"
        if "to" not in told:
            to |= {
                name: die.choice(_OF_A_KIND[kind]) for name, kind in todo.EXTRAS.items() if die.random() < 0.4
            }
        if to:
            told["to"] = to
        if die.random() < 0.5 and todo.HEATS:
            told["heats"] = str(die.randint(0, 4))
        for name, sort in todo.AMOUNTS.items():
            if die.random() < 0.4:
                told[name] = "2 %" if sort is Kind.SHARE else self._size(1, 20)
        if die.random() < 0.2:
            told["loses"] = die.choice(("3 mm", "2 %", "5 g", "60 mm"))
        if die.random() < 0.4:
            told["colour"] = die.choice(("orange", "light yellow", "white"))
        return told
