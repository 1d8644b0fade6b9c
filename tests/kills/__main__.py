"""Kill the coach so many times and look through what is left.

`python -m tests.kills [COUNT] [--only KIND …] [--seed N]`
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import io
import os
import pkgutil
import signal
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from random import Random, SystemRandom
from time import monotonic

import coach
from coach.cli import main as coach_main
from coach.places import HOME_VARIABLE, shop_file
from tests.kills import victims
from tests.kills.judging import ends_of, faults
from tests.kills.times import TIMES, over
from tests.kills.victims import ENTER, JOB, TELL, Victim

_A_SHOP_LASTS = 25  # kills, lest the looking through takes longer than the killing


#: Within how many seconds each is killed, once it is under way; of commands to begin with.
_USUAL_S = {"loop": 0.12, "command": 0.1, "bench": 0.06, "restore": 0.15}


#: How often each is, of twenty: the bench takes the longest to come.
_OFTEN = {"loop": 11, "command": 6, "bench": 1, "restore": 2}

_SUSPENDED = 0.1
"""How many of the loops are suspended for a while before they are killed."""


class Killing:
    """Kills in turn, and what came of them."""

    def __init__(self, seed: int, kinds: Sequence[str] = tuple(_OFTEN)) -> None:
        self.chance = Random(seed)
        self.kinds = kinds
        self.usual_s = dict(_USUAL_S)
        self.kills: Counter[str] = Counter()
        self.found: list[str] = []
        self.acknowledged = 0

    def one(self, log: Path) -> None:
        """One kill, or an end before it came."""
        kind = self.chance.choices(self.kinds, [_OFTEN[kind] for kind in self.kinds])[0]
        time = "as usual" if kind == "restore" else self.chance.choice((*TIMES, "as usual"))
        before = ends_of(log)
        if kind == "restore":
            _harm(log, self.chance)
        words = self.chance.choice(ENTER + TELL) if kind == "command" else ("restore",)
        victim = Victim(lambda: _deed(kind, words, time, log, self.chance), on_a_terminal=kind == "bench")
        sure, most, elsewhere = 0, None, 0
        try:
            if kind == "bench":
                sure = victims.at_the_bench(victim, self.chance)
                most = sure + 2  # that under way, and that a job at rest is resumed
            victim.hear(self.chance.uniform(0.0, self.usual_s[kind]))
            if kind == "loop" and self.chance.random() < _SUSPENDED:
                time, elsewhere = f"{time}, suspended", _entered_while_it_waits(victim)
        except TimeoutError as error:
            if time not in ("disk full", "read-only"):
                self.found.append(f"{kind}: {error}")
        ended = victim.kill()
        if kind == "command":  # on a slow machine it takes longer: some are to be killed just as they answer
            self.usual_s[kind] *= 1.05 if ended.code is None else 0.8
        if kind == "loop":
            sure = ended.told.count(b"\n") + elsewhere
            most = sure + 1
        elif kind == "command":
            sure = int(words in ENTER and ended.code in (0, 1))
            if ended.code == 3 or b"coach failed" in ended.told:
                self.found.append(f"{' '.join(words)}, {time}: {ended.told.decode(errors='replace')}")
        over(log)
        if kind == "restore":
            with contextlib.redirect_stdout(io.StringIO()):
                coach_main(["restore"])
        self.found += [f"{kind} {words}, {time}: {fault}" for fault in faults(log, before, sure, most=most)]
        self.acknowledged += sure
        self.kills[f"{kind}, {time}" if ended.code is None else "ended before"] += 1

    @property
    def count(self) -> int:
        """How many were killed."""
        return self.kills.total() - self.kills["ended before"]


def _deed(kind: str, words: tuple[str, ...], time: str, log: Path, chance: Random) -> int:
    os.chdir(log.parent)
    TIMES[time](log, chance)
    if kind == "loop":
        return victims.a_loop(log)
    return victims.the_bench() if kind == "bench" else coach_main(words)


def _entered_while_it_waits(victim: Victim) -> int:
    """Suspend it, wherever it is, try to enter a note meanwhile, and let it go on; how many were entered."""
    os.kill(victim.number, signal.SIGSTOP)
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        code = coach_main(["note", JOB, "entered elsewhere"])
    os.kill(victim.number, signal.SIGCONT)
    victim.hear(0.05)
    return int(code in (0, 1))


def _harm(log: Path, chance: Random) -> None:
    """Keep a copy of the log as it is, then spoil some bytes of it."""
    with contextlib.redirect_stdout(io.StringIO()):
        coach_main(["backups", "--now"])
    with log.open("r+b") as file:
        file.seek(chance.randrange(log.stat().st_size))
        file.write(chance.randbytes(200))


def _load_all() -> None:
    """Load the whole program, so that a victim begins at once."""
    for found in pkgutil.walk_packages(coach.__path__, "coach."):
        if not found.name.endswith("__main__"):
            importlib.import_module(found.name)


def main() -> int:
    """Kill, print the figures; 0 when nothing was lost."""
    parser = argparse.ArgumentParser(prog="python -m tests.kills", description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=500, help="how many kills (default 500)")
    parser.add_argument("--seed", type=int, default=SystemRandom().randrange(10**6), help="of the chances")
    parser.add_argument("--only", nargs="+", default=list(_OFTEN), choices=_OFTEN, help="of these alone")
    asked = parser.parse_args()
    _load_all()
    begun, killing = monotonic(), Killing(asked.seed, asked.only)
    while killing.count < asked.count and not killing.found:
        with tempfile.TemporaryDirectory() as home:
            os.environ[HOME_VARIABLE] = home
            with contextlib.redirect_stdout(io.StringIO()):
                coach_main(["begin", JOB])
            last = killing.count + _A_SHOP_LASTS
            while killing.count < min(last, asked.count) and not killing.found:
                killing.one(shop_file())
    for name, number in sorted(killing.kills.items()):
        print(f"{number:6} {name}")
    print(
        f"{killing.count} kills (seed {asked.seed}) in {monotonic() - begun:.0f} s,"
        f" {killing.acknowledged} entries acknowledged: {len(killing.found)} faults"
    )
    for fault in killing.found:
        print(fault)
    return int(bool(killing.found))


if __name__ == "__main__":
    sys.exit(main())
