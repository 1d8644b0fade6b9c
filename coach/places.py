"""Where the coach's own files live on this computer.

Nothing here makes a folder: whoever writes there first does. `BETWEEN_HEATS_HOME` in the environment
puts every folder under one directory, so that a trial or a demonstration leaves the real shop alone.
"""

from __future__ import annotations

import os
from pathlib import Path

from coach.files import expand

HOME_VARIABLE = "BETWEEN_HEATS_HOME"
APP_NAME = "between-heats"
SHOP_FILE_NAME = "shop.sqlite"

_PACKAGE = Path(__file__).resolve().parent


def _own_home() -> Path | None:
    """The one directory named in the environment, if any; an empty value counts as none."""
    named = os.environ.get(HOME_VARIABLE, "").strip()
    return expand(named).absolute() if named else None


def _folder(kind: str) -> Path:
    if (home := _own_home()) is not None:
        return home / kind
    import platformdirs

    path: Path = getattr(platformdirs, f"user_{kind}_path")(APP_NAME, appauthor=False)
    return path


def data_folder() -> Path:
    """The folder of the log and its backups."""
    return _folder("data")


def config_folder() -> Path:
    """The folder of what the smith has set: units, gauges, the look of the bench."""
    return _folder("config")


def log_folder() -> Path:
    """The folder of reports on faults of the program itself; the log is not here."""
    return _folder("log")


def cache_folder() -> Path:
    """The folder of what is only kept to be quicker; it may be emptied at any time."""
    return _folder("cache")


def shop_file() -> Path:
    """The log, used unless another is named on the command line."""
    return data_folder() / SHOP_FILE_NAME


def grade_folder() -> Path:
    """The folder of the smith's own grades of steel."""
    return config_folder() / "grades"


def choices_file() -> Path:
    """The file that keeps what was chosen last at the screens: their look and the gauge."""
    return config_folder() / "screens.json"


def second_folder_file() -> Path:
    """The file that keeps where the second folder for copies of the log is, as `coach backups` sets it."""
    return config_folder() / "second-folder.txt"


def settings_file() -> Path:
    """The file of what the smith has set, which `coach config` tells of."""
    return config_folder() / "settings.toml"


def bundled_recipes() -> Path:
    """The folder of recipes that come with the coach.

    Inside the package once installed from a wheel; beside the package in a checkout.
    Raises FileNotFoundError when the installation has lost them.
    """
    return _recipes_of(_PACKAGE)


def recipe_folders() -> tuple[Path, ...]:
    """Where recipes are looked for by name: the smith's own folder, then those that come with the coach.

    Raises FileNotFoundError when the installation has lost its recipes.
    """
    return config_folder() / "recipes", bundled_recipes()


def _recipes_of(package: Path) -> Path:
    """The recipes that belong to the package in this folder."""
    for folder in (package / "bundled_recipes", package.parent / "recipes"):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"The bundled recipes are missing from {package}; install between-heats again.")
