"""`coach schema` prints the schema of recipes, says where it lies, and writes it out over nothing."""

from __future__ import annotations

import json
from pathlib import Path

from coach.recipe.schema import SCHEMA_FILE
from tests.cli.conftest import Coach

SCHEMA = json.loads(SCHEMA_FILE.read_text(encoding="utf-8"))


def test_the_schema_is_told_and_written_where_it_is_wanted_and_over_nothing(
    coach: Coach, tmp_path: Path
) -> None:
    assert json.loads(coach("schema").out) == SCHEMA
    path = tmp_path / "recipe.schema.json"
    assert coach("schema", str(path)).code == 0
    assert json.loads(path.read_text(encoding="utf-8")) == SCHEMA
    path.write_text("mine", encoding="utf-8")
    refused = coach("schema", str(path))
    assert refused.code
    assert "--force" in refused.err
    assert path.read_text(encoding="utf-8") == "mine"
    coach("schema", str(path), "--force")
    assert json.loads(path.read_text(encoding="utf-8")) == SCHEMA


def test_where_it_lies_is_told_for_an_editor(coach: Coach) -> None:
    told = json.loads(coach("schema", "--json").out)
    assert Path(told["file"]).read_text(encoding="utf-8") == SCHEMA_FILE.read_text(encoding="utf-8")
