"""Tells mypy to refuse `str()` of words and of refusals: what people read is told in the units asked for.

`str()` writes figures in base units, so that a job in inches would be told in millimetres.
`coach.telling.words` makes text of `Words`; those of a refusal, its `.words`, go on as they are.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, TypeAlias

from mypy.plugin import FunctionContext, MethodContext, Plugin
from mypy.types import Instance, TupleType, Type, UnionType, get_proper_type

REFUSED: Final = "Words or a Refusal as text are in base units: write(), sentence() or .words instead"
_NOT_AS_TEXT: Final = {"coach.quantities.words.Words", "coach.quantities.refusal.Refusal"}
#: Where they are made, kept in the file of a log, and set in order.
_MAY: Final = ("coach/quantities/", "coach/log/", "coach/recipe/faults.py", "tests/")

_Context: TypeAlias = FunctionContext | MethodContext


class _WordsAsText(Plugin):
    def get_function_hook(self, fullname: str) -> Callable[[FunctionContext], Type] | None:
        return _checked if fullname in ("builtins.str", "builtins.print") else None

    def get_method_hook(self, fullname: str) -> Callable[[MethodContext], Type] | None:
        return _checked if fullname == "builtins.str.format" else None  # mypy reads f-strings so, too


def _checked(context: _Context) -> Type:
    path = context.api.path.replace("\\", "/")
    words = any(_is_words(given) for some in context.arg_types for given in some)
    if words and not any(path.startswith(start) for start in _MAY):
        context.api.fail(REFUSED, context.context)
    return context.default_return_type


def _is_words(given: Type) -> bool:
    found = get_proper_type(given)
    if isinstance(found, UnionType):
        return any(map(_is_words, found.items))
    if isinstance(found, TupleType):
        found = found.partial_fallback
    return isinstance(found, Instance) and any(base.fullname in _NOT_AS_TEXT for base in found.type.mro)


def plugin(version: str) -> type[Plugin]:
    """What mypy asks for, whatever its version."""
    return _WordsAsText
