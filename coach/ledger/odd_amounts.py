"""Asks about amounts of a step that hardly any job has: a digit too many, a unit mistaken, a mark lost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.limits import common_range
from coach.forms import said
from coach.ledger.hot_work import MOST_HEATS, grades_in, heats_by, hot_work, reckoned_heats, steels_of
from coach.ledger.laid_steel import laid_steels
from coach.ledger.plan import Plan
from coach.ledger.tempered import temper_heat_c, thickness_mm
from coach.ledger.weigh_bend import across_bend_mm, inside_radius_mm
from coach.ledger.weigh_bigger import gathered
from coach.ledger.weigh_sizes import driven_too_long
from coach.ledger.working import face_loss_mm
from coach.metals.baths import WATERS, is_fiercer
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.quantities import NOTHING, Figure, Kind, Span, Wanted, Words, counted, mm, run_on, say, seconds
from coach.recipe.model import Scale, Step

#: More heats than this are seldom planned for one step (judgement).
_MOST_HEATS: Final = 15
#: More than so many times the heats that are said must be reckoned before it is asked about: a strong hand, a
#: striker or a power hammer goes two or three times as far as the hammer that is reckoned with (judgement).
_FEW_HEATS_TIMES: Final = 4.0
#: Heats that are said are no slip where so many times those that are reckoned would be more (judgement).
_WELL_OVER: Final = 2.0
#: A heat in free air takes some three times what one in a coal fire does (`coach.fire.scale`), and one held
#: twice as long half as much again; what takes more than so many times is a slip (judgement).
_MOST_SCALE_TIMES: Final = 5.0
#: A hacksaw takes 1 to 1.5 mm, a band or a thin disc up to 3 (common practice, no source).
_WIDEST_KERF_MM: Final = 4.0
#: The weld of a ring takes a third to once the thickness of its bar of its length (the handbooks named in
#: `coach.operations.weld_shut`); more than so many times is a slip (judgement).
_MOST_WASTE_TIMES: Final = 3.0
#: What is set straight is seldom let be by more than this share of its length (judgement).
_STRAIGHT_SHARE: Final = 0.05
#: A tang goes through its haft and is riveted over it, but for less than this share of it (judgement).
_SHORTEST_HAFT_SHARE: Final = 0.5
#: A haft seldom stands out of its eye by more than this share of its length (judgement).
_MOST_PROUD_SHARE: Final = 0.15
#: Hafts of two metres are seldom (judgement).
_LONGEST_HAFT_MM: Final = 2000.0
#: So much is seldom ground or filed off each face (judgement).
_DEEPEST_SKIN_MM: Final = 4.0
#: A joint that stands open by more than this is none (judgement).
_WIDEST_GAP_MM: Final = 5.0
#: One bite reaches no farther along the bar than so many times its width (judgement).
_LONGEST_BITE_TIMES: Final = 3.0
_LONGEST_ECHO: Final = 30  # of what was written (our choice)
_ACROSS: Final = ("width", "side", "diameter", "across_flats")
#: A temper is held for at least so long in its fire or oven, s (common practice, no source).
_LEAST_TEMPER_S: Final = 600.0
#: Steel is held at its hardening heat for minutes, and thin edges for less than one (judgement).
_LEAST_SOAK_S: Final = 15.0
#: One or two hours are usual; held longer than this a number or its unit is a slip (judgement).
_MOST_TEMPER_S: Final = 6.0 * 3600.0
#: A temper comes within two or three of what is wanted; limits wider than this say little (judgement).
_WIDEST_HARDNESS_HRC: Final = 8.0
#: A hotter fire is told of where it saves a third of the heats (judgement).
_HOTTER_SHARE: Final = 2.0 / 3.0
#: So many heats and more are asked about where they are so many times those that are reckoned (judgement).
_MANY_HEATS, _MANY_HEATS_TIMES = 6, 5.0
#: Less hard steel than this is gone after a few sharpenings (judgement).
_LEAST_STEEL_MM: Final = 0.4
#: Hot, a bar is bent to an inside radius of a quarter of its thickness, and sharper only where it was upset
#: for a corner before (common practice, no source).
_SHARPEST_TIMES: Final = 0.25
#: On its edge a bar follows to about its own width inside (common practice, no source).
_TIGHTEST_ON_EDGE: Final = 1.0


def odd_amounts(plan: Plan, step: Step) -> Iterator[Words]:
    """Everything to be asked about the amounts of one step."""
    for words in (
        _heats(plan, step) or _other_heats(plan, step),  # which are asked about once
        _kerf(step),
        _waste(plan, step),
        _on_edge(plan, step) or _sharp(plan, step),
        _skin(step),
        _gap(step),
        _bite(plan, step),
        *_straight(plan, step),
        _haft(plan, step),
        _haft_there(plan, step),
        _soak(step),
        _temper_colour(step),
        _hardness(step),
        _steel_left(plan, step),
        _fiercer(plan, step),
    ):
        if words is not None:
            yield say("Step {}, {}: {}", step.number, step.title, words)


def odd_scale(scale: Scale) -> Iterator[Words]:
    """What a recipe says that a heat takes off every face, where no fire takes as much."""
    for kind, stated_mm in (
        (HeatKind.FORGING, scale.forging_mm),
        (HeatKind.WELDING, scale.welding_mm),
        (HeatKind.TREATMENT, scale.treatment_mm),
    ):
        usual_mm = face_loss_mm(Scale(), kind)
        if stated_mm is not None and stated_mm > _MOST_SCALE_TIMES * usual_mm:
            yield say(
                "A scale of {} off every face in each {} heat, where one takes some {}: is its decimal mark "
                "in the right place?",
                *(mm(stated_mm), kind.value, f"{usual_mm:.1g} mm"),
            )


def _heats(plan: Plan, step: Step) -> Words | None:
    if step.heats <= _MOST_HEATS:
        return None
    if not step.heats_said:  # nobody wrote that number
        reckoned = reckoned_heats(plan, step)
        if step.heats == MOST_HEATS and reckoned is not None and reckoned > MOST_HEATS:
            return say(
                "some {} heats are reckoned for this step, by hand hammer, and scale would leave nothing of "
                "it: its plan and its hours count {} of them. Begin with a bar nearer to it, or part the "
                "step.",
                *(f"{reckoned}", f"{MOST_HEATS}"),
            )
        told = say(
            "{} heats are reckoned for this step, by hand hammer: begin with a bar nearer to it, part the "
            "step, or write the heats that it takes you.",
            f"{step.heats}",
        )
        return run_on((told, _hotter(plan, step)))
    reckoned = _by_hand_hammer(plan, step)
    if reckoned is not None and step.heats <= _WELL_OVER * reckoned:
        return None  # so many are reckoned as well
    return say("{} heats for one step: is that number meant?", f"{step.heats}")


def _hotter(plan: Plan, step: Step) -> Words:
    """How few heats it takes as hot as its steel is worked, where that is plainly fewer; else nothing."""
    high, hottest = (
        common_range(grades_in(plan, step)).high,
        _by_hand_hammer(plan, step._replace(temperature_c=None)),
    )
    if high is None or hottest is None or step.temperature_c is None or step.temperature_c >= high.value:
        return NOTHING
    if hottest > _HOTTER_SHARE * step.heats:
        return NOTHING
    return say(
        "At {}, as hot as it is worked, it takes some {}.", Figure(high.value, Kind.TEMPERATURE), f"{hottest}"
    )


def _by_hand_hammer(plan: Plan, step: Step) -> int | None:
    """The heats that the work takes by hand hammer, at the heat that is said or the hottest."""
    high = common_range(grades_in(plan, step)).high
    heat_c = step.temperature_c if step.temperature_c is not None else high.value if high else None
    hot = hot_work(plan, step._replace(temperature_c=heat_c))
    found = heats_by(plan, step, hot) if hot is not None else None
    return None if found is None else found.heats


def _cannot_be(plan: Plan, step: Step) -> bool:
    """Whether what a step works gathers no metal or is driven too long: of that its heats follow."""
    ways = [plan.stages[zone] for zone in step.zones if zone in plan.stages]
    return any(
        gathered(plan, stage) is not None or (stage.step == step and driven_too_long(stage) is not None)
        for way in ways
        for stage in way
    )


def _other_heats(plan: Plan, step: Step) -> Words | None:
    """Far fewer or more heats than the work takes."""
    if not step.heats_said or not step.heats:
        return None
    reckoned = _by_hand_hammer(plan, step)
    if reckoned is None:
        return None
    many = step.heats >= _MANY_HEATS and step.heats > _MANY_HEATS_TIMES * reckoned
    if (not many and reckoned <= _FEW_HEATS_TIMES * step.heats) or _cannot_be(plan, step):
        return None
    return say(
        "{} planned, where by hand hammer some {} are reckoned: is it meant?",
        *(counted(step.heats, "heat"), f"{reckoned}"),
    )


def _on_edge(plan: Plan, step: Step) -> Words | None:
    """A bend on edge tighter than the bar is wide."""
    radius = step.targets.get("radius")
    wide_mm = max((_width_mm(plan, step, zone) or 0.0 for zone in step.zones), default=0.0)
    if radius is None or not step.does(Does.ON_EDGE) or radius.nominal >= _TIGHTEST_ON_EDGE * wide_mm:
        return None
    return say(
        "on edge to {} inside, on a bar {} wide: its inner edge buckles before it thickens; is it meant?",
        *(mm(radius.nominal), mm(wide_mm)),
    )


def _sharp(plan: Plan, step: Step) -> Words | None:
    """A hot bend so sharp that its outside thins, where no metal was gathered for it; a corner has none."""
    if not step.does(Does.BENDS) or not step.heats:
        return None
    for zone in step.zones:
        stage = plan.by_step[step.number].get(zone)
        radius_mm = inside_radius_mm(stage) if stage is not None else None
        thick_mm = across_bend_mm(stage) if stage is not None else 0.0
        if radius_mm and radius_mm < _SHARPEST_TIMES * thick_mm:
            return say(
                "{} is bent to {} inside on a thickness of {}: so sharp its outside thins and its inside "
                "folds; is it meant?",
                *(zone, mm(radius_mm), mm(thick_mm)),
            )
    return None


def _skin(step: Step) -> Words | None:
    skin_mm = step.amounts.get("skin_mm", 0.0)
    if skin_mm <= _DEEPEST_SKIN_MM:
        return None
    return say("a skin of {} off each face: is it meant?", mm(skin_mm))


def _gap(step: Step) -> Words | None:
    limits = step.targets.get("gap")
    if limits is None or limits.nominal <= _WIDEST_GAP_MM:
        return None
    return say("a gap of {}: is it meant?", Wanted(limits))


def _bite(plan: Plan, step: Step) -> Words | None:
    bite_mm = step.amounts.get("bite_mm", 0.0)
    wide = [width for zone in step.zones if (width := _width_mm(plan, step, zone)) is not None]
    if not wide or bite_mm <= _LONGEST_BITE_TIMES * max(wide):
        return None
    return say("a bite of {} on a bar {} wide: is it meant?", mm(bite_mm), mm(max(wide)))


def _kerf(step: Step) -> Words | None:
    kerf_mm = step.amounts.get("kerf_mm", 0.0)
    if kerf_mm <= _WIDEST_KERF_MM:
        return None
    return say("a kerf of {}, where a saw takes some {}: is it meant?", mm(kerf_mm), mm(1.5))


def _waste(plan: Plan, step: Step) -> Words | None:
    """More of a ring's bar than its lap can take."""
    waste_mm = step.amounts.get("waste_mm", 0.0)
    bars = [stage.form_before.section(0.0).outline for stage in plan.by_step[step.number].values()]
    across = [max(side) - min(side) for outline in bars for side in zip(*outline, strict=True)]
    if not across or waste_mm <= _MOST_WASTE_TIMES * min(across):
        return None
    return say(
        "a waste of {}, where a weld takes a third to once the thickness of its bar, {}: is it meant?",
        *(mm(waste_mm), mm(min(across))),
    )


