"""One of each kind of thing that the coach is made of, as someone else would add it: one file each."""

from __future__ import annotations

from typing import Final, NamedTuple


class Addition(NamedTuple):
    """A kind of thing, the files that add one more of it, and how it is seen to work."""

    kind: str
    files: dict[str, str]  # path in the repository -> text; one file, and a screen's style sheet
    proof: str  # a program that fails unless the thing is at work


FORM = Addition(
    "form",
    {
        "coach/forms/sixsided.py": '''\
"""The six-sided bar."""

from __future__ import annotations

import math
from dataclasses import dataclass

from coach.forms.bar import Bar
from coach.forms.base import Loop

_SIDE = 1 / math.sqrt(3)  # one side of a regular hexagon that is 1 across its flats


@dataclass(frozen=True, slots=True)
class SixSided(Bar):
    """Regular hexagon of a across its flats: A = √3/2·a², P = 2√3·a (elementary geometry)."""

    SUMMARY = "a six-sided bar, the same all along"
    VOLUME = "√3/2 · a² · L"

    across_flats_mm: float
    length_mm: float

    def section_area_mm2(self) -> float:
        """√3/2·a², mm²."""
        return math.sqrt(3) / 2 * self.across_flats_mm**2

    def perimeter_mm(self) -> float:
        """2√3·a, mm."""
        return 6 * _SIDE * self.across_flats_mm

    def outline(self) -> Loop:
        """The hexagon with two flats square to its thickness, mm."""
        flat, side = self.across_flats_mm / 2, _SIDE * self.across_flats_mm
        half = side / 2
        return ((-half, -flat), (half, -flat), (side, 0.0), (half, flat), (-half, flat), (-side, 0.0))
''',
    },
    '''
recipe("""\\
recipe: Wedge bar
scale: none
pieces:
  bar:
    metal: mild steel
    bar: sixsided 20
    zones:
      wedge: sixsided 16, long 100 ±5
steps:
  - draw: wedge, sixsided 16 ±0.5
    check: across flats, length
""")
# 100 mm of 16 across flats from a bar of 20: 100 × (16/20)² mm, and the kerf is not cut here.
plan = coach("plan", "new.yaml", "--json").values
assert abs(figure(plan["pieces"][0]["length"]) - 64.0) < 1e-6, plan["pieces"][0]
assert "sixsided 20" in coach("plan", "new.yaml").out
# EN 10061 gives hexagons by √3/2·a² and 7.85 g/cm³ (from memory): 22 across flats is 3.29 kg/m.
assert "3.29" in coach("weight", "sixsided", "22").out
assert "sixsided" in coach("weight", "--help").out
coach("begin", "new.yaml", "--name", "new")
assert "across flats" in coach("where", "new").out
assert coach("picture", "new").out.strip()
assert '"sixsided"' in page("coach/recipe/recipe.schema.json")
assert "| `sixsided` |" in page("docs/words.md")
''',
)

OPERATION = Addition(
    "operation",
    {
        "coach/operations/twirl.py": '''\
"""Twirling: a bar is turned on itself and keeps its section."""

from __future__ import annotations

from coach.operations.idle import Idle
from coach.quantities import Kind


class Twirl(Idle):
    """The metal stays where it is along the bar."""

    SUMMARY = "Turn the bar on itself between vice and wrench, in one even heat."
    EXTRAS = {"twirl_angle": Kind.ANGLE}
    CAUTION = "The wrench springs back when a bar lets go: stand beside it, not over it."
''',
    },
    '''
recipe("""\\
recipe: Poker
pieces:
  bar:
    metal: mild steel
    bar: square 12
    zones:
      shank: square 12, long 300 ±10
steps:
  - twirl: shank, twirl angle 180 ±15, at orange
    check: twirl angle
""")
told = " ".join(coach("plan", "new.yaml").out.split())
assert "springs back" in told, told
assert "1 forging heat" in told, told
coach("begin", "new.yaml", "--name", "new")
assert "twirl angle" in coach("where", "new").out
assert "good" in coach("read", "new", "shank.twirl_angle=178").out
assert '"twirl"' in page("coach/recipe/recipe.schema.json")
assert "| `twirl`° |" in page("docs/words.md")
''',
)

