"""The table of keys: what it finds wrong, and the JSON Schema that ships with the package."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import yaml

from coach.forms import kinds
from coach.operations import operations
from coach.recipe.keys import check
from coach.recipe.schema import SCHEMA_FILE, json_schema, schema_text
from coach.recipe.tree import read_plain
from tests.recipes.texts import HAMMER, PIN


def test_the_schema_that_ships_is_the_one_the_table_makes() -> None:
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
        assert list(check(read_plain(text, "x").tree)) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("title: Drift pin\n", "", "title is missing: add title:"),
        ("title:", "tilte: x\ntitle:", "“tilte” is no name that belongs here: did you mean title?"),
        ("title: Drift pin", "title: [a]", "one text belongs here, not a list or names with values"),
        (
            "{form: round, diameter: 12}",
            "12 mm round",
            "names with their values belong here, such as length: 30",
        ),
        ("pieces:\n", "pieces: []\nx:\n", "names with their values belong here, such as length: 30"),
        ("steps:\n", "steps: {}\nx:\n", "a list belongs here, one entry to a dash"),
        ("title: Drift pin", "title:", "the name stands here without a value"),
        ("title: Drift pin", "title: " + "x" * 201, "this is too long: 200 letters at most"),
        ("title:", "tools: [" + "x, " * 101 + "]\ntitle:", "this list is too long: 100 entries at most"),
        ("100 ±3", "long", "“long” is not a length; type a length such as"),
        ("do: taper", "do: lengthen", "“lengthen” is no operation: "),
    ],
)
def test_everything_that_can_be_wrong_with_the_structure_has_its_sentence(
    old: str, new: str, said: str
) -> None:
    assert old in PIN
    messages = [str(slip.message) for slip in check(read_plain(PIN.replace(old, new), "x").tree)]
    assert any(message.startswith(said) for message in messages), messages
