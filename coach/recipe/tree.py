"""Reads the text of a recipe into plain lists, mappings and text, with the place of each."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Final, NamedTuple

import yaml
from yaml.composer import Composer

from coach.quantities.words import counted
from coach.recipe.faults import refused
from coach.recipe.findings import Findings, Path, Place, Places, Written
from coach.recipe.text import LARGEST_BYTES, too_large
from coach.recipe.words import echo, key, own_name

DEEPEST: Final = 12
MOST_NODES: Final = 10_000

#: Characters a screen or a file could take for an order: controls but tab and line break, turns of the
#: writing direction, half characters.
_UNFIT: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")

#: What the parsers in C and in Python take differently, as far as mutated recipes have shown: signs other
#: than letters and those of the trade, question marks (which begin keys), a remark behind | or >, and lines
#: that begin a file. And a remark that may be none, which is looked at with its place.
_ODD: Final = re.compile(
    r"[^\n -~\xa0-\u024f\u2010-\u2027\u2030-\u205e\u20ac-\u22ff]|\?|[|>].*#|[ \t]#[^\s#]|^(?:%|---|\.\.\.)",
    re.MULTILINE,
)

#: What looks like a remark behind a text, but for the blank that one has behind its sign: “punch #3”.
#: The parser ends what it reads with a U+0000, which is no part of the text.
_LOST: Final = re.compile(r"[ \t]+#(?=[^\s#\0])[^\n\0]*")
_SYNTAX: Final = FilePath(__file__).with_name("syntax.toml")


class Plain(NamedTuple):
    """A recipe's text taken apart: mappings, lists and text."""

    tree: dict[str, object]
    places: Places
    findings: Findings  # what a recipe has no use for


def read_plain(text: str, source: str) -> Plain:
    """The plain tree of a recipe's text, and the place of every part of it.

    Every scalar stays text; keys take one spelling. Repeated keys, anchors, tags and control characters are
    findings. Raises RecipeFaults where the text cannot be taken apart at all.
    """
    if _is_too_large(text):
        raise too_large(source)
    try:
        loader = _Loader(text)
        root = loader.get_single_node()
    except yaml.reader.ReaderError as error:
        raise refused(source, _unreadable(error), *_place_in(text, error.position)) from None
    except yaml.MarkedYAMLError as error:
        said = f"{error.context or ''} {error.problem or ''}"
        slips = tomllib.loads(_SYNTAX.read_text(encoding="utf-8"))["slips"]
        message = next(slip["said"] for slip in slips if re.search(slip["sign"], said))
        if isinstance(error, _Refusal):
            message = str(error.problem)
        mark = error.problem_mark or error.context_mark
        if re.search(r"quoted scalar|simple key", said):
            mark = error.context_mark  # where it begins says more than where the parser gave up
        if out_of_line := _out_of_line(text, mark) if "<block end>" in said else "":
            message = out_of_line
        place = _place(mark)
        lost = None
        if "mapping values" in said:
            lost = _without_its_colon(text, mark) or _step_without_its_colon(text, mark)
        if "expected ':'" in said:
            lost = _with_its_colon(place[0], text.splitlines()[place[0] - 1].rstrip())
        if lost := lost or _without_its_blank(text, place[0]) or _without_its_blank(text, place[0] - 1):
            message, place = lost
        raise refused(source, message, *place) from None
    except (ValueError, OverflowError):
        # The parser lets numbers through that no character and no version has, as in "\UFFFFFFFF".
        message = "a number after a backslash or a percent sign is too large"
        raise refused(source, message) from None
    if root is None:
        raise refused(source, "the file is empty")
    if not isinstance(root, yaml.MappingNode):
        message = "a recipe begins with names and values, such as title: A hook"
        raise refused(source, message, *_place(root.start_mark))
    plain = _taken_apart(root)
    for mark, message in loader.refusals:
        plain.places.values[path := ("", len(plain.places.values))] = _place(mark)
        plain.findings.add(path, message)
    return plain


#: A name with or without a value, and no colon between them.
_NO_COLON: Final = re.compile(r"(?P<blanks> *)(?P<name>[A-Za-z][\w-]*)(?P<value> [^:#]*)?$")


def _without_its_colon(text: str, mark: yaml.Mark | None) -> tuple[str, Place] | None:
    """The line above a mark whose colon is missing, where it begins a block or the file; what to write."""
    above = text.splitlines()[: mark.line if mark is not None else 0]
    numbered = [(at, line.rstrip()) for at, line in enumerate(above, 1) if line.split("#")[0].strip()]
    if not numbered or (len(numbered) > 1 and not numbered[-2][1].endswith(":")):
        return None
    return _with_its_colon(*numbered[-1])