GRADE = Addition(
    "grade",
    {
        "coach/metals/grades/ferry-steel.toml": '''\
name = "ferry steel"
aliases = []
standard = "none: an invented grade"
notes = """
Made up for a test."""

[density_kg_m3]
value = 7800
source = "invented (judgement)"

[carbon_share]
value = 0.70
source = "invented (judgement)"

[forging_low_c]
value = 820
source = "invented (judgement)"

[forging_high_c]
value = 1120
source = "invented (judgement)"

[composition]
unknown = "Nobody has tried."

[welding_low_c]
unknown = "Nobody has tried."

[welding_high_c]
unknown = "Nobody has tried."

[normalising_low_c]
unknown = "Nobody has tried."

[normalising_high_c]
unknown = "Nobody has tried."

[hardening_low_c]
unknown = "Nobody has tried."

[hardening_high_c]
unknown = "Nobody has tried."

[quench]
unknown = "Nobody has tried."

[tempering_low_c]
unknown = "Nobody has tried."

[tempering_high_c]
unknown = "Nobody has tried."
''',
    },
    """
assert "ferry steel" in coach("steel").out
assert "1120" in coach("limits", "ferry steel").out
# 25 × 25 × 1000 mm at 7.8 g/cm³
assert "4.88 kg" in coach("weight", "25", "1000", "--metal", "ferry steel").out
assert "- ferry steel" in page("docs/words.md")
""",
)

COMMAND = Addition(
    "command",
    {
        "coach/cli/commands/dwindle.py": '''\
"""`coach dwindle`: what a bar has lost in length."""

from __future__ import annotations

from typing import NamedTuple

from coach.cli.reply import Asked, Reply, reply
from coach.quantities import Figure, Refusal, mm
from coach.quantities.takes import Take, plain

SUMMARY = "Tell what a bar has lost in length."
TAKES = (
    Take("before", "how long it was", "BEFORE", plain(float), needed=True),
    Take("after", "how long it is", "AFTER", plain(float), needed=True),
)


class NothingLost(Refusal):
    """A bar that is as long as it was, or longer."""


class Dwindled(NamedTuple):
    """What a bar has lost."""

    lost: Figure  # of its length


def run(asked: Asked) -> Reply[Dwindled]:
    """Tell how much."""
    if asked.after >= asked.before:
        raise NothingLost("A bar of {} that is {} now has lost nothing.", mm(asked.before), mm(asked.after))
    return reply(["It has lost some."], Dwindled(mm(asked.before - asked.after)))
''',
    },
    """
assert "Tell what a bar has lost in length." in coach("--help").out
assert coach("dwindle", "100", "97", "--json").values == {"lost": {"value": 3.0, "unit": "mm"}}
for odd in ("x", "nan", "1e999"):
    assert "cannot be read as BEFORE: how long it was." in coach("dwindle", odd, "97", expect=2).err
said = coach("dwindle", "254", "508", "--units", "in", expect=2)
assert said.err == "A bar of 10 in that is 20 in now has lost nothing.\\n", said.err
assert "did you mean `coach dwindle`" in coach("dwindl", expect=2).err
assert "## Dwindled" in page("docs/keys.md")
""",
)

