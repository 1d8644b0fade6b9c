"""Grades of iron and steel, found in the files of a folder, one grade to a file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Final

from coach.files import text_of
from coach.metals import own_folders
from coach.metals.grade_file import Grade, GradeFaults, grade_in, read_grade
from coach.quantities.errors import briefly, nearest, odd_in, signs_alike
from coach.quantities.refusal import NotKnown

_BUNDLED: Final = Path(__file__).parent / "grades"
#: How much of what was typed is told back (our choice).
_LONGEST_ECHO: Final = 30

#: The smith's own grades that the job in hand was begun with.
_kept: dict[str, Grade] = {}
#: By the folders and what was asked for: the same few are asked for again and again.
_known: dict[tuple[tuple[Path, ...], str], Grade] = {}


def keep_to(texts: Mapping[str, str]) -> None:
    """Let a job keep to the grades that it was begun with, whatever has become of their files since.

    `texts` are those of the files, by the names that the job knows them by. Raises GradeFaults.
    """
    _kept.clear()
    _kept.update({_fold(name): grade_in(text, name) for name, text in texts.items()})
    _known.clear()


def own_text(name: str) -> str | None:
    """The text of the smith's own file that describes this grade; None for one that comes with the coach."""
    for folder in reversed(own_folders()):
        files, faults = _files(folder)
        if faults:
            raise GradeFaults(faults)
        for path in files:
            with suppress(GradeFaults):
                if _fold(name) in map(_fold, read_grade(path).names):
                    return text_of(path)
    return None


def grade(name: str) -> Grade:
    """The grade of this name or alias, whatever its case, blanks and hyphens.

    That of the job in hand comes first, then the smith's own, then those that come with the coach.
    Raises NotKnown, which names the nearest, and GradeFaults as `grades` does.

    >>> grade("aisi 1045").name
    'C45'
    """
    asked = _fold(name)
    if asked in _kept:
        return _kept[asked]
    key = own_folders(), asked
    if key not in _known:
        _known[key] = _found(name)
    return _known[key]


def _found(name: str) -> Grade:
    asked = _fold(name)
    own = _BUNDLED / f"{'-'.join(name.casefold().split())[:_LONGEST_ECHO]}.toml"
    alone = not any(any(_files(folder)) for folder in own_folders())
    if alone and re.fullmatch(r"[a-z0-9-]+", own.stem) and own.is_file():
        one = read_grade(own)
        if _fold(one.name) == asked:
            return one  # without waiting for all the others to be read
    sound, faults = _sound()
    known = {_fold(word): found for found in sound for word in found.names}
    if asked in known and not (faults and asked in _named_wrongly()):
        return known[asked]
    if faults:
        raise GradeFaults(faults)  # it may be meant by a file that cannot be read
    raise _no_grade(name, {word: found.name for word, found in known.items()})


def _no_grade(name: str, known: Mapping[str, str]) -> NotKnown:
    """The refusal of a name that no grade has: numbers that are much alike are other steels altogether."""
    asked, folded = name[:_LONGEST_ECHO], _fold(name)
    figures = set(re.findall(r"\d+", folded))
    alike = [word for word in known if not figures or figures & set(re.findall(r"\d+", word))]
    alike += [word for word in known if signs_alike(word) == signs_alike(folded)]  # 1O75 with a letter O
    if (near := nearest(folded[:_LONGEST_ECHO], alike)) is not None:
        hint = f"; the nearest is {known[near]}."
        return NotKnown(f"There is no grade {briefly(asked)}{odd_in(asked)}{hint}")
    numbers = ", and steels whose numbers look alike are not alike" if figures else ""
    listed = ", ".join(dict.fromkeys(known.values()))
    return NotKnown(
        f"There is no grade {briefly(asked)}{odd_in(asked)}{numbers}; there are {listed}. Another: "
        "a file of its own (`coach steel --template`) or the coupon test (`coach steel unknown steel`)."
    )


def grades() -> tuple[Grade, ...]:
    """Every grade, softest first: those that come with the coach, then those of the smith's own folders.

    A grade of a later folder takes the place of an earlier one of the same name; a folder that is not there
    holds none. Raises GradeFaults with every fault of every file at once.
    """
    sound, faults = _sound()
    faults += _shared_names(sound)
    if faults:
        raise GradeFaults(faults)
    return tuple(sorted(sound, key=_softness))


def _sound() -> tuple[tuple[Grade, ...], list[str]]:
    """Every grade whose file can be read, and what is wrong with the others."""
    found = {_fold(one.name): one for one in _bundled()}
    faults: list[str] = []
    for folder in dict.fromkeys(own_folders()):
        here, wrong = _folder(folder)
        found |= {_fold(one.name): one for one in here}
        faults += wrong
    return tuple(found.values()), faults


@cache
def _bundled() -> tuple[Grade, ...]:
    found, faults = _folder(_BUNDLED)
    if faults or not found:
        missing = "The coach's own grades are missing from its installation; install it again."
        raise GradeFaults(faults or [missing])
    return found


def _folder(folder: Path) -> tuple[tuple[Grade, ...], list[str]]:
    found: dict[str, Grade] = {}
    files, faults = _files(folder)
    for path in files:
        try:
            one = read_grade(path)
        except GradeFaults as wrong:
            faults += wrong.faults
            continue
        if _fold(one.name) in found:
            faults.append(f"{path.name}: another file of this folder already describes {one.name}.")
        found[_fold(one.name)] = one
    return tuple(found.values()), faults


def _files(folder: Path) -> tuple[list[Path], list[str]]:
    """The grade files of a folder, none where there is no such folder yet; and why it cannot be read."""
    try:
        return sorted(path for path in folder.iterdir() if path.suffix == ".toml"), []
    except FileNotFoundError:
        return [], []
    except OSError as error:
        return [], [f"{folder}: the folder of grades cannot be read: {error.strerror or error}."]


def _named_wrongly() -> frozenset[str]:
    """What the smith's own files that cannot be read would answer to, as far as they tell."""
    names: list[str] = []
    for folder in own_folders():
        here: set[str] = set()
        for path in _files(folder)[0]:
            try:
                name = read_grade(path).name
            except GradeFaults:
                names += (path.stem, *_names_told(path))
                continue
            if _fold(name) in here:  # two files of a folder describe it
                names.append(name)
            here.add(_fold(name))
    return frozenset(map(_fold, names))


def _names_told(path: Path) -> list[str]:
    with suppress(OSError, UnicodeDecodeError):
        lines = re.findall(r"^(?:name|aliases)\b.*", text_of(path), re.MULTILINE)
        return [part for line in lines for part in re.split(r"[\"'=,\[\]]", line)]
    return []


def _shared_names(found: Iterable[Grade]) -> list[str]:
    owners: dict[str, str] = {}
    faults = []
    for one in found:
        for word in dict.fromkeys(map(_fold, one.names)):
            if word in owners:
                faults.append(f"Both {owners[word]} and {one.name} answer to the name {word!r}.")
            owners.setdefault(word, one.name)
    return faults


def _fold(name: str) -> str:
    return re.sub(r"[\s_-]+", "", name.casefold()).removeprefix("aisi").removeprefix("sae")


def _softness(one: Grade) -> tuple[bool, float, str]:
    return (one.carbon_share is None, one.carbon_share or 0.0, one.name)
