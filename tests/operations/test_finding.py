"""Operations are found by looking at the files of the package."""

from __future__ import annotations

import importlib
import subprocess
import sys

import pytest

from coach.operations import operation, operations


@pytest.mark.parametrize("name", sorted(operations()))
def test_an_operation_lies_in_the_file_of_its_name_so_that_it_is_found_alone(name: str) -> None:
    module = importlib.import_module(f"coach.operations.{name.replace(' ', '_')}")
    assert type(operation(name)).__module__ == module.__name__


def test_asking_for_one_operation_does_not_load_the_others() -> None:
    code = (
        "import sys; from coach.operations import operation; operation('draw'); "
        "print('coach.operations.weld' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_an_unheard_of_operation_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        operation("stretch by magic")