def _straight(plan: Plan, step: Step) -> Iterator[Words]:
    lengths = (_length_mm(plan, step, zone) for zone in step.zones)
    long_mm = sum(one for one in lengths if one is not None)
    for name in ("bow", "wind"):
        if name in step.targets and 0.0 < long_mm * _STRAIGHT_SHARE < step.targets[name].nominal:
            limits = Wanted(step.targets[name])
            yield say("a {} of {} on a length of {}: is it meant?", name, limits, mm(long_mm))


def _haft(plan: Plan, step: Step) -> Words | None:
    """A haft that is much shorter than what goes into it."""
    wanted, proud = step.targets.get("haft_length"), step.targets.get("proud")
    if wanted is None or not step.does(Does.FITS_A_HAFT):
        return None
    if proud is not None and _MOST_PROUD_SHARE * wanted.nominal < proud.nominal < wanted.nominal:
        return say(
            "{} of a haft of {} is to stand proud of its eye: is it meant?",
            *(mm(proud.nominal), mm(wanted.nominal)),
        )
    if wanted.nominal > _LONGEST_HAFT_MM:
        return say("a {} of {}: is it meant?", said("haft_length"), mm(wanted.nominal))
    long_mm = max((_length_mm(plan, step, zone) or 0.0 for zone in step.zones), default=0.0)
    if wanted.nominal >= _SHORTEST_HAFT_SHARE * long_mm:
        return None
    return say(
        "a {} of {}, shorter than {}, which is {} long: is it meant?",
        *(said("haft_length"), mm(wanted.nominal), step.zones[0], mm(long_mm)),
    )


