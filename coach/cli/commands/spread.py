"""`coach spread`: how wide and long a bar becomes under the hammer."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.reckoned import RECKONER, joined, section_argument, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.spread import DrawingView, SpreadView, SqueezeView

SUMMARY = "Tell how a bar spreads and lengthens, and the passes to a section."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    section_argument(parser)
    parser.add_argument(
        "--to",
        dest="target",
        metavar="THICKNESS_OR_SECTION",
        required=True,
        help="20: one side down to it and, of a square bar, also drawn square; 30x10: drawn to this section",
    )
    parser.add_argument("--bite", metavar="B", help="how much bar lies under the hammer; else half the width")
    sourced(
        parser,
        "Source: A. Tomlinson and J. D. Stringer, Spread and elongation in flat tool forging, Journal of "
        "the Iron and Steel Institute 193 (1959) (from memory), for mild steel between flat tools; your "
        "own hammer differs by about 0.08 in the coefficient (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[SpreadView]:
    """Tell the spread, and the passes."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[SpreadView]:
    from coach.reckoner.asking import TypedBar, read_bar, read_size_mm, read_target
    from coach.reckoner.spread import spread

    units = shown(asked)
    bar = read_bar(asked.section, units)
    thickness_mm, target = read_target(asked.target, units)
    if thickness_mm is not None and bar.kind == "square":
        target = TypedBar("square", (thickness_mm,))
    bite_mm = None if asked.bite is None else read_size_mm(asked.bite, units)
    view = spread(bar, units, thickness_mm=thickness_mm, target=target, bite_mm=bite_mm)
    lines = sentences(
        f"{view.section}, with a bite of {view.bite_text}: {view.coefficient:.2f} of what the hammer takes "
        f"goes into the width, ±{view.coefficient_doubt:.2f}."
    )
    if view.squeeze is not None:
        lines += headed(f"Down to {view.squeeze.new_height_text} on one side", _squeeze(view.squeeze))
    if view.drawing is not None:
        lines += headed(f"Drawn to {view.drawing.target}", _drawing(view.drawing))
    return reply(lines, view)


def _squeeze(view: SqueezeView) -> list[str]:
    return sentences(
        f"It becomes {view.new_width_text} wide, {view.width_factor:.3f} times as wide as before, and "
        f"{view.length_factor:.3f} times as long."
    )


def _drawing(view: DrawingView) -> list[str]:
    told = [f"It becomes {view.length_factor:.3f} times as long.", *view.how, *view.cautions]
    return [*table((str(number), one.text) for number, one in enumerate(view.passes, 1)), *sentences(*told)]
