"""Operations say what they are: nobody outside their own files asks for one by its name."""

from __future__ import annotations

import ast
from collections.abc import Collection, Iterator
from pathlib import Path

import pytest

import coach
from coach.operations import Does, names_of, operation, operations

HOUSE = Path(coach.__file__).parent
#: Where names are read or given: the operations themselves and the recipe reader.
AT_HOME = ("operations", "recipe")
OTHERS = sorted(
    path for path in HOUSE.rglob("*.py") if path.relative_to(HOUSE).parts[0] not in AT_HOME
) + sorted(path for path in (HOUSE / "recipe").glob("*.py") if path.stem not in ("steps", "values"))


def is_a_name(part: ast.expr) -> bool:
    return (isinstance(part, ast.Attribute) and part.attr in ("operation", "NAME")) or (
        isinstance(part, ast.Name) and part.id == "operation"
    )


def is_a_step_s(part: ast.expr) -> bool:
    return isinstance(part, ast.Attribute) and part.attr == "operation"


def literal_names(part: ast.expr) -> Collection[object]:
    return {one.value for one in ast.walk(part) if isinstance(one, ast.Constant)}.intersection(operations())


def asked_by_name(tree: ast.Module) -> Iterator[int]:
    """Lines that compare an operation's name, look one up by a literal or look something up by a name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            compared = any(map(is_a_name, sides)) and any(map(literal_names, sides))
            if compared:
                yield node.lineno
        elif isinstance(node, ast.Subscript):
            if is_a_step_s(node.slice):
                yield node.lineno
        elif isinstance(node, ast.Call) and node.args:
            first = node.args[0]
            table = isinstance(node.func, ast.Attribute) and node.func.attr == "get"
            by_name = isinstance(node.func, ast.Name) and node.func.id == "operation"
            if (table and is_a_step_s(first)) or (by_name and literal_names(first)):
                yield node.lineno


@pytest.mark.parametrize("path", OTHERS, ids=lambda path: str(path.relative_to(HOUSE)))
def test_nobody_asks_for_an_operation_by_its_name(path: Path) -> None:
    assert list(asked_by_name(ast.parse(path.read_text(encoding="utf-8")))) == []


@pytest.mark.parametrize(
    "line",
    [
        "step.operation == 'temper'",
        "'cut' != todo.NAME",
        "step.operation in ('bevel', 'bend')",
        "_TELL.get(step.operation)",
        "_TELL[step.operation]",
        "operation('tack').UNSAFE_WHY",
    ],
)
def test_asking_by_name_is_found(line: str) -> None:
    assert list(asked_by_name(ast.parse(line))) == [1]


def test_whatever_an_operation_can_be_some_operation_is() -> None:
    assert all(names_of(what) for what in Does)


def test_what_makes_a_step_safe_to_leave_can_be_done() -> None:
    for todo in operations().values():
        assert todo.UNSAFE_UNTIL is None or todo.NAME not in names_of(todo.UNSAFE_UNTIL)
        assert set(todo.UNSAFE_HEATS) <= set(todo.HEAT_NAMES)
        if todo.AGAIN_BY is not None:  # it cannot be done twice: nothing is laid on any more, or lapped
            again = operation(todo.AGAIN_BY)
            assert again.SCOPE != todo.SCOPE or not again.RESHAPES
