"""Text that is no recipe: it is refused at once, in one plain sentence, in its place."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from coach.recipe.faults import Fault, RecipeFaults
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from coach.recipe.text import LARGEST_BYTES
from coach.recipe.tree import DEEPEST, MOST_NODES, read_plain
from tests.recipes.building import build, spelt_out
from tests.recipes.texts import HAMMER, PIN


def only_fault(text: str) -> Fault:
    with pytest.raises(RecipeFaults) as refused:
        read_plain(text, "job.yaml")
    (fault,) = refused.value.faults
    return fault


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("", 1, 1, "empty"),
        ("# only a remark\n", 1, 1, "empty"),
        ("- a\n- b\n", 1, 1, "begins with names and values"),
        ("a hook\n", 1, 1, "begins with names and values"),
        ("title: a\n\tsteps: b\n", 2, 1, "tab"),
        ("title: Hook: a first one\n", 1, 12, "second colon"),
        ("title: a\n  steps: b\n", 2, 8, "indented too far"),
        ("title: a\nsteps\n", 2, 1, "colon is missing"),
        ("pieces:\n  knife\n    metal: 1075\n", 2, 3, "a colon is missing behind knife: write “knife:”"),
        ("knife:\n  metal 1075\n  bar: 50 x 8\n", 2, 3, "behind metal: write “metal: 1075”"),
        ("how: a line\n  that goes on\n  bar: 50 x 8\n", 3, 6, "indented too far"),
        ("a:\n  - b\n c: d\n", 3, 2, "line up"),
        (
            "a:\n  b:\n    c: d\n   e: f\n",
            4,
            4,
            "it has 3 blanks before it, and the lines that it may belong",
        ),
        ("a:\n  b:\n    c: d\n   e: f\n", 4, 4, "have 2 or 4"),
        ("tools: [hammer, tongs\ntitle: a\n", 2, 6, "comma or the closing ]"),
        ("stock: {form: flat, width: 3\ntitle: a\n", 2, 6, "comma or the closing }"),
        ("title: 'a hook\n", 1, 8, "quotation mark"),
        ('title: "a hook\n', 1, 8, "quotation mark"),
        ('title: "a\\hook"\n', 1, 8, "backslash"),
        ('title: "\\U99999999"\n', 1, 1, "too large"),
        ("title: @hook\n", 1, 8, "put it in quotes"),
        ("title: * hook\n", 1, 9, "* or &"),
        ("title: !<hook\n", 1, 14, "exclamation mark"),
        ("title: a\n--- \ntitle: b\n", 2, 1, "one recipe to a file"),
        ("how: | text\n  more\n", 1, 8, "next line"),
        ("%TITLE a\ntitle: a\n", 2, 1, "one recipe to a file"),
        ("title: a\x00b\n", 1, 9, "U+0000"),
        ("title: a\nhow: \ud800\n", 2, 6, "U+D800"),
    ],
)
def test_what_is_not_laid_out_as_yaml_is_told_in_plain_words(
    text: str, line: int, column: int, said: str
) -> None:
    fault = only_fault(text)
    assert said in str(fault.message)
    assert (fault.line, fault.column) == (line, column)
    for strange in ("scanning", "token", "mapping", "scalar", "<block", "expected"):
        assert strange not in str(fault.message)


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("title: a\ntitle: b\n", 2, 1, "said twice: first in line 1"),
        ("take up: a\nTake_Up: b\n", 2, 1, "said twice"),
        ("title: !!python/object:os.system x\n", 1, 8, "tag"),
        ("title: !!int 3\n", 1, 8, "tag"),
        ("title: ! x\n", 1, 8, "tag"),
        ("title: &one a\n", 1, 8, "“&one”"),
        ("title: *one\n", 1, 8, "“*one”"),
        ("<<: {a: b}\n", 1, 1, "plain name"),
        ("? [a, b]\n: c\n", 1, 3, "plain name"),
        ('title: "a\\x1b[31mred"\n', 1, 8, "U+001B"),
        ('title: "a\\ud83d"\n', 1, 8, "U+D83D"),
        ('title: "a\\u202eb"\n', 1, 8, "U+202E"),
    ],
)
def test_what_a_recipe_has_no_use_for_is_a_finding(text: str, line: int, column: int, said: str) -> None:
    plain = read_plain(text, "job.yaml")
    (fault,) = plain.findings.faults(plain.places, "job.yaml")
    assert said in str(fault.message)
    assert (fault.line, fault.column) == (line, column)


@pytest.mark.parametrize(
    "written", ["no", "12:30", "010", "1_000", "2024-01-01", ".nan", "1e3", "3/8", "~", "0x1F"]
)
def test_every_value_stays_the_text_it_was_written_as(written: str) -> None:
    assert read_plain(f"size: {written}\n", "x").tree == {"size": written}


def test_keys_take_one_spelling_but_the_smiths_own_names_stay() -> None:
    text = "Also  Hot: 1\npieces:\n  Left jaw: {Metal: x, zones: {Left_Jaw: {Takes up: y}}}\n"
    assert read_plain(text, "x").tree == {
        "also_hot": "1",
        "pieces": {"Left jaw": {"metal": "x", "zones": {"Left_Jaw": {"takes_up": "y"}}}},
    }


def test_an_alias_bomb_is_never_unfolded() -> None:
    bomb = "a: &a [x, x, x, x, x, x, x, x, x]\n"
    for one, two in zip("abcdefgh", "bcdefghi", strict=True):
        bomb += f"{two}: &{two} [" + ", ".join([f"*{one}"] * 9) + "]\n"
    plain = read_plain(bomb, "x")
    assert len(plain.findings.found) == 9 + 72
    assert len(str(plain.tree)) < 1000


@pytest.mark.parametrize("opened", ["[", "{a: ", "- ", "? "])
def test_deep_nesting_is_refused(opened: str) -> None:
    assert "nested too deep" in str(only_fault(opened * 5000).message)
    assert DEEPEST < 50


def test_too_many_parts_are_refused() -> None:
    assert "too long" in str(only_fault("a: [" + "b," * MOST_NODES + "]").message)


@pytest.mark.parametrize("letter", ["x", "é", "#", "[", "\n", "a: b\n", "\ud800"])
def test_ten_megabytes_are_refused_unread(letter: str) -> None:
    assert "256 kB" in str(only_fault(letter * (10_000_000 // len(letter))).message)
    assert "256 kB" in str(only_fault("é" * (LARGEST_BYTES // 2 + 1)).message)


def test_a_long_number_is_a_fault_of_its_own_place_only() -> None:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(PIN.replace("long 100 ±3", f"long {'9' * 200}"), "x")
    (fault,) = refused.value.faults
    assert fault.line == 6
    assert len(str(fault.message)) < 250


@pytest.mark.parametrize(
    "written", ["9**9**9", "__import__('os')", "1e400", "nan", "inf", "-3", "0", "1/0", "🔨", "１２", "''"]
)
def test_a_size_is_never_evaluated(written: str) -> None:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(PIN.replace("long 100 ±3", f"long {written}"), "x")
    assert [fault.line for fault in refused.value.faults] == [6]


# ── whatever is typed, only RecipeFaults comes out ──────────────────────────────────────────────


def _faults(make: Callable[[], Recipe]) -> tuple[Fault, ...] | None:
    """The faults of what is refused; None when a recipe comes out. Anything else is an error."""
    try:
        return None if isinstance(make(), Recipe) else ()
    except RecipeFaults as refused:
        return refused.faults


def _read(text: str) -> None:
    faults = _faults(lambda: read_recipe(text, "job.yaml"))
    if faults is not None:
        assert faults
        for fault in faults:
            assert fault.line >= 1
            assert fault.column >= 1
            assert fault.line <= text.count("\n") + text.count("\r") + 2 + sum(
                map(text.count, "\x85\u2028\u2029")
            )


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
@example('a: "\\UFFFFFFFF"')
@example("%YAML 1." + "9" * 5000 + "\n---\na: b")
def test_any_text_at_all_is_read_or_refused(text: str) -> None:
    _read(text)


_PIECES = st.sampled_from(
    [":", "- ", "{", "}", "[", "]", ",", "'", '"', "\t", "&a ", "*a", "!!x ", "|", ">", "%", "@", "\n", "  ",
     "\x00", "±", "to ", " x ", ", ", "wide free", "eye", "with face", "3 heats", "at ", "between ",
     "3 mm", "-1", "none"]
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_recipe_with_slips_of_the_hand_is_read_or_refused(data: st.DataObject) -> None:
    text = data.draw(st.sampled_from([PIN, HAMMER]))
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text)))
        end = min(len(text), start + data.draw(st.integers(0, 12)))
        text = text[:start] + data.draw(_PIECES) + text[end:]
    _read(text)


_WORDS = sorted(
    {"do", "zone", "lay", "to", "heats", "heated", "colour", "temperature", "check", "draw", "punch",
     "weld", "temper"}
    | {"title", "pieces", "drawing", "steps", "units", "scale", "metal", "stock", "zones", "body",
       "face", "poll", "eye", "form", "flat", "square", "profile", "stations", "round", "hole", "through",
       "width", "thickness", "length", "side", "take_up", "1", "28 ±1", "none", "mm", "", "mark out", "C45"}
)  # fmt: skip
_TREES = st.recursive(
    st.sampled_from(_WORDS) | st.text(max_size=5) | st.none() | st.integers() | st.booleans() | st.floats(),
    lambda part: st.lists(part, max_size=4) | st.dictionaries(st.sampled_from(_WORDS), part, max_size=6),
    max_leaves=30,
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.sampled_from(_WORDS), _TREES, max_size=8))
def test_any_tree_at_all_is_built_or_refused(tree: dict[str, object]) -> None:
    assert _faults(lambda: build(tree)) != ()


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_sound_tree_with_one_part_put_wrong_is_built_or_refused(data: st.DataObject) -> None:
    tree = spelt_out(data.draw(st.sampled_from([PIN, HAMMER])))
    part: object = tree
    while True:
        keys = list(part) if isinstance(part, dict) else list(range(len(part)))  # type: ignore[arg-type]
        key = data.draw(st.sampled_from(keys))
        inside = part[key]  # type: ignore[index]
        if isinstance(inside, (dict, list)) and inside and data.draw(st.booleans()):
            part = inside
            continue
        part[key] = data.draw(_TREES)  # type: ignore[index]
        break
    assert _faults(lambda: build(tree)) != ()
