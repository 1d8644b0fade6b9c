"""docs/sources.md: every figure that the coach reckons with, where it is from and how far that is confirmed.

A figure declares its source beside itself, in one place: a constant in the comment above it or behind it
(which holds for those that follow without a blank line and a comment of their own), an equation in its
docstring, a row of TOML under its `source`. This module reads them; it keeps no list of its own.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs" / "sources.md"

#: The rooms whose figures mean something at the fire, at the anvil or in a standard.
ROOMS = ("fire", "metals", "finish", "forms", "operations", "ledger", "reckoner", "bench", "drafting")

#: How far a source is confirmed, the surest first. Of each: how it is told at the head of the page.
MARKS = {
    "confirmed": "the source itself, or an excerpt of it, was read",
    "confirmed second-hand": "read where another tells it: a reprint, a digest, a listing, a maker's page",
    "from memory": "nobody has looked it up for this coach",
    "common practice": "smiths do so; no source was found",
    "judgement": "a setting of ours, between what is told",
    "computed": "reckoned here from the rest",
    "by definition": "exact, or elementary geometry",
    "our choice": "how finely is reckoned or told; nothing at the anvil hangs on it",
}

NOTHING: Mapping[str, str] = MappingProxyType({})
_READ = ("confirmed", "confirmed second-hand")
_PUBLISHED = (*_READ, "from memory")
#: A year, and no temperature, clause or force.
_YEAR = re.compile(r"(?<![\d.])(?:18|19|20)\d\d(?![.\d])(?! ?(?:°|K\b|kg|mm|MPa|N\b|HV|to \d))")
#: "(confirmed)" and the like; that something is not confirmed, or how far it is, marks nothing.
_NO_MARK = r"(?<!not )(?<!is )(?<!are )(?<!was )"
_MARK = re.compile(
    rf"\b(?:confirmed second-hand|{_NO_MARK}confirmed|{'|'.join(list(MARKS)[2:])})\b", re.IGNORECASE
)
#: Halves and doubles, units, degrees Fahrenheit, a right angle and the air of the shop.
_PLAIN = {0.0, 1.0, 2.0, 3.0, 4.0, 0.5, 1.5, 10.0, 60.0, 100.0, 1000.0, 3600.0, 1.8, 32.0, 90.0, 180.0, 20.0}

_HEAD = """\
# Where the figures are from

Written by `python -m tests.write_pages` from what stands beside each figure in the code. Every constant that
means something at the fire, at the anvil or in a standard is here; a test holds that none is left out. The
edition of a standard is the one that was read or is remembered; where a newer one replaced it, that is said.
The years of a source stand under edition; "from memory" there: no published work is named, or none by its
year; "not noted": it was read, and nobody wrote down which one it was. What several figures have from one
source is told once for all of them.

