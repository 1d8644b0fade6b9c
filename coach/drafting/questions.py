"""The questions about a tool that is to be made: one at a time, each with what is usual, none for good."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from coach.drafting.answers import Answers, CannotDraft, drawn, hafted_to
from coach.drafting.treatment import treatment_steps
from coach.metals.grade import grade
from coach.recipe.words import NAME, NONE, UNITS

_ZONE: Final = "zone"
_NO_MORE: Final = "no more"
#: More zones than this is no tool that is proposed for (our choice).
_MOST_ZONES: Final = 12
#: What stands for a bar and a zone that are not told yet, in a file of either units (our choice).
_SKETCHED_BAR: Final = "square 10 mm"
_SKETCHED: Final = f"{_SKETCHED_BAR}, long 50 mm"


#: What is told as an example in a file in inches.
_IN_INCHES: Final = {"bar": "2 x 3/8, long 20 in", _ZONE: "blade: 1 1/2 x 1/4, long 4 3/4 ±1/4"}


class Question(NamedTuple):
    """One thing that is asked."""

    name: str
    asks: str
    usual: str  # what an empty answer means; "" where it must be told
    such_as: str  # an example


@dataclass
class Interview:
    """The answers so far, in the order they were given."""

    told: list[tuple[str, str]] = field(default_factory=list)
    before: dict[str, str] = field(default_factory=dict)  # answers that were taken back: usual from then on

    def _said(self, name: str) -> str:
        return dict(self.told).get(name, "")

    @property
    def _zones(self) -> dict[str, str]:
        rows = (text.partition(":") for name, text in self.told if name.startswith(_ZONE) and text)
        return {name.strip(): size.strip() for name, _, size in rows}

    @property
    def question(self) -> Question | None:
        """What is asked next; None once everything is answered. What was answered before is usual."""
        one = self._next()
        if one is None or one.name not in self.before:
            return one
        return one._replace(usual=self.before[one.name] or one.usual)

    def _next(self) -> Question | None:
        asked = {name for name, _ in self.told}
        zones = self._zones
        for one in (*_FIRST, *self._zone_questions(), *_LAST):
            if one.name in asked or not _IS_WANTED.get(one.name, _always)(self):
                continue
            if one.name == "haft" and any("hole" in size for size in zones.values()):
                return one._replace(usual="yes")
            if one.such_as and self._said("units") == "in":
                return one._replace(such_as=_IN_INCHES.get(one.name.split()[0], one.such_as))
            return one
        return None

    def _zone_questions(self) -> list[Question]:
        given = [text for name, text in self.told if name.startswith(_ZONE)]
        if (given and not given[-1]) or len(given) >= _MOST_ZONES:
            return []
        number = len(given) + 1
        asks = f"Zone {number} from the end of the bar, its name and finished size" + (
            "; Enter when there are no more" if given else ""
        )
        usual = _NO_MORE if given else ""
        return [Question(f"{_ZONE} {number}", asks, usual, "blade: 40 ±1 x 6, long 120 ±6")]

    def answer(self, typed: str) -> None:
        """Answer what is asked; raises CannotDraft, and then it is asked again."""
        question = self.question
        if question is None:
            return
        text = " ".join(typed.split()) or question.usual
        if not text:
            raise CannotDraft(f"That must be told, as in {question.such_as}.")
        if question.name.startswith(_ZONE) and text == _NO_MORE and self._zones:
            text = ""
        self.told.append((question.name, text))
        try:
            self._check(question.name, text)
        except CannotDraft:
            self.told.pop()
            raise
        self.before.pop(question.name, None)

    def back(self) -> str | None:
        """Take the last answer back and return it; None where there is none."""
        if not self.told:
            return None
        name, text = self.told.pop()
        self.before[name] = text
        return text

    def _check(self, name: str, text: str) -> None:
        if name in ("metal", "steel"):
            try:
                grade(text)
            except Exception as error:
                raise CannotDraft("{}", getattr(error, "words", str(error))) from None
        elif name == "units" and text not in UNITS:
            raise CannotDraft("Units are mm or in.")
        elif name == "haft":
            hafted_to(text, self._zones)
        elif name.startswith(_ZONE) and text:
            zone, colon, size = text.partition(":")
            if not colon or not size.strip():
                usual = "tip: square 8 to 3, long 90"
                such_as = _IN_INCHES[_ZONE] if self._said("units") == "in" else usual
                raise CannotDraft(f"Write its name, a colon and its finished size, as in {such_as}.")
            if not NAME.fullmatch(zone.strip()):
                raise CannotDraft("A zone's name is letters, digits and blanks, and begins with a letter.")
            drawn(self.answers())
        elif name in ("bar", "steel_size"):
            drawn(self.answers())
        elif name in ("laid_on", "hard"):
            for one in text.split(" and "):
                if one != NONE and one not in self._zones:
                    raise CannotDraft(
                        f"There is no zone “{one[:30]}”: the zones are {', '.join(self._zones)}."
                    )
        if name == "laid_on":
            self._check_laid_on(text)
        if name in ("hard", "hardness", "haft"):
            answers = self.answers()
            list(treatment_steps(answers, *drawn(answers), {}))

    def _check_laid_on(self, zone: str) -> None:
        """Raise CannotDraft where steel is laid on another zone than the last of the bar."""
        answers = self.answers()
        pieces, _ = drawn(answers)
        last = pieces[answers.piece].zones[-1]
        if zone not in (NONE, last):
            raise CannotDraft(
                f"Steel is laid on the last zone of the bar, which is {last}: answer {last} or none, or go "
                f"back and give the zones from the other end."
            )

    def answers(self) -> Answers:
        """All answers so far; what is not answered yet is as usual."""
        said = self._said
        return Answers(
            name=said("name") or "Tool",
            metal=said("metal") or "mild steel",
            bar=said("bar") or _SKETCHED_BAR,
            zones=self._zones or {"body": _SKETCHED},
            units=said("units") or "mm",
            laid_on=said("laid_on") or NONE if said("steel_size") else NONE,
            steel=said("steel"),
            steel_bar=said("steel_bar"),
            steel_size=said("steel_size"),
            inset=said("inset") or NONE,
            hard=said("hard") or NONE,
            hardness=said("hardness") or NONE,
            haft=hafted_to(said("haft") or NONE, self._zones),
        )


_FIRST: Final = (
    Question("name", "What is to be made", "", "Hedging hatchet"),
    Question("units", "Sizes in mm or in", "mm", "mm"),
    Question("metal", "Of what metal", "mild steel", "C45"),
    Question("bar", "The bar at hand, with its length where that is short", "", "50 x 10, long 500"),
)
_LAST: Final = (
    Question("laid_on", "Steel to be laid on: on which zone, the last of the bar", NONE, "blade"),
    Question("steel", "Of what steel", "1084", "C80"),
    Question("steel_bar", "From what bar", "", "25 x 6"),
    Question("steel_size", "Its size ready to be laid on", "", "25 ±1 x 5 ±0.5, long 60 ±3"),
    Question("inset", "How deep it goes into a cleft; none lays it on the face", NONE, "12"),
    Question("hard", "Which zones are hardened", NONE, "blade and bit"),
    Question("hardness", "To what hardness", NONE, "53 to 57"),
    Question("haft", "Is it hafted: yes in its eye, or the zone of its tang", "no", "yes"),
)


def _always(interview: Interview) -> bool:
    return True


def _steel(interview: Interview) -> bool:
    return dict(interview.told).get("laid_on", NONE) != NONE


def _hard(interview: Interview) -> bool:
    return dict(interview.told).get("hard", NONE) != NONE


_IS_WANTED: Final[dict[str, Callable[[Interview], bool]]] = {
    "steel": _steel,
    "steel_bar": _steel,
    "steel_size": _steel,
    "inset": _steel,
    "hardness": _hard,
}
