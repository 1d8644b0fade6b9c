"""What stands where a recipe's file is named but is no ordinary file is said to be that."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from coach.recipe.library import NoRecipe, find_recipe


@pytest.mark.parametrize(
    "make",
    [os.mkfifo, os.mkdir, lambda path: path.symlink_to("/dev/zero"), lambda path: path.symlink_to(path.name)],
)
def test_a_pipe_a_device_a_folder_or_an_endless_link_is_no_recipe(
    tmp_path: Path, make: Callable[[Path], object]
) -> None:
    path = tmp_path / "pin.yaml"
    make(path)
    with pytest.raises(NoRecipe, match="is no ordinary file, so it is no recipe: name another"):
        find_recipe(str(path), [])
