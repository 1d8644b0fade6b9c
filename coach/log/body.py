"""What an entry holds: a frozen value of one of the kinds, which passes its limits however it was made."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar, NoReturn, Self, dataclass_transform

from coach.log.limits import (
    Limit,
    OutOfLimits,
    earlier,
    flag,
    line,
    moment,
    number,
    numbers,
    one_of,
    saying,
    step_number,
    texts,
    whole,
    writing,
    written,
)
from coach.log.status import JobStatus
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words, say


@dataclass_transform(
    frozen_default=True,
    field_specifiers=(
        line,
        saying,
        writing,
        one_of,
        whole,
        step_number,
        number,
        numbers,
        flag,
        moment,
        texts,
        earlier,
        written,
    ),
)
class Body:
    """The base of every kind of entry: a class in one file of `coach.log.kinds`.

    Each field is declared with its limit. What is typed, what is brought in and what is read back is made by
    the same constructor, which raises OutOfLimits.
    """

    KIND: ClassVar[str] = ""
    """The kind in a word or two, as the log holds it and answers in JSON tell it: the name of its file."""
    CALLED: ClassVar[str] = ""
    """An entry of the kind as a refusal speaks of it: "a reading"."""
    SAYS: ClassVar[tuple[str, ...]] = ()
    """How it is told in the list of a job's entries: a template, then the fields that it takes."""
    AFTER: ClassVar[JobStatus | None] = None
    """The state of a job that is not finished once it is made; None when it changes nothing."""
    BEGINS: ClassVar[bool] = False
    """Whether it is the first entry of every job, and stands nowhere else."""
    OF_JOB: ClassVar[bool] = True
    """Whether it is entered for a job."""
    OF_RACK: ClassVar[bool] = False
    """Whether it is entered for the shop's rack."""
    CAN_BE_STRUCK: ClassVar[bool] = True
    """Whether it can be struck out."""
    UNDONE_IN_TURN: ClassVar[bool] = True
    """Whether undo takes it when it is the latest that counts."""
    CHANGES_EARLIER: ClassVar[bool] = False
    """Whether any entry of the kind makes those before it count otherwise."""
    IS_WEIGHED: ClassVar[bool] = False
    """Whether it is refused where the job cannot be reckoned any further with it."""
    CAN_BE_PUT_RIGHT: ClassVar[bool] = False
    """Whether what it tells may stand on the list to put right."""
    MOVES_METAL: ClassVar[bool] = False
    """Whether the metal may stand otherwise after it: a moment to look back at."""
    OF_ANY_STEP: ClassVar[bool] = False
    """Whether it may be of another step than the one in hand."""
    IS_WORK: ClassVar[bool] = False
    """Whether it tells of work at the piece: by the last such that moves metal a job was worked last."""
    STANDS_APART: ClassVar[bool] = False
    """Whether what another window enters at the same time may come after it unseen: it tells of no work."""
    limits: ClassVar[Mapping[str, Limit]] = {}
    """What each of its fields may hold, by name."""

    def __init_subclass__(cls) -> None:
        cls.KIND = vars(cls).get("KIND", cls.__module__.rpartition(".")[2].replace("_", " "))
        own = {name: limit for name, limit in vars(cls).items() if isinstance(limit, Limit)}
        for name in own:
            delattr(cls, name)
        cls.limits = {**cls.limits, **own}

    def __init__(self, *values: object, **named: object) -> None:
        limits = type(self).limits
        held = dict(zip(limits, values, strict=False)) | named
        held |= {name: None for name, limit in limits.items() if limit.may_lack and name not in held}
        if held.keys() != limits.keys() or len(values) > len(limits):
            raise TypeError(f"{type(self).__name__} takes {', '.join(limits) or 'nothing'}")
        for name, limit in limits.items():
            found = limit.fault(held[name])
            if found is not None:
                raise self.refused(name, found)
        vars(self).update(held)

    @classmethod
    def refused(cls, name: str, found: str) -> OutOfLimits:
        """The refusal of what a field was to hold."""
        expected = cls.limits[name].expected
        clause = "the {} of {} must be {}, not {}"
        return OutOfLimits(say(clause, name.replace("_", " "), cls.CALLED, expected, found))

    @classmethod
    def from_json(cls, held: Mapping[str, object]) -> Self:
        """The body that `to_json` wrote; raises OutOfLimits, naming the field and what it must be."""
        limits = cls.limits
        lacking = [name for name, limit in limits.items() if name not in held and not limit.may_lack]
        if lacking or not held.keys() <= limits.keys():
            wanted = "must have {}" if lacking else "takes no {}"
            names = lacking or [str(name)[:40] for name in held if name not in limits]
            raise OutOfLimits(say(f"the body of {{}} {wanted}", cls.CALLED, ", ".join(names[:6])))
        made: dict[str, Any] = {}
        for name, limit in limits.items():
            if name not in held:
                continue  # it may lack it
            try:
                made[name] = limit.from_json(held[name])
            except Refusal as wrong:
                clause = "the {} of {} is not {}: {}"
                raise OutOfLimits(say(clause, name, cls.CALLED, limit.expected, wrong.words)) from None
        return cls(**made)

    def to_json(self) -> dict[str, object]:
        """The body as a JSON object, whose names are those of the fields."""
        held = vars(self)
        told = (
            (name, limit)
            for name, limit in self.limits.items()
            if not limit.may_lack or held[name] is not None
        )
        return {name: limit.to_json(held[name]) for name, limit in told}

    @property
    def changes_earlier(self) -> bool:
        """Whether entries before it count otherwise once it is made."""
        return self.CHANGES_EARLIER

    @property
    def of_step(self) -> int:
        """The number of the step that it belongs to; 0 for none."""
        return int(vars(self).get("step", 0))

    @property
    def of_zone(self) -> str:
        """The zone, or the piece, that it tells of; "" for none."""
        return str(vars(self).get("zone", ""))

    def words(self) -> Words:
        """What was entered, for the list of a job's entries."""
        template, *fields = self.SAYS or (self.KIND,)
        return say(template, *(vars(self)[name] for name in fields))

    def replaced(self, **fields: object) -> Self:
        """The same with some fields otherwise."""
        return type(self)(**{**vars(self), **fields})

    def meant(self) -> Mapping[str, int]:
        """The numbers of the earlier entries that it speaks of, by field."""
        limits = self.limits
        return {name: vars(self)[name] for name, limit in limits.items() if limit.is_one}

    @classmethod
    def can_mean(cls, name: str, kind: type[Body]) -> bool:
        """Whether the field of that name may be the number of an entry of that kind."""
        is_one = cls.limits[name].is_one
        return is_one is not None and is_one(kind)

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and vars(other) == vars(self)

    def __hash__(self) -> int:
        return hash(repr(self))

    def __repr__(self) -> str:
        held = ", ".join(f"{name}={value!r}" for name, value in vars(self).items())
        return f"{type(self).__name__}({held})"

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError(f"an entry is never changed: {name}")

    __delattr__ = __setattr__  # type: ignore[assignment]  # refused whatever is handed over
