"""`coach new`: a recipe from its tool's sizes, from a recipe that is like it, or from a traced outline."""

from __future__ import annotations

import sys
from pathlib import Path
from textwrap import indent
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.masks import mode_for_others
from coach.cli.opening import recipe_path, shop_path
from coach.cli.page import WIDTH, paragraph, set_page
from coach.cli.placed import faults_of
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.typed_again import typed
from coach.cli.writing_out import FORCE, write_out
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from collections.abc import Iterator

    from coach.drafting.answers import Answers
    from coach.drafting.checked import Draft
    from coach.ledger.verdict import PlanState
    from coach.telling.plan import Drawings
    from coach.telling.writing import Shown

SUMMARY = "Propose a recipe: from questions about the tool, like another recipe, or from a traced outline."
TAKES = (
    Take("file", "where to write it; named like the tool when left out", "FILE"),
    Take("--from", "a file of answers instead of questions", "ANSWERS"),
    Take("--like", "a recipe that it is to be like: a file or a name", "RECIPE"),
    Take("--scale", "so many times as large as that one", "TIMES"),
    Take("--bar", "from this bar, in a recipe's words", "BAR"),
    Take("--outline", "an outline in SVG, traced round the piece", "SVG"),
    Take("--long", "how long the piece of that outline is", "LENGTH"),
    Take("--thick", "how thick it is", "THICKNESS"),
    FORCE,
)
_INDENT, _ROWS = "  ", 12
_LARGEST_ANSWERS = 64_000
_BACK = "<"


class Proposed(NamedTuple):
    """A recipe that was proposed and written."""

    file: str  # where it is written
    title: str
    verdict: PlanState
    chance: float  # of making the drawing
    text: str  # the recipe


def run(asked: Asked) -> Reply[Proposed]:
    """Propose it, write it over nothing, and show it; bad news when something is to be put right first."""
    from coach.ledger.verdict import PlanState
    from coach.recipe.short_name import short_name
    from coach.telling.drafted import drafted_page
    from coach.telling.writing import Shown

    _refuse_mixtures(asked)
    if asked.like is not None:
        draft = _like(asked)
    elif asked.outline is None and getattr(asked, "from_", None) is None:
        draft = _asked_one_by_one()
    else:
        draft = _drafted(_outlined(asked) if asked.outline is not None else _answers(asked))
    planned = draft.planned
    named = f"{short_name(planned.title, '')}.yaml" if asked.file is None else asked.file
    log = shop_path(asked)
    path = write_out(named, draft.text, force=asked.force, log=log, mode=mode_for_others())
    shown = Shown(asked.units or draft.plan.recipe.system)
    told = set_page(drafted_page(planned, shown, _drawn(draft, shown), draft.otherwise))
    bad = planned.verdict is PlanState.OFF_PLAN or bool(planned.findings)
    after = "Put right first what is told above, in the file" if bad else "Look it over, then"
    last = paragraph(f"Written to {path}. {after}: coach check --echo {typed(path)}.")
    last = [line for words in _written_in(asked, draft) for line in paragraph(words)] + last
    values = Proposed(str(path), planned.title, planned.verdict, planned.chance, draft.text)
    return reply([*told, "", *last], values, bad_news=bad, shown=shown)


def _written_in(asked: Asked, draft: Draft) -> Iterator[str]:
    """What stands in a recipe like another one besides what was asked for."""
    from coach.forms import listed

    if asked.like is not None and draft.allowances:
        shares = listed(f"{share * 100:.1f} % of {zone}" for zone, share in draft.allowances.items())
        yield f"So that the metal is enough, it says allowance {shares}."
    if asked.scale is not None:
        bars = "" if asked.bar else " Its bars are the next that are rolled: for your own add --bar."
        yield f"What its advice says of sizes is as it was.{bars}"


def _refuse_mixtures(asked: Asked) -> None:
    ways = [name for name in ("from_", "like", "outline") if getattr(asked, name, None) is not None]
    if len(ways) > 1:
        raise Refused("--from, --like and --outline are three ways to begin: give one of them.")
    if asked.like is None and asked.scale is not None:
        raise Refused("--scale wants a recipe to scale: give it with --like.")
    if asked.outline is None and (asked.long is not None or asked.thick is not None):
        raise Refused("--long and --thick are of an outline: give it with --outline.")


def _drafted(answers: Answers) -> Draft:
    """The recipe that is proposed; raises Refused where the metal cannot do what is asked."""
    from coach.drafting.draft import drafted
    from coach.ledger.working import LedgerError

    try:
        return drafted(answers)
    except LedgerError as error:
        raise Refused("No recipe can be proposed so: {}", error.words) from None


