"""Words with figures in them: a sentence that is told in whichever units are asked for.

A thing that declares itself in one file (an operation, a way back, a refusal) brings its own words so; only
`coach.telling` makes text of them.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from string import Formatter
from typing import NamedTuple, TypeAlias

from coach.quantities.figure import Apart, Figure, Limit, Span, Wanted

Part: TypeAlias = "str | int | Apart | Figure | Limit | Span | Wanted | Words"


class Words(NamedTuple):
    """A template with a pair of braces for each part; nothing in the parts is ever taken for a template.

    In the braces may stand how a figure is told: `{:±}` with its doubt, `{:~}` as about so much, with the
    range it may lie in, `{:+}` with its sign, `{:n}` without its unit, `{:=}` as it was typed,
    `{:mm}` or `{:in}` in those units whichever are asked for, `{:chance}` a share as chances are told,
    `{:aim}` of what is wanted the size that is aimed at, as it stands between its limits.
    """

    template: str = ""
    parts: tuple[Part, ...] = ()

    def __bool__(self) -> bool:
        """Whether anything is said."""
        return bool(self.template)

    def __str__(self) -> str:
        """The words with figures in base units, for a log or a test."""
        return "".join(
            text + ("" if at is None else _in_base_units(self.parts[at], how))
            for text, at, how in pieces(self.template)
        )

    @property
    def ends_the_sentence(self) -> bool:
        """Whether a full stop stands at its end, its own or that of the part it ends with."""
        if self.template.endswith("}") and self.parts:
            last = self.parts[-1]
            return last.ends_the_sentence if isinstance(last, Words) else str(last).endswith(".")
        return self.template.endswith(".")


def _in_base_units(part: Part, how: str) -> str:
    if how == "aim" and isinstance(part, Wanted):
        return str(Figure(part.limits.nominal, part.kind))
    return str(part)


NOTHING = Words()


def say(template: str, *parts: Part) -> Words:
    """Words, as in `say("{} is {} short", "blade length", mm(4.0))`.

    Raises IndexError when the template has not as many pairs of braces as there are parts.
    """
    if sum(at is not None for _, at, _ in pieces(template)) != len(parts):
        raise IndexError(f"{template!r} does not take {len(parts)} parts")
    return Words(template, parts)


def as_words(text: str) -> Words:
    """A text that has no figures; whatever it holds is told as it stands."""
    return Words("{}", (text,)) if text else NOTHING


def run_on(words: Iterable[Words | str], between: str = " ") -> Words:
    """Words one after another, those that say nothing left out."""
    said = [one for one in words if one]
    gap = between.replace("{", "{{").replace("}", "}}")
    return Words(gap.join(["{}"] * len(said)), tuple(said))


def counted(count: int, what: str) -> str:
    """How many of a thing there are, whose name takes an s.

    >>> counted(1, "heat"), counted(3, "more heat")
    ('1 heat', '3 more heats')
    """
    return f"{count} {what}{'' if count == 1 else 's'}"


@cache
def pieces(template: str) -> tuple[tuple[str, int | None, str], ...]:
    """A template taken apart: the text before a part, the place of that part, and how it is told."""
    found: list[tuple[str, int | None, str]] = []
    at = 0
    for text, name, how, _ in Formatter().parse(template):
        if name is None:
            found.append((text, None, ""))
        else:
            found.append((text, at, how or ""))
            at += 1
    return tuple(found)
