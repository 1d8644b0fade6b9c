"""The repository keeps its own rules: what stands where, and how a file opens."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.words_as_text import REFUSED

ROOT = Path(__file__).resolve().parents[1]
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "coach", "recipes", "tests", "docs"}
LONGEST_FILE_LINES = 400
TEXT_ENDINGS = {".md", ".py", ".tcss", ".toml", ".yaml", ".yml", ".txt", ".json"}

# The spelling is British, but for the title of a work of 1900; only prose is searched, as code must spell the
# way its libraries do.
PROSE = ("README.md", "DEVELOPERS.md", "docs", "recipes")
AMERICAN = re.compile(
    r"\b(?:aluminum|calipers?|fibers?|gray|mold(?:ed|ing)?|colors?(?! of Heated Steel)|colored)\b",
    re.IGNORECASE,
)

UNFINISHED = re.compile(
    r"\b(?:TODO|FIXME|XXX|TBD)\b|pytest\.(?:mark\.)?(?:skip|xfail|importorskip)|@unittest\.skip"
)
SILENCED = re.compile(r"#\s*(?:noqa(?!:)|type:\s*ignore(?!\[))", re.IGNORECASE)
SOMEONES_COMPUTER = re.compile(r"/(?:home|root|Users)/|[A-Z]:\\Users\\")
WAITING = re.compile(r"\btime\.sleep\(|\basyncio\.sleep\((?!0\))")
#: Rooms that hold values: only what stands above them knows the units that sizes are shown in.
ROOMS_OF_VALUES = (
    "bench",
    "log",
    "reckoner",
    "ledger",
    "recipe",
    "operations",
    "fire",
    "forms",
    "finish",
    "metals",
)
UNITS_AS_SHOWN = re.compile(r"Shown|write_\w+")
EMPTY_NAMES = {"common", "data", "helper", "helpers", "info", "manager", "misc", "util", "utils"}


def tracked_files() -> list[Path]:
    """The files under version control, or all that are not hidden where there is none."""
    git = ["git", "-c", "safe.directory=*", "-C", str(ROOT), "ls-files", "-z"]
    if (ROOT / ".git").exists():
        listed = subprocess.run(git, capture_output=True, text=True, check=True).stdout
        found = [ROOT / name for name in listed.split("\0") if name]
    else:
        found = [
            path
            for path in ROOT.rglob("*")
            if path.is_file()
            and not any(part.startswith((".", "__pycache__")) for part in path.relative_to(ROOT).parts)
        ]
    return [path for path in found if path.is_file()]


def modules(*folders: str) -> list[Path]:
    """The Python files under these folders of the repository."""
    return sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))


def lines_that_match(pattern: re.Pattern[str], paths: list[Path]) -> list[str]:
    """Where the pattern is found, as file, line number and line; this file, which names it, apart."""
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()}"
        for path in paths
        if path.suffix in TEXT_ENDINGS and path != Path(__file__).resolve()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)
        if pattern.search(line)
    ]


def test_the_top_level_holds_nothing_else_but_dot_files() -> None:
    names = {path.relative_to(ROOT).parts[0] for path in tracked_files()}
    assert {name for name in names if not name.startswith(".")} <= TOP_LEVEL


@pytest.mark.parametrize("name", sorted(TOP_LEVEL))
def test_the_top_level_is_complete(name: str) -> None:
    assert (ROOT / name).exists()


def test_every_module_opens_with_a_sentence() -> None:
    def opens_well(path: Path) -> bool:
        text = path.read_text(encoding="utf-8")
        if not text and path.name == "__init__.py" and path.is_relative_to(ROOT / "tests"):
            return True  # a folder of tests has nothing to say of itself
        said = ast.get_docstring(ast.parse(text)) or ""
        return said.split("\n\n")[0].rstrip().endswith((".", ":"))

    assert [str(path) for path in modules("coach", "tests") if not opens_well(path)] == []


def test_no_file_of_the_package_grows_past_its_limit() -> None:
    files = [*modules("coach"), *(ROOT / "coach").rglob("*.tcss")]
    lengths = {str(path): len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    assert {name: length for name, length in lengths.items() if length > LONGEST_FILE_LINES} == {}


def test_rooms_that_hold_values_know_nothing_of_units_as_shown() -> None:
    brought = [
        f"{path.relative_to(ROOT)} brings {name.name}"
        for path in modules(*(f"coach/{room}" for room in ROOMS_OF_VALUES))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("coach.")
        for name in node.names
        if UNITS_AS_SHOWN.fullmatch(name.name)
    ]
    assert brought == []


TOLD = """
from coach.quantities import NOTHING, Refusal, mm, say
from coach.telling.words import write

WORDS = say("{} long", mm(3.0))
FAULT = Refusal("{} is too long", mm(3.0))
"""


def test_words_and_refusals_are_made_text_by_the_telling_alone(tmp_path: Path) -> None:
    lines = {
        'print(f"It may not rest: {WORDS}")': True,
        "str(FAULT)": True,
        '"{}".format(NOTHING or "nothing")': True,
        "print(FAULT)": True,
        "str(WORDS.template)": False,
        "print(write(FAULT.words))": False,
        'say("{}: {}", "no", WORDS)': False,
    }
    # mypy reads it in the place of a file of the commands, with the settings that the whole house is held to.
    place, text = "coach/cli/codes.py", tmp_path / "text.py"
    text.write_text(TOLD + "\n".join(lines) + "\n", encoding="utf-8")
    options = ["--config-file", "pyproject.toml", "--cache-dir", str(tmp_path), "--hide-error-context"]
    done = subprocess.run(
        [sys.executable, "-m", "mypy", *options, "--shadow-file", place, str(text), place],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    first = TOLD.count("\n") + 1
    refused = [first + at for at, is_refused in enumerate(lines.values()) if is_refused]
    assert [int(line.split(":")[1]) for line in done.stdout.splitlines() if REFUSED in line] == refused, (
        done.stdout + done.stderr
    )


def test_every_folder_of_modules_is_a_package() -> None:
    folders = {path.parent for path in modules("coach", "tests")}
    assert [str(folder) for folder in sorted(folders) if not (folder / "__init__.py").is_file()] == []


def test_no_module_has_an_empty_name() -> None:
    assert [str(path) for path in modules("coach", "tests") if path.stem in EMPTY_NAMES] == []


@pytest.mark.parametrize(
    "pattern",
    [
        pytest.param(UNFINISHED, id="unfinished work"),
        pytest.param(SILENCED, id="a check silenced without a name"),
        pytest.param(SOMEONES_COMPUTER, id="a path of one computer"),
    ],
)
def test_no_file_holds(pattern: re.Pattern[str]) -> None:
    assert lines_that_match(pattern, tracked_files()) == []


def test_no_test_waits_on_the_clock() -> None:
    assert lines_that_match(WAITING, modules("tests")) == []


def test_prose_is_spelt_the_british_way() -> None:
    prose = [path for path in tracked_files() if path.relative_to(ROOT).parts[0] in PROSE]
    assert lines_that_match(AMERICAN, prose) == []