"""

#: Of works that figures name without a year.
EDITIONS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    tomllib.loads(Path(__file__).with_name("editions.toml").read_text(encoding="utf-8"))
)


class Sourced(NamedTuple):
    """One figure, table or equation."""

    where: str  # its file, from coach/
    name: str
    value: str  # "" for an equation
    said: str  # what it is, and its source
    line: int

    @property
    def marks(self) -> tuple[str, ...]:
        """How far it is confirmed, the surest first; empty where nothing says so."""
        found = {one.lower() for one in _MARK.findall(self.said)}
        return tuple(mark for mark in MARKS if mark in found)

    @property
    def edition(self) -> str:
        """The years of its sources, or that they are not known; a stroke where nothing is published."""
        if not {*self.marks} & {*_PUBLISHED}:
            return "-"
        years = dict.fromkeys(_YEAR.findall(self.said))
        lacking = [one for one in ("not seen", "undated") if one in self.said]
        if years or lacking or "CFR" in self.said:
            return ", ".join((*years, *lacking)) or "as in force"
        named = [one["editions"] for name, one in EDITIONS.items() if name in self.said]
        from_memory = not {*self.marks} & {*_READ}
        return "; ".join(dict.fromkeys(named)) or ("from memory" if from_memory else "not noted")


@cache
def figures() -> tuple[Sourced, ...]:
    """Every figure of the rooms, whether it has a source or not."""
    return tuple(_figures())


def _figures() -> Iterator[Sourced]:
    for room in ROOMS:
        for path in sorted((ROOT / "coach" / room).rglob("*")):
            where = path.relative_to(ROOT / "coach").as_posix()
            if path.suffix == ".py":
                yield from figures_of(where, path.read_text(encoding="utf-8"))
            elif path.suffix == ".toml" and "template" not in path.name:
                yield from _rows(where, (), tomllib.loads(path.read_text(encoding="utf-8")))
            elif path.suffix == ".csv" and "source" in path.read_text(encoding="utf-8").splitlines()[0]:
                for row in path.read_text(encoding="utf-8").splitlines()[1:]:
                    name, *value, source = row.split(",", 3)
                    yield Sourced(where, name, " to ".join(filter(None, value)), source, 0)


def figures_of(where: str, text: str) -> Iterator[Sourced]:
    """The constants and the equations of one module."""
    tree, comments = ast.parse(text), _comments(text)
    said = _sentences(ast.get_docstring(tree) or "")
    if said:
        yield Sourced(where, "the whole module", "", said, 1)
    yield from _constants(where, "", tree.body, comments)
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef):
            yield from _constants(where, f"{node.name}.", node.body, comments, _doc(node))
        if not isinstance(node, ast.ClassDef | ast.FunctionDef):
            continue
        told = _sentences(_doc(node))
        inside = [
            text for line, (text, _) in comments.items() if node.lineno <= line <= (node.end_lineno or 0)
        ]
        bare = _figures_inside(node) if isinstance(node, ast.FunctionDef) and "forms/" not in where else set()
        if not _MARK.search(told):
            told = " ".join(filter(_MARK.search, inside)) if bare else ""
        silent = re.search(r"\bSources?:", _doc(node)) and not re.search(r"Sources?:[^.]*`", _doc(node))
        if told or silent or (bare and not said):
            yield Sourced(where, f"{node.name}()" if bare or told else node.name, "", told, node.lineno)


def without_source() -> list[str]:
    """The figures that do not say how far they are confirmed, as file, line and name."""
    found = list(figures())
    inherited = {one.name.partition(".")[2] for one in found if one.marks and "." in one.name}
    return [
        f"coach/{one.where}:{one.line} {one.name} = {one.value}"
        for one in found
        if not one.marks and one.name.partition(".")[2] not in inherited - {""}
    ]


def told_once(found: Iterable[Sourced]) -> list[Sourced]:
    """The figures of one file, those that have their source in the same words as one."""
    alike: dict[str, list[Sourced]] = {}
    for one in found:
        alike.setdefault(one.said, []).append(one)
    return [
        first._replace(
            name=", ".join(dict.fromkeys(one.name for one in (first, *rest))),
            value="; ".join(one.value for one in (first, *rest) if one.value),
        )
        for first, *rest in alike.values()
    ]


def page() -> str:
    """The whole page."""
    found = [one for one in figures() if one.marks]
    real = [one for one in found if one.marks != ("our choice",)]
    counts = {mark: sum(one.marks[-1] == mark for one in found) for mark in MARKS}
    rows = [f"| {mark} | {told} | {counts[mark]} |" for mark, told in MARKS.items()]
    lines = ["| how far confirmed | what that means | figures |", "| --- | --- | --- |", *rows]
    for where in dict.fromkeys(one.where for one in real):
        lines += [
            "",
            f"## {where}",
            "",
            "| figure | value | what it is, its source and clause | edition | how far |",
        ]
        lines += ["| --- | --- | --- | --- | --- |"]
        lines += [
            f"| {' | '.join(map(_cell, (*one[1:4], one.edition, ', '.join(one.marks))))} |"
            for one in told_once(one for one in real if one.where == where)
        ]
    lines += ["", "## Editions of works that are named without a year", ""]
    lines += ["| work | editions | what it is, and how far that is confirmed |", "| --- | --- | --- |"]
    lines += [
        f"| {_cell(name.replace(')', ''))} | {one['editions']} | {_cell(one['said'])} |"
        for name, one in EDITIONS.items()
    ]
    lines += ["", "## Plain choices of ours", "", "How finely is reckoned, how much is told at once.", ""]
    chosen = [one for one in found if one.marks == ("our choice",)]
    lines += [
        f"- {where}: {', '.join(f'`{one.name}`' for one in chosen if one.where == where)}"
        for where in dict.fromkeys(one.where for one in chosen)
    ]
    return _HEAD + "\n".join(lines) + "\n"


def _doc(node: ast.ClassDef | ast.FunctionDef) -> str:
    return ast.get_docstring(node) or ""


def _comments(text: str) -> dict[int, tuple[str, bool]]:
    """Of each line that has one: its comment, and whether nothing stands before it."""
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return {
        one.start[0]: (one.string.lstrip("#: "), one.line.lstrip().startswith("#"))
        for one in tokens
        if one.type == tokenize.COMMENT
    }


def _constants(
    where: str, of: str, body: Iterable[ast.stmt], comments: Mapping[int, tuple[str, bool]], doc: str = ""
) -> Iterator[Sourced]:
    """The constants with figures in them; those that follow each other share the comment of the first."""
    above, end = "", -1
    for node in body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        target = node.targets[0] if isinstance(node, ast.Assign) else node.target
        own: list[str] = []
        line = node.lineno - 1
        while line in comments and comments[line][1]:
            own.insert(0, comments[line][0])
            line -= 1
        inside = range(node.lineno, (node.end_lineno or node.lineno) + 1)
        own += [comments[line][0] for line in inside if line in comments]
        behind = " ".join(own)
        if (own and (_MARK.search(behind) or line < node.lineno - 1)) or node.lineno != end + 1:
            above, behind = behind, ""
        end = node.end_lineno or node.lineno
        literals = _literals(node.value)
        if not (literals or (of and _MARK.search(above))) or (
            of and literals <= {0.0, 1.0} and not _MARK.search(above)
        ):
            continue
        name = of + ast.unparse(target)
        if name[:1].islower() or "Literal" in ast.unparse(node.value):
            continue
        told = f"{above} {behind}".strip()
        said = told if _MARK.search(told) else f"{told} {_sentences(doc)}".strip()
        yield Sourced(where, name, _value(node.value), said, node.lineno)


def _literals(node: ast.AST) -> set[float]:
    return {
        float(one.value)
        for one in ast.walk(node)
        if isinstance(one, ast.Constant)
        and isinstance(one.value, int | float)
        and not isinstance(one.value, bool)
    }


def _figures_inside(node: ast.FunctionDef) -> set[float]:
    """The figures of a function's body that are more than halves, doubles and units."""
    return {
        one.value
        for part in node.body
        for one in ast.walk(part)
        if isinstance(one, ast.Constant)
        and type(one.value) is float
        and one.value not in _PLAIN
        and one.value > 1e-5
    }