def _step_without_its_colon(text: str, mark: yaml.Mark | None) -> tuple[str, Place] | None:
    """The step above a mark whose operation has no colon, so that its keys hang on nothing; what to write."""
    from coach.operations import operations

    above = text.splitlines()[: mark.line if mark is not None else 0]
    at = max((at for at, line in enumerate(above, 1) if line.lstrip().startswith("- ")), default=0)
    step = above[at - 1].lstrip()[2:] if at else ""
    names = sorted(operations(), key=len, reverse=True)
    name = next((one for one in names if step.startswith(f"{one} ")), "")
    if not name or ":" in step:
        return None
    write = f"{name}: {step.removeprefix(name).partition(',')[0].strip()}"
    column = above[at - 1].index("-") + 3
    return f"a colon is missing behind {name}: write {echo(write)}", (at, column)


def _with_its_colon(at: int, line: str) -> tuple[str, Place] | None:
    if (found := _NO_COLON.fullmatch(line)) is None:
        return None
    name, value = found["name"], (found["value"] or "").strip()
    write = f"{name}: {value}" if value else f"{name}:"
    return f"a colon is missing behind {name}: write {echo(write)}", (at, len(found["blanks"]) + 1)


#: A dash or a name's colon with no blank behind it.
_NO_BLANK: Final = re.compile(
    r" *(?:- )?(?:(?P<dash>-)(?=[A-Za-z][\w ]*:)|[A-Za-z][\w -]*(?P<colon>:)(?=[A-Za-z0-9]))"
)


def _without_its_blank(text: str, at: int) -> tuple[str, Place] | None:
    """What to write where a line lacks the blank behind its dash or its colon."""
    lines = text.splitlines()
    line = lines[at - 1].rstrip() if 0 < at <= len(lines) else ""
    if (found := _NO_BLANK.match(line)) is None:
        return None
    what = "dash" if found["dash"] else "colon"
    end = found.end(what)
    write = echo(f"{line[:end].lstrip()} {line[end:]}")
    return f"a blank is missing behind the {what}: write {write}", (at, end)


def _out_of_line(text: str, mark: yaml.Mark | None) -> str:
    """How far a line is indented that stands between two depths, and those depths; "" for any other."""
    if mark is None:
        return ""
    above, here = text.splitlines()[: mark.line], mark.column
    depths: list[int] = []
    for line in (one for one in above if one.strip() and not one.lstrip().startswith("#")):
        depth = len(line) - len(line.lstrip(" "))
        depths = [*(one for one in depths if one < depth), depth]
    less, more = ([one for one in depths if one < here], [one for one in depths if one > here])
    if here in depths or not less or not more or text.splitlines()[mark.line][:here].strip():
        return ""
    return (
        f"this does not line up: it has {counted(here, 'blank')} before it, and the lines that it may "
        f"belong to have {less[-1]} or {more[0]}"
    )


def tree_of_sound_text(text: str) -> dict[str, object] | None:
    """The plain tree by the parser in C, in a tenth of the time; None where there is none or any doubt.

    `read_plain` then says what is wrong, in the words that are known here.
    """
    plain = _plain_of_sound_text(text)
    return plain.tree if plain is not None else None


def read_laid_out(text: str, source: str) -> Plain:
    """As `read_plain`, of a text that was read before: where all stands, but not its texts as written.

    It is ten times as quick where the text is sound.
    """
    return _plain_of_sound_text(text) or read_plain(text, source)


def _plain_of_sound_text(text: str) -> Plain | None:
    loader_of = _quick_loader()
    if loader_of is None or _is_too_large(text) or _ODD.search(text):
        return None
    try:
        loader = loader_of(text)
        root = loader.get_single_node()
    except (yaml.YAMLError, ValueError, OverflowError):
        return None
    if not isinstance(root, yaml.MappingNode) or loader.refusals:
        return None
    plain = _taken_apart(root)
    return None if plain.findings.found else plain


def _is_too_large(text: str) -> bool:
    return len(text) > LARGEST_BYTES or len(text.encode("utf-8", "replace")) > LARGEST_BYTES


def _taken_apart(root: yaml.Node) -> Plain:
    findings, places = Findings(), Places()
    tree = _Taking(places, findings).plain(root, ())
    return Plain(tree if isinstance(tree, dict) else {}, places, findings)


if TYPE_CHECKING:
    _Base = yaml.BaseLoader
else:
    _Base = Composer


class _Refusal(yaml.MarkedYAMLError):
    """A file that is nested too deep or too long to go on reading."""


