"""Shops of their own to measure in: a half-forged adze, a part-forged hook, and one of many jobs."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NamedTuple

from coach.bench.shop import Shop
from coach.log.body import Body
from coach.log.kinds.heat import Heat
from coach.log.kinds.note import Note
from coach.places import HOME_VARIABLE, SHOP_FILE_NAME, bundled_recipes
from coach.quantities.moments import as_entered
from tests.benchmarks.processes import coach_command

ADZE, HOOK = "carpenters-adze", "first-hook"
# The size that the half-forged adze waits for, and one like it: what to type there.
SIZE, TYPED = "bit.width", "52.3"
# What a smith would have typed by now: the job begun, a heat taken and the first step done.
_HOOK_TYPED = (("begin", HOOK), ("heat", HOOK), ("done", HOOK))
_TIMID = 24  # letters of a sentence that surely stand on one line


class Place(NamedTuple):
    """A folder that holds every folder of the coach."""

    home: Path

    @property
    def environ(self) -> dict[str, str]:
        """The environment in which the coach is at home there, its compiled code kept for the next start."""
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        return kept | {HOME_VARIABLE: str(self.home)}

    def coach(self, *words: str) -> list[str]:
        """Do what a command line says, and give the command."""
        command = [*coach_command(), *words]
        subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, check=True, env=self.environ)
        return command

    def values(self, *words: str) -> Any:
        """What a command answers in JSON, be it bad news."""
        done = subprocess.run(
            [*coach_command(), *words, "--json"],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
            env=self.environ,
        )
        return json.loads(done.stdout)

    def copy(self, home: Path) -> Place:
        """The same anew under another folder, in the place of what was there."""
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(self.home, home)
        return Place(home)


def adze_half_forged(home: Path) -> Place:
    """A shop with the demonstration's job in it."""
    place = Place(home)
    kept = kept_log(place)
    place.coach("demo", "--where", str(kept.parent), "--no-screen")
    shutil.copy(kept, _log_of(home))
    return place


def demonstration(place: Place) -> list[str]:
    """The command that opens the bench on the half-forged adze without its summary first."""
    return [*coach_command(), "demo", "--where", str(kept_log(place).parent)]


def kept_log(place: Place) -> Path:
    """The log that it is opened in."""
    return place.home / "kept" / "demo.sqlite"


def hook_part_forged(home: Path) -> Place:
    """A shop with the hook's job in it."""
    place = Place(home)
    for words in _HOOK_TYPED:
        place.coach(*words)
    return place


def many_jobs(home: Path, count: int, entries: int = 1) -> Place:
    """A shop with so many jobs of so many entries, a minute apart, made in memory and written at once."""
    recipe = bundled_recipes() / f"{HOOK}.yaml"
    path = _log_of(home)
    first = datetime(2026, 3, 2, 9, tzinfo=UTC)
    with Shop(":memory:", lambda: first) as shop:
        begun = shop.log.entries(shop.begin(recipe.read_text(encoding="utf-8"), recipe.name).job)[0]
        bodies: list[Body] = [begun.body, *(Note(text=f"note {n}", step=1) for n in range(1, entries))]
        shop.log.append_many(HOOK, 1, begun.at, bodies[1:])
        for number in range(2, count + 1):
            at = as_entered(first + timedelta(minutes=number))
            shop.log.begin_with(f"{HOOK}-{number}", [(at, body) for body in bodies])
        shop.log.save_copy(path)
    return Place(home)


def long_job(home: Path, count: int) -> Place:
    """A shop with one job of so many entries: heats, and notes that a talkative smith wrote."""
    recipe = bundled_recipes() / f"{ADZE}.yaml"
    at = "2026-03-02T09:00:00Z"
    with Shop(":memory:", lambda: datetime(2026, 3, 2, 9, tzinfo=UTC)) as shop:
        job = shop.begin(recipe.read_text(encoding="utf-8"), recipe.name).job
        made = [Note(text=f"note {n}", step=1) if n % 4 else Heat(step=1) for n in range(1, count)]
        shop.log.append_items(job, 1, [(at, body) for body in made])
        shop.log.save_copy(_log_of(home))
    return Place(home)


def _log_of(home: Path) -> Path:
    path = home / "data" / SHOP_FILE_NAME
    path.parent.mkdir(parents=True, exist_ok=True)
    return path


def title_in_hand(place: Place, job: str) -> str:
    """The title of the step in hand, which stands on the bench and on the summary."""
    return str(place.values("where", job)["step"]["title"])


def answer_to_the_size(place: Place, spare: Path) -> str:
    """How the answer to the size typed begins, learnt from a copy that is not measured."""
    entered = place.copy(spare).values("read", ADZE, f"{SIZE}={TYPED}")
    return str(entered["answers"][0]["sentence"])[:_TIMID]