def _haft_there(plan: Plan, step: Step) -> Words | None:
    """A haft on what has an edge along it: that is the blade, and hands hold its tang."""
    if not step.does(Does.FITS_A_HAFT):
        return None
    edged = [zone for zone in step.zones if "reach" in plan.recipe.drawing[zone].limits]
    others = [zone for zone in plan.recipe.drawing if zone not in edged]
    if not edged or not others:
        return None
    return say("a haft on {}, which has the edge: is another zone meant?", edged[0])


def _soak(step: Step) -> Words | None:
    soak = step.targets.get("soak")
    if soak is not None and step.does(Does.QUENCHES) and soak.nominal < _LEAST_SOAK_S:
        return say("a soak of {} before the quench: is its unit meant?", seconds(soak.nominal))
    if soak is None or not step.does(Does.TEMPERS):
        return None
    if soak.nominal > _MOST_TEMPER_S:
        return say(
            "a temper held for {}, where an hour or two are usual: is it meant?", seconds(soak.nominal)
        )
    if soak.nominal >= _LEAST_TEMPER_S:
        return None
    return say(
        "a temper held for {}, where one in a fire or an oven takes {} or more: is it meant? One run by "
        "its colour has no soak.",
        seconds(soak.nominal),
        seconds(_LEAST_TEMPER_S),
    )