def _answers(asked: Asked) -> Answers:
    given = getattr(asked, "from_", "")
    from coach.drafting.answers import answers_of
    from coach.files import contents, expand, said_by_the_system
    from coach.recipe.tree import read_plain

    path = expand(given)
    try:
        text = contents(path, _LARGEST_ANSWERS + 1).decode("utf-8")
    except OSError as error:
        raise Refused(said_by_the_system(error)) from None
    except ValueError:
        raise Refused(f"{path} is no text in UTF-8: save the answers as UTF-8.") from None
    if len(text) > _LARGEST_ANSWERS:
        raise Refused(f"{path} is larger than any answers are: give a file of answers.")
    return answers_of(read_plain(text, str(path)).tree)


def _asked_one_by_one() -> Draft:
    """The questions on the terminal; `<` goes back on the last, and so does what no recipe follows from."""
    from coach.drafting.questions import Interview
    from coach.quantities.refusal import Refusal
    from coach.telling.harmless import harmless
    from coach.telling.words import write
    from coach.telling.writing import Shown

    interview = Interview()
    print(f"One question at a time; Enter takes what stands in brackets, {_BACK} goes back.", file=sys.stderr)
    while True:
        try:
            if (question := interview.question) is None:
                return _drafted(interview.answers())
            usual = f" [{question.usual}]" if question.usual else f" (such as {question.such_as})"
            print(f"{question.asks}{usual}: ", end="", file=sys.stderr, flush=True)
            line = sys.stdin.readline()
            if not line:
                break
            if line.strip() == _BACK:
                interview.back()
            else:
                interview.answer(line)
        except Refusal as error:
            print(harmless(write(error.words, Shown())), file=sys.stderr)
            if interview.question is None:
                print(f"The last question once more; {_BACK} goes back to the one before.", file=sys.stderr)
                interview.back()
    raise Refused(f"The answers end before “{question.asks}”: answer it, or give a file with --from.")


def _like(asked: Asked) -> Draft:
    from coach.drafting.alike import made_like
    from coach.drafting.checked import checked
    from coach.ledger.working import LedgerError
    from coach.recipe.text import file_text

    path = recipe_path(asked.like)
    try:
        scale = float(asked.scale.replace(",", ".")) if asked.scale is not None else 1.0
    except ValueError:
        raise Refused(f"{asked.scale[:20]!r} is no scale: type a number, such as 1.2.") from None
    if asked.scale is None and asked.bar is None:
        raise Refused("--like wants what is to be otherwise: --scale 1.2, or --bar 'round 40'.")
    text = made_like(file_text(path), path.name, scale=scale, bar=asked.bar or "")
    try:
        return checked(text, path.name)
    except LedgerError as error:
        raise faults_of(error, text, path.name) from None


def _outlined(asked: Asked) -> Answers:
    from coach.drafting.answers import answers_of
    from coach.drafting.outline import LARGEST_BYTES, profile_line, stations_of
    from coach.files import contents, expand, said_by_the_system
    from coach.quantities import SizeError, read_length_mm

    if asked.long is None or asked.thick is None or asked.bar is None:
        raise Refused("An outline wants one known size and its bar: add --long, --thick and --bar.")
    path = expand(asked.outline)
    try:
        svg = contents(path, LARGEST_BYTES + 1)
        long_mm, thick_mm = read_length_mm(asked.long), read_length_mm(asked.thick)
    except OSError as error:
        raise Refused(said_by_the_system(error)) from None
    except SizeError as error:
        raise Refused("{}", error.words) from None
    line = profile_line(stations_of(svg, long_mm), thick_mm)
    name = Path(asked.outline).stem.replace("-", " ").replace("_", " ").capitalize()
    told = {"name": name, "metal": "mild steel", "bar": asked.bar, "zones": {"blade": line}}
    return answers_of(told)


def _drawn(draft: Draft, shown: Shown) -> Drawings:
    from coach.drawing.braille import stacked
    from coach.drawing.cells import as_text
    from coach.drawing.job import finished_views, host_pieces
    from coach.telling.plan import Drawings

    room = WIDTH - len(_INDENT)
    finished = {
        piece: indent(
            as_text(stacked(finished_views(draft.plan, piece), (), room, _ROWS, shown=shown)), _INDENT
        )
        for piece in host_pieces(draft.plan)
    }
    return Drawings(finished=finished)