class _Composing(_Base):
    """Composes nodes without resolving any scalar, and never follows an alias."""

    _depth = 0
    _nodes = 0

    @cached_property
    def refusals(self) -> list[tuple[yaml.Mark | None, str]]:
        """What a recipe has no use for, and where it stands."""
        return []

    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        event = self.peek_event()  # type: ignore[no-untyped-call]
        mark = event.start_mark
        self._nodes += 1
        if self._depth >= DEEPEST:
            raise _Refusal(problem="lists and names are nested too deep here", problem_mark=mark)
        if self._nodes > MOST_NODES:
            raise _Refusal(problem="the file goes on for too long: that is no recipe", problem_mark=mark)
        if isinstance(event, yaml.AliasEvent):
            self.get_event()  # type: ignore[no-untyped-call]
            name = echo(f"*{event.anchor}")
            message = f"{name} would repeat another part: write it out in full, or quote it"
            self.refusals.append((mark, message))
            return yaml.ScalarNode("tag:yaml.org,2002:str", "", mark, mark)
        anchor = [] if event.anchor is None else [echo(f"&{event.anchor}")]
        tag = [] if event.tag is None else [f"the tag {echo(event.tag)}"]
        for useless in anchor + tag:
            message = f"{useless} has no use in a recipe: leave it out, or put the text in quotes"
            self.refusals.append((mark, message))
        event.anchor = event.tag = None
        self._depth += 1
        node = super().compose_node(parent, index)
        self._depth -= 1
        return node


class _Loader(_Composing, yaml.BaseLoader):
    """The parser in Python."""


@cache
def _quick_loader() -> Callable[[str], _Composing] | None:
    """The parser in C under the same composing; None where PyYAML came without it."""
    base = getattr(yaml, "CBaseLoader", None)
    return None if base is None else type("_QuickLoader", (_Composing, base), {"__init__": base.__init__})


@dataclass(frozen=True, slots=True)
class _Taking:
    """Takes nodes apart."""

    places: Places
    findings: Findings

    def plain(self, node: yaml.Node, path: Path) -> object:
        self.places.values[path] = _place(node.start_mark)
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, path)
        if isinstance(node, yaml.SequenceNode):
            return [self.plain(one, (*path, index)) for index, one in enumerate(node.value)]
        text = str(node.value)
        self._keep(node, text, path)
        self._lost(node, path)
        if unfit := _UNFIT.search(text):
            message = f"the character U+{ord(unfit[0]):04X} has no use in a recipe: take it out"
            self.findings.add(path, message)
            text = _UNFIT.sub(" ", text)
        return text

    def _keep(self, node: yaml.Node, text: str, path: Path) -> None:
        """The text as it stands in the file; the parser in C has no use for it, and no file to look into."""
        start, end = node.start_mark, node.end_mark
        if start.buffer is not None:
            raw = start.buffer[start.pointer : start.pointer + end.index - start.index]
            self.places.written[path] = Written(raw, text, _place(start))

    def _lost(self, node: yaml.Node, path: Path) -> None:
        """Tell of what would be taken for a remark behind a text that is not in quotes."""
        mark = node.end_mark
        if mark.buffer is None or not isinstance(node, yaml.ScalarNode) or node.style:
            return
        lost = _LOST.match(mark.buffer, mark.pointer)
        if lost:
            said = echo(lost[0].strip())
            message = f"from here on this is a remark and would be left out: {said}. Put the text in quotes"
            at = (*path, "", len(self.places.values))
            self.places.values[at] = (mark.line + 1, mark.column + 1 + lost[0].index("#"))
            self.findings.add(at, message)

    def _mapping(self, node: yaml.MappingNode, path: Path) -> dict[str, object]:
        taken: dict[str, object] = {}
        for written, meant in node.value:
            place = _place(written.start_mark)
            if not isinstance(written, yaml.ScalarNode) or not written.value.strip() or written.value == "<<":
                odd = (*path, "", len(self.places.values))
                self.places.values[odd] = place
                self.findings.add(odd, "a plain name and a colon belong here")
                continue
            raw = _UNFIT.sub(" ", written.value)
            name = own_name(raw) if _is_of_own_names(path) else key(raw)
            here = (*path, name)
            if name in taken:
                again = (*path, "", len(self.places.values))
                self.places.values[again] = place
                first = self.places.keys[here][0]
                self.findings.add(again, f"{echo(written.value)} is said twice: first in line {first}")
                continue
            self.places.keys[here] = place
            taken[name] = self.plain(meant, here)
            if not isinstance(meant, yaml.ScalarNode):
                # What is wrong with a whole block is told at its name.
                self.places.values[here] = place
        return taken


def _is_of_own_names(path: Path) -> bool:
    return path == ("pieces",) or (len(path) == 3 and path[0] == "pieces" and path[2] == "zones")


def _place(mark: yaml.Mark | None) -> Place:
    return (1, 1) if mark is None else (mark.line + 1, mark.column + 1)


def _place_in(text: str, position: int) -> Place:
    before = text[:position]
    return before.count("\n") + 1, position - before.rfind("\n")


def _unreadable(error: yaml.reader.ReaderError) -> str:
    character = error.character
    number = ord(character) if isinstance(character, str) else int(character)
    return f"the character U+{number:04X} cannot be read: take it out"
