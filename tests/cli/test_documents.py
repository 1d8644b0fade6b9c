"""docs/commands.md and the code say the same: every verb, every key of every answer, every exit code."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import is_dataclass
from pathlib import Path
from typing import get_args, get_type_hints

import pytest

from coach.bench import plan_view, standing
from coach.cli import reply
from coach.cli.commands import check
from coach.cli.line import verbs
from coach.ledger.finding import Finding
from coach.recipe.faults import Fault
from coach.recipe.library import RecipeEntry
from coach.reckoner import (
    bevel,
    blows,
    colour,
    edge,
    expansion,
    haft,
    hardness,
    heat,
    length,
    limits,
    skin,
    spread,
    steel,
    temper,
    weight,
)
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
    "Cooling": heat.CoolingView,
    "Moment of cooling": heat.CoolingPointView,
    "Soaking": heat.SoakingView,
    "Colours": colour.ColoursView,
    "Colour": colour.ColourView,
    "Expansion": expansion.ExpansionView,
    "Weight": weight.WeightView,
    "Length to cut": length.LengthView,
    "Part of a length": length.LengthPartView,
    "Spread": spread.SpreadView,
    "Squeeze": spread.SqueezeView,
    "Drawing": spread.DrawingView,
    "Pass": spread.PassView,
    "Blows": blows.BlowsView,
    "Heat limits": limits.LimitsAnswer,
    "Grade": limits.GradeLimitsView,
    "Known heat": limits.HeatLimitView,
    "Heats in common": limits.CommonView,
    "Steels": steel.SteelsView,
    "Listed steel": steel.ListedSteelView,
    "Steel": steel.SteelView,
    "Element": steel.ElementView,
    "Property": steel.PropertyView,
    "Critical temperature": steel.CriticalView,
    "Hardening": steel.HardeningView,
    "Starter file": steel.StarterView,
    "Hardness": hardness.HardnessView,
    "Part of a tool": hardness.WantedView,
    "Published hardness": hardness.PublishedView,
    "Parts of tools": hardness.PartsView,
    "Temper": temper.TemperView,
    "Wanted temper": temper.WantedTemperView,
    "Hardness left": temper.LeftView,
    "Time at a temper": temper.SoakView,
    "Row of tempering": temper.TableRowView,
    "Skin after heats": skin.SkinDepthView,
    "Heat in the fire": skin.HeatInFireView,
    "Carbon at a depth": skin.CarbonAtView,
    "Bevel": bevel.BevelView,
    "Measured bevel": bevel.CalibratedBevelView,
    "Edge": edge.EdgeView,
    "Usual angle": edge.UsualAngleView,
    "Eye for a haft": haft.EyeForHaftView,
    "Wedge": haft.WedgeView,
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
    heat.CoolingView,
    heat.SoakingView,
    colour.ColoursView,
    expansion.ExpansionView,
    weight.WeightView,
    length.LengthView,
    spread.SpreadView,
    blows.BlowsView,
    limits.LimitsAnswer,
    steel.SteelsView,
    steel.SteelView,
    steel.StarterView,
    hardness.HardnessView,
    hardness.WantedView,
    hardness.PartsView,
    temper.TemperView,
    skin.SkinDepthView,
    bevel.BevelView,
    edge.EdgeView,
    haft.EyeForHaftView,
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
