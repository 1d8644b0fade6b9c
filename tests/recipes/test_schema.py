"""The JSON Schema that ships with the package is the one that the models make."""

from __future__ import annotations

from collections.abc import Iterator

import yaml

from coach.forms import kinds
from coach.operations import operations
from coach.recipe.schema import MESSAGES, SCHEMA_FILE, check, json_schema, schema_text
from coach.recipe.tree import read_plain
from tests.recipes.texts import HAMMER, PIN


def test_the_schema_that_ships_is_the_one_the_models_make() -> None:
    assert SCHEMA_FILE.read_text(encoding="utf-8") == schema_text()


def test_the_schema_offers_every_operation_form_and_dimension() -> None:
    parts = json_schema()["$defs"]
    assert set(operations()) <= parts["Step"]["properties"].keys()
    assert parts["Piece"]["properties"]["size"]["anyOf"][0]["examples"] == list(kinds())
    for form in kinds().values():
        assert {*form.DIMENSIONS} <= parts["Zone"]["properties"].keys()
    for todo in operations().values():
        assert {*todo.EXTRAS, *todo.AMOUNTS} <= parts["Step"]["properties"].keys()


def test_the_schema_takes_keys_with_blanks_and_with_underscores() -> None:
    zone = json_schema()["$defs"]["Zone"]["properties"]
    assert zone["takes up"] == zone["takes_up"]
    assert zone["hole long"] == zone["hole_long"]


def test_every_name_in_the_schema_is_described_and_none_may_be_empty() -> None:
    def parts(schema: object) -> Iterator[dict[str, object]]:
        if isinstance(schema, dict):
            yield schema
            for inside in schema.values():
                yield from parts(inside)

    for part in parts(json_schema()):
        assert part.get("type") != "null"
        if isinstance(properties := part.get("properties"), dict):
            assert part["additionalProperties"] is False
            for name, said in properties.items():
                assert said.get("description") or name in ("size", "scale", "usual"), name


def test_what_an_editor_sees_as_numbers_and_answers_is_allowed_for() -> None:
    step = json_schema()["$defs"]["Step"]["properties"]
    typed = yaml.safe_load("{heats: 3, rest: no, slug: 6}")
    assert "number" in step["heats"]["type"]
    assert isinstance(typed["heats"], int)
    assert typed["rest"] in step["rest"]["enum"]
    assert "number" in step["slug"]["type"]


def test_a_sound_tree_has_no_findings() -> None:
    for text in (PIN, HAMMER):
        assert check(read_plain(text, "x").tree) == []


def test_everything_the_models_can_find_wrong_has_its_sentence() -> None:
    slips = {
        "missing": PIN.replace("recipe: Drift pin\n", ""),
        "extra_forbidden": PIN.replace("recipe:", "recpie: x\nrecipe:"),
        "no_operation": PIN.replace("taper:", "tapr:"),
        "string_type": PIN.replace("recipe: Drift pin", "recipe: [a]"),
        "model_type": PIN.replace("  - taper: pin", "  - forge it"),
        "dict_type": PIN.replace("pieces:\n", "pieces: []\nx:\n"),
        "list_type": PIN.replace("steps:\n", "steps: {}\nx:\n"),
        "string_too_short": PIN.replace("recipe: Drift pin", "recipe:"),
        "string_too_long": PIN.replace("recipe: Drift pin", "recipe: " + "x" * 201),
        "too_long": PIN.replace("recipe:", "tools: [" + "x, " * 101 + "]\nrecipe:"),
        "size": PIN.replace("recipe:", "marks: long\nrecipe:"),
        "word": PIN.replace("recipe:", "units: ell\nrecipe:"),
    }
    assert slips.keys() == MESSAGES.keys()
    for kind, text in slips.items():
        messages = [str(finding.message) for finding in check(read_plain(text, "x").tree)]
        start = MESSAGES[kind].rpartition("}")[2] or MESSAGES[kind].partition("{")[0]
        assert any(start in message for message in messages), kind
        assert not any("Input should" in message for message in messages)