def _rows(
    where: str, keys: tuple[str, ...], table: Mapping[str, object], sources: Mapping[str, str] = NOTHING
) -> Iterator[Sourced]:
    """What has a `source` in a TOML file, and every source that rows of it name."""
    sources = table.get("sources", sources)  # type: ignore[assignment]
    if "source" in table:
        rest = {key: one for key, one in table.items() if key not in ("source", "words", "note", "reason")}
        value = "; ".join(
            _written(key, one) for key, one in rest.items() if not isinstance(one, dict) or key == "times"
        )
        source = str(table["source"])
        yield Sourced(where, ".".join(keys), value, sources.get(source, source), 0)
    for key, one in table.items():
        if isinstance(one, dict):
            if key == "sources":
                yield from (Sourced(where, f"source {name}", "", said, 0) for name, said in one.items())
            else:
                yield from _rows(where, (*keys, key), one, sources)
        for part in one if isinstance(one, list) else ():
            if isinstance(part, dict):
                yield from _rows(where, (*keys, str(part.get("name", key))), part, sources)


def _written(key: str, value: object) -> str:
    if key == "value" or key == "says":
        return str(value)
    return f"{key} {value}" if len(str(value)) < 130 else f"{key}: {len(value)} rows"  # type: ignore[arg-type]


def _value(node: ast.expr) -> str:
    text = ast.unparse(node)
    return text if len(text) <= 100 else f"{text[:97]}…"


def _sentences(doc: str) -> str:
    """The paragraphs of a docstring that say how far something is confirmed, without its examples."""
    parts = re.split(r"\n\s*\n|\n(?=- )", doc)
    flat = (" ".join(one.split()) for one in parts)
    return " ".join(one for one in flat if _MARK.search(one) and ">>>" not in one)


def _cell(text: str) -> str:
    return text.replace("|", "&#124;").replace("\n", " ").replace("*", "\\*")
