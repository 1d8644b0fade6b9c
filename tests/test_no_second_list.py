"""A new form, operation, grade, command or screen is one new file: there is no second list to keep."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.one_file.additions import ADDITIONS, Addition

ROOT = Path(__file__).resolve().parents[1]


@pytest.mark.parametrize("addition", ADDITIONS, ids=lambda addition: addition.kind)
def test_one_more_is_one_file_and_is_at_work_everywhere(addition: Addition, tmp_path: Path) -> None:
    house, shop = tmp_path / "house", tmp_path / "shop"
    shop.mkdir()
    for folder in ("coach", "recipes", "tests", "docs"):
        shutil.copytree(ROOT / folder, house / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for name, text in addition.files.items():
        path = house / name
        assert not path.exists(), f"{name} is there already"
        path.write_text(text, encoding="utf-8")
    proof = shop / "proof.py"
    head = "from tests.one_file.proving import coach, figure, page, recipe\n"
    proof.write_text(head + addition.proof, encoding="utf-8")
    places = {"PYTHONPATH": str(house), "BETWEEN_HEATS_HOME": str(shop), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [sys.executable, str(proof)],
        cwd=shop,
        env={**os.environ, **places},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