def _temper_colour(step: Step) -> Words | None:
    """A temper by a colour that no table of them has: of that no hardness is known."""
    if not step.does(Does.TEMPERS) or not step.colour or temper_heat_c(step) is not None:
        return None
    return say(
        "no table of temper colours has {}, so nobody can tell what it leaves: is it meant? Write its "
        "temperature beside it, or a colour such as straw or blue.",
        f"“{step.colour[:_LONGEST_ECHO]}”",
    )


def _hardness(step: Step) -> Words | None:
    limits = step.targets.get("hardness")
    if limits is None or not limits.is_two_sided or limits.high - limits.low <= _WIDEST_HARDNESS_HRC:
        return None
    wanted = Span(limits.low, limits.high, Kind.HARDNESS)
    return say("a hardness of {}: is one of its limits a slip?", wanted)


def _steel_left(plan: Plan, step: Step) -> Words | None:
    """Steel that is laid on and of which hardly any is to be left."""
    remains = next((one.remains for one in laid_steels(plan) if one.steel == step.lays), None)
    if remains is None or remains.value >= _LEAST_STEEL_MM:
        return None
    return say("of {} only {} is to be left of hard steel: is it meant?", str(step.lays), remains)


def _fiercer(plan: Plan, step: Step) -> Words | None:
    """A quench that is fiercer than the steel's own, where nothing is found against it."""
    if not step.does(Does.QUENCHES) or step.quench not in WATERS:
        return None
    thick_mm = thickness_mm(plan, step)
    for metal in steels_of(plan, step):
        own = metal.quench.medium if metal.quench is not None else ""
        if own in WATERS and is_fiercer(step.quench, own):
            thick = say(", {} thick,", mm(thick_mm)) if thick_mm is not None else NOTHING
            return say(
                "{}{} is quenched in {}, and can crack in {}: is it meant?",
                metal.name,
                thick,
                own,
                step.quench,
            )
    return None


def _length_mm(plan: Plan, step: Step, zone: str) -> float | None:
    stage = plan.by_step[step.number].get(zone)
    return stage.form_after.sizes_mm().get("length") if stage is not None else None


def _width_mm(plan: Plan, step: Step, zone: str) -> float | None:
    stage = plan.by_step[step.number].get(zone)
    sizes = stage.form_before.sizes_mm() if stage is not None else {}
    return next((sizes[name] for name in _ACROSS if name in sizes), None)
