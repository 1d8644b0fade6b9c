"""docs/commands.md and the code say the same: every verb, every key of every answer, every exit code."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import is_dataclass
from pathlib import Path
from typing import get_args, get_type_hints

import pytest

from coach.bench import (
    plan_view,
    reckon_bevel,
    reckon_blows,
    reckon_colour,
    reckon_edge,
    reckon_expansion,
    reckon_haft,
    reckon_hardness,
    reckon_heat,
    reckon_length,
    reckon_limits,
    reckon_skin,
    reckon_spread,
    reckon_steel,
    reckon_temper,
    reckon_weight,
    standing,
)
from coach.cli import reply
from coach.cli.commands import check
from coach.cli.line import verbs
from coach.ledger.finding import Finding
from coach.recipe.faults import Fault
from coach.recipe.library import RecipeEntry
from tests.cli.conftest import Coach

DOCUMENT = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")

OBJECTS: dict[str, type] = {
    "Answer": standing.Answer,
    "Standing": standing.Standing,
    "Step": standing.StepView,
    "Time at heat": standing.HotView,
    "Clock": standing.ClockView,
    "Check": standing.CheckView,
    "Limits": standing.LimitsView,
    "Reading": standing.ReadingView,
    "Size": standing.SizeView,
    "Spare": standing.SpareView,
    "Lesson": standing.LearnedView,
    "Skin": standing.SkinView,
    "Note": standing.NoteView,
    "Thing to put right": standing.RightView,
    "Finished step": standing.DoneView,
    "Job": standing.JobSummary,
    "Haft": standing.HaftView,
    "Moment of spare": standing.SparePointView,
    "Entry": standing.EntryView,
    "Remedy": standing.RemedyView,
    "Recipe": RecipeEntry,
    "Checked recipe": check.Checked,
    "Fault": Fault,
    "Finding": Finding,
    "Plan": plan_view.PlanView,
    "Piece": plan_view.PieceView,
    "Laid steel": plan_view.LaidView,
    "Finished head": plan_view.HeadView,
    "Length of bar": plan_view.ZoneStockView,
    "Mark": plan_view.MarkView,
    "Hole centre": plan_view.CentreView,
    "Cut": plan_view.CutView,
    "Planned step": plan_view.StepPlanView,
    "Size left": plan_view.AfterView,
    "Loss": plan_view.TakenView,
    "Cooling": reckon_heat.CoolingView,
    "Moment of cooling": reckon_heat.CoolingPointView,
    "Soaking": reckon_heat.SoakingView,
    "Colours": reckon_colour.ColoursView,
    "Colour": reckon_colour.ColourView,
    "Expansion": reckon_expansion.ExpansionView,
    "Weight": reckon_weight.WeightView,
    "Length to cut": reckon_length.LengthView,
    "Part of a length": reckon_length.LengthPartView,
    "Spread": reckon_spread.SpreadView,
    "Squeeze": reckon_spread.SqueezeView,
    "Drawing": reckon_spread.DrawingView,
    "Pass": reckon_spread.PassView,
    "Blows": reckon_blows.BlowsView,
    "Heat limits": reckon_limits.LimitsAnswer,
    "Grade": reckon_limits.GradeLimitsView,
    "Known heat": reckon_limits.HeatLimitView,
    "Heats in common": reckon_limits.CommonView,
    "Steels": reckon_steel.SteelsView,
    "Listed steel": reckon_steel.ListedSteelView,
    "Steel": reckon_steel.SteelView,
    "Element": reckon_steel.ElementView,
    "Property": reckon_steel.PropertyView,
    "Critical temperature": reckon_steel.CriticalView,
    "Hardening": reckon_steel.HardeningView,
    "Starter file": reckon_steel.StarterView,
    "Hardness": reckon_hardness.HardnessView,
    "Part of a tool": reckon_hardness.WantedView,
    "Published hardness": reckon_hardness.PublishedView,
    "Parts of tools": reckon_hardness.PartsView,
    "Temper": reckon_temper.TemperView,
    "Wanted temper": reckon_temper.WantedTemperView,
    "Hardness left": reckon_temper.LeftView,
    "Time at a temper": reckon_temper.SoakView,
    "Row of tempering": reckon_temper.TableRowView,
    "Skin after heats": reckon_skin.SkinDepthView,
    "Heat in the fire": reckon_skin.HeatInFireView,
    "Carbon at a depth": reckon_skin.CarbonAtView,
    "Bevel": reckon_bevel.BevelView,
    "Measured bevel": reckon_bevel.CalibratedBevelView,
    "Edge": reckon_edge.EdgeView,
    "Usual angle": reckon_edge.UsualAngleView,
    "Eye for a haft": reckon_haft.EyeForHaftView,
    "Wedge": reckon_haft.WedgeView,
}
ROOTS = (
    standing.Answer,
    standing.Standing,
    standing.JobSummary,
    standing.EntryView,
    standing.HaftView,
    standing.SparePointView,
    standing.RemedyView,
    RecipeEntry,
    check.Checked,
    plan_view.PlanView,
    reckon_heat.CoolingView,
    reckon_heat.SoakingView,
    reckon_colour.ColoursView,
    reckon_expansion.ExpansionView,
    reckon_weight.WeightView,
    reckon_length.LengthView,
    reckon_spread.SpreadView,
    reckon_blows.BlowsView,
    reckon_limits.LimitsAnswer,
    reckon_steel.SteelsView,
    reckon_steel.SteelView,
    reckon_steel.StarterView,
    reckon_hardness.HardnessView,
    reckon_hardness.WantedView,
    reckon_hardness.PartsView,
    reckon_temper.TemperView,
    reckon_skin.SkinDepthView,
    reckon_bevel.BevelView,
    reckon_edge.EdgeView,
    reckon_haft.EyeForHaftView,
)


def section(title: str) -> str:
    found = re.search(rf"^#+ {re.escape(title)}\n(.*?)(?=^#+ |\Z)", DOCUMENT, re.MULTILINE | re.DOTALL)
    assert found is not None, f"docs/commands.md has no section {title!r}"
    return found[1]


def first_cells(text: str) -> list[str]:
    return re.findall(r"^\| `([^`]+)`", text, re.MULTILINE)


def reached_from(kind: type) -> Iterator[type]:
    """The classes of an answer: the one itself and those its keys hold."""
    yield kind
    namespace = {"Fault": Fault, "Finding": Finding}
    for hint in get_type_hints(kind, localns=namespace).values():
        yield from _within(hint)


def _within(hint: object) -> Iterator[type]:
    if isinstance(hint, type) and (is_dataclass(hint) or hasattr(hint, "_fields")):
        yield from reached_from(hint)
    for inner in get_args(hint):
        yield from _within(inner)


@pytest.mark.parametrize("title", OBJECTS)
def test_every_key_of_an_answer_is_told_and_none_that_is_not_there(title: str) -> None:
    assert first_cells(section(title)) == list(OBJECTS[title].__annotations__)


def test_every_object_of_an_answer_has_its_section() -> None:
    reached = {kind for root in ROOTS for kind in reached_from(root)}
    assert reached == set(OBJECTS.values())


def test_every_verb_is_told() -> None:
    told = {cell.split()[1] for cell in first_cells(section("The verbs")) if cell != "coach"}
    assert told == set(verbs())


def test_every_option_is_told(coach: Coach) -> None:
    told = set(re.findall(r"--[a-z-]+", section("What may follow the verbs")))
    for verb in verbs():
        taken = set(re.findall(r"--[a-z-]+", coach(verb, "--help").out)) - {"--help"}
        assert taken <= told


def test_every_exit_code_is_told() -> None:
    told = set(re.findall(r"^\| (\d+) \|", section("Exit codes"), re.MULTILINE))
    codes = {value for name, value in vars(reply).items() if name.isupper() and isinstance(value, int)}
    assert told == {str(code) for code in codes}


def test_links_within_the_document_lead_somewhere() -> None:
    anchors = {title.lower().replace(" ", "-") for title in re.findall(r"^#+ (.+)$", DOCUMENT, re.MULTILINE)}
    assert set(re.findall(r"\]\(#([^)]+)\)", DOCUMENT)) <= anchors


def test_the_objects_that_commands_answer_with_have_the_keys_told(coach: Coach) -> None:
    job = coach.job()
    answered = section("Answers in JSON")
    for words in (("heat", job), ("jobs",), ("recipes",), ("check", "first-hook"), ("history", job)):
        row = next(line for line in answered.splitlines() if line.startswith("|") and f"`{words[0]}`" in line)
        told = re.findall(r"`([a-z]+)`", row.split("|")[2])
        assert list(coach(*words, "--json").values) == told


def test_the_day_by_commands_can_be_typed_as_it_stands(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import shlex

    from coach.places import bundled_recipes

    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    (tmp_path / "my-hook.yaml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    fenced = re.search(r"```\n(.*?)```", section("A day by commands"), re.DOTALL)
    assert fenced is not None
    for line in fenced[1].splitlines():
        typed = re.split(r"\s{3,}", line)[0]
        said = coach(*shlex.split(typed)[1:])
        assert said.code == 0, (typed, said.err, said.out)