QUESTION = Addition(
    "question",
    {
        "coach/reckoner/rainbow.py": '''\
"""How much of a bar lies round a part of a circle."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from coach.quantities import Figure, degrees, mm, read_angle_deg, say
from coach.reckoner.asking.reading import NotReckoned
from coach.quantities.takes import Take, plain
from coach.reckoner.asking.takes import size
from coach.reckoner.asking.told import Told, rows

SUMMARY = "Tell how much of a bar lies round a part of a circle."
SOURCES = "Source: elementary geometry."
TAKES = (
    size("radius", "of the middle of the bar", metavar="RADIUS", needed=True),
    Take("--angle", "how far round it goes; else 90°", "A", plain(read_angle_deg), usual="90"),
)


class LengthOfARainbow(NamedTuple):
    """A bar bent round a part of a circle."""

    angle: Figure  # how far round it goes
    length: Figure  # how much of the bar that is


def reckon(radius: float, angle: float) -> LengthOfARainbow:
    """L = r θ, θ in radians, in mm. Raises NotReckoned for more than half a turn."""
    if angle > 180.0:
        raise NotReckoned("{} is more than half round: give at most {}.", degrees(angle), degrees(180.0))
    return LengthOfARainbow(degrees(angle), mm(radius * math.radians(angle)))


def told(answer: LengthOfARainbow) -> Iterator[Told]:
    """The length."""
    yield say("{} lie round {}.", answer.length, answer.angle)
    yield rows([("round", answer.length)])
''',
    },
    """
# A quarter of a circle of 100 mm: π/2 · 100 mm; half of one of an inch, in thirty-seconds: π · 32 is 101.
assert abs(figure(coach("rainbow", "100", "--json").values["length"]) - 157.0796) < 1e-3
assert coach("rainbow", "100").out.startswith("157 mm lie round 90°.")
assert coach("rainbow", "1", "--angle", "180", "--units", "in").out.startswith("3 5/32 in lie round 180°.")
assert "200° is more than half round" in coach("rainbow", "100", "--angle", "200", expect=2).err
jobs, _, asked = coach("--help").out.partition("one figure at a time")
assert "  rainbow " in asked and "  rainbow " not in jobs
assert "An estimate. Source: elementary geometry." in coach("rainbow", "--help").out
assert "did you mean `coach rainbow`" in coach("rainbo", expect=2).err
assert "| `length` | [figure](#figures) | how much of the bar that is |" in page("docs/keys.md")
assert "## coach rainbow" in page("docs/arguments.md")
""",
)

SCREEN = Addition(
    "screen",
    {
        "coach/screens/ballad.py": '''\
"""A ballad for the bellows boy."""

from __future__ import annotations

from textual.app import ComposeResult

from coach.screens.screen import JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines

WAY_IN = {
    "from": ("bench",),
    "key": "ctrl+n",
    "words": "Ballad",
    "told": "Sing the ballad of the bellows boy",
}


class BalladScreen(JobScreen):
    """Words to blow by."""

    CSS_PATH = "ballad.tcss"
    NAME = "The ballad"
    HELP_TEXT = "Sing it."
    BINDINGS = [key("escape", "close", "Bench", "Go back")]

    def compose(self) -> ComposeResult:
        yield from self.framed("The ballad", Lines("Blow the coals, boy."), AnswerLine())
''',
        "coach/screens/ballad.tcss": "BalladScreen #lines { height: 1fr; padding: 0 1; }\n",
    },
    """
import asyncio
from pathlib import Path

from tests.screens.stage import a_job, a_shop, on_stage, screen_text


async def look():
    with a_shop(Path.cwd()) as shop:
        job = a_job(shop)
        async with on_stage(shop, job, size=(120, 40)) as (app, pilot):
            await pilot.press("ctrl+p")
            await pilot.pause()
            assert "Sing the ballad of the bellows boy" in screen_text(app)
            await pilot.press("escape")
            await pilot.pause()
            await pilot.press("f1", "pagedown")
            await pilot.pause()
            assert "Sing the ballad" in screen_text(app)
            await pilot.press("escape")
            await pilot.pause()
            await pilot.press("ctrl+n")
            await pilot.pause()
            assert "Blow the coals, boy." in screen_text(app)
            await pilot.press("escape")
            await pilot.pause()
            assert type(app.screen).__name__ == "BenchScreen"


asyncio.run(look())
""",
)

