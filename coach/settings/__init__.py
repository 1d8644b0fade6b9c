"""What the smith has set, in one file: read once as the coach starts, a part that is wrong left out."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final, NamedTuple

_MOST_BYTES: Final = 100_000


class SettingFault(NamedTuple):
    """Something in the file that cannot be so: where, and what was expected."""

    line: int  # from 1; 0 where it is of the whole file
    told: str  # one sentence


class Settings(NamedTuple):
    """What is set; what is not is as usual."""

    values: Mapping[str, Any] = MappingProxyType({})  # by the setting's name: `alarm.back`
    faults: tuple[SettingFault, ...] = ()
    text: str = ""  # the file as it stands

    def get(self, name: str) -> Any:
        """What is set under a name; None where nothing is."""
        return self.values.get(name)

    def under(self, start: str) -> dict[str, Any]:
        """What is set under every name that begins so, by the rest of it."""
        return {name.removeprefix(start): one for name, one in self.values.items() if name.startswith(start)}


_now = Settings()


def set_now() -> Settings:
    """What whoever started the coach has read; nothing is set before."""
    return _now


def use(file: Path | None) -> Settings:
    """Go by what is in a file from now on; where there is none, or None is given, nothing is set."""
    global _now  # noqa: PLW0603
    _now = settings_in(file) if file is not None else Settings()
    from coach.remembered import depends_on

    depends_on(_now.text)
    if _now.text or _gauges_are_changed():
        from coach.operations.gauges import take_own_doubts

        take_own_doubts(_now.under("gauges."))
    return _now


def _gauges_are_changed() -> bool:
    import sys

    gauges = sys.modules.get("coach.operations.gauges")
    return gauges is not None and gauges.own_doubts() != {}


def settings_in(file: Path) -> Settings:
    """What a file sets, and what is wrong in it; one that cannot be read is one fault."""
    from coach.files import said_by_the_system, text_of

    try:
        text = text_of(file, _MOST_BYTES)
    except FileNotFoundError:
        return Settings()
    except OSError as error:
        return Settings(faults=(SettingFault(0, f"It cannot be read. {said_by_the_system(error)}"),))
    except ValueError:
        return Settings(
            faults=(SettingFault(0, "It is no text in UTF-8."),), text="\N{REPLACEMENT CHARACTER}"
        )
    from coach.settings.reading import read_settings

    return read_settings(text)
