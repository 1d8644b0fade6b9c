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
    assert parts["Step"]["properties"]["do"]["enum"] == list(operations())
    assert parts["Step"]["properties"]["form"]["enum"] == list(kinds())
    for form in kinds().values():
        assert {*form.DIMENSIONS, *form.OPTIONS} <= parts["Drawing"]["properties"].keys()
    for todo in operations().values():
        assert {*todo.EXTRAS} <= parts["Sizes"]["properties"].keys()
        assert {*todo.AMOUNTS} <= parts["Step"]["properties"].keys()


def test_the_schema_takes_keys_with_blanks_and_with_underscores() -> None:
    drawing = json_schema()["$defs"]["Drawing"]["properties"]
    assert drawing["take up"] == drawing["take_up"]
    assert drawing["hole length"] == drawing["hole_length"]


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
                assert said.get("description") or name in ("to", "scale"), name


def test_what_an_editor_sees_as_numbers_and_answers_is_allowed_for() -> None:
    step = json_schema()["$defs"]["Step"]["properties"]
    typed = yaml.safe_load("{heats: 3, rest: no, slug: 6}")
    assert {"integer", "object"} == {one["type"] for one in step["heats"]["anyOf"]}
    assert isinstance(typed["heats"], int)
    assert typed["rest"] in step["rest"]["enum"]
    assert "number" in step["slug"]["type"]
    assert json_schema()["properties"]["format"]["enum"] == [1, "1"]


def test_a_sound_tree_has_no_findings() -> None:
    for text in (PIN, HAMMER):
        assert check(read_plain(text, "x").tree) == []


def test_everything_the_models_can_find_wrong_has_its_sentence() -> None:
    slips = {
        "missing": PIN.replace("title: Drift pin\n", ""),
        "extra_forbidden": PIN.replace("title:", "tilte: x\ntitle:"),
        "string_type": PIN.replace("title: Drift pin", "title: [a]"),
        "model_type": PIN.replace("{form: round, diameter: 12}", "12 mm round"),
        "dict_type": PIN.replace("pieces:\n", "pieces: []\nx:\n"),
        "list_type": PIN.replace("steps:\n", "steps: {}\nx:\n"),
        "string_too_short": PIN.replace("title: Drift pin", "title:"),
        "string_too_long": PIN.replace("title: Drift pin", "title: " + "x" * 201),
        "too_long": PIN.replace("title:", "tools: [" + "x, " * 101 + "]\ntitle:"),
        "size": PIN.replace("100 ±3", "long"),
        "word": PIN.replace("do: taper", "do: lengthen"),
    }
    assert slips.keys() == MESSAGES.keys()
    for kind, text in slips.items():
        messages = [str(finding.message) for finding in check(read_plain(text, "x").tree)]
        start = MESSAGES[kind].rpartition("}")[2] or MESSAGES[kind].partition("{")[0]
        assert any(start in message for message in messages), kind
        assert not any("Input should" in message for message in messages)