SHOP_TEST = Addition(
    "test of the shop",
    {
        "coach/operations/shop_tests/jingle_test.py": '''\
"""The jingle test: a sound piece comes out whole."""

from __future__ import annotations

from coach.operations.shop_test import ShopTest

TEST = ShopTest(
    how="Shake the piece in a bucket: pass when it comes out whole.",
    after_doubt="shake it once more, and listen",
    after_fail="look for the crack before anything else is done",
)
''',
    },
    '''
recipe("""\\
recipe: Peg
pieces:
  peg:
    metal: mild steel
    bar: square 12
    zones:
      shank: square 12, long 100 ±5
steps:
  - inspect: shank
    check: jingle test
""")
coach("begin", "new.yaml", "--name", "new")
assert "Shake the piece in a bucket" in " ".join(coach("where", "new").out.split())
assert "look for the crack" in " ".join(coach("read", "new", "shank.jingle_test=fail").out.split())
assert "| `jingle test` |" in page("docs/words.md")
''',
)

ENTRY = Addition(
    "kind of entry",
    {
        "coach/log/kinds/moon.py": '''\
"""What the moon was like."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import writing
from coach.quantities.words import Words, say


class Moon(Body):
    """The moon over the forge."""

    KIND = "moon"
    CALLED = "the moon"

    phase: str = writing(20)

    def words(self) -> Words:
        """See Body."""
        return say("the moon: {}", self.phase)
''',
    },
    """
from datetime import UTC, datetime
from pathlib import Path

from coach.log.carry import export_job, import_job
from coach.log.jobs import Log
from coach.log.kinds.moon import Moon
from coach.places import shop_file
from coach.quantities import Refusal

coach("begin", "first-hook", "--name", "hook")
with Log(shop_file()) as log:
    last = log.entries("hook")[-1]
    log.append("hook", last.number, "2026-03-02T09:00:00Z", Moon(phase="full"))
    text = export_job(log, "hook")
told = coach("history", "hook").out
assert "the moon: full" in told, told
with Log(Path("other.sqlite")) as log:
    import_job(log, text)
    assert log.entries("hook")[-1].body == Moon(phase="full")
try:
    Moon(phase="r" * 21)
except Refusal as refusal:
    assert "20" in str(refusal), refusal
else:
    raise AssertionError("a moon of 21 letters was taken")
assert "`moon`" in page("docs/keys.md")
""",
)

WAY_BACK = Addition(
    "way back",
    {
        "coach/ledger/remedies/serenade.py": '''\
"""Serenade: where the metal is short, sing to it."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.quantities import mm, say


class Serenade(Remedy):
    """It costs nothing, and helps as little."""

    NAME: ClassVar[str] = "serenade"
    HELPS: ClassVar[bool] = False
    SOUNDNESS: ClassVar[Soundness] = Soundness.DOUBTFUL

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every zone that is short."""
        return [
            Idea(
                about=zone.zone,
                title=say("Sing to the {}", zone.zone),
                changes=say("It is {} long in song.", mm(25.4)),
                amendment=Amendment(),
            )
            for zone, _ in situation.short()
        ]
''',
    },
    '''
recipe("""\\
recipe: Peg
pieces:
  peg:
    metal: mild steel
    bar: square 12, long 60
    zones:
      shank: square 8, long 100 ±5
steps:
  - mark out: peg
  - draw: shank, square 8 ±0.4
    check: side, length
""")
coach("begin", "new.yaml", "--name", "new")
coach("read", "new", "shank.length=35")
coach("read", "new", "shank.length=35")
told = " ".join(coach("ways", "new", "--units", "in").out.split())
assert "Sing to the shank" in told, told
assert "1 in long in song" in told, told
assert "taken" in coach("take", "new", "serenade-shank").out
''',
)

ADDITIONS: Final = (FORM, OPERATION, SHOP_TEST, WAY_BACK, GRADE, ENTRY, QUESTION, COMMAND, SCREEN)
