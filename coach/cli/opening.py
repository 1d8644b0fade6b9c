"""The shop and the jobs in it, opened for one command as its command line says."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.reply import Asked, Refused
from coach.files import contents, expand, refuse_what_is_no_file
from coach.quantities.refusal import Refusal
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.bench.shop import Shop
    from coach.log.kinds.forged_with import ForgedWith
    from coach.remembered import Memory

RECIPE = Take("recipe", "a recipe's name or its file", "RECIPE", needed=True)


def now() -> datetime:
    """The moment that an entry is made at."""
    return datetime.now(UTC)


def shop_path(asked: Asked) -> Path:
    """The file of the log: the one named on the command line, or the user's own."""
    if asked.shop is not None:
        if not asked.shop.strip():
            raise Refused("--shop names no file: give the log, such as --shop shop.sqlite.")
        path = expand(asked.shop)
    else:
        from coach.places import shop_file

        path = shop_file()
    with suppress(FileNotFoundError, PermissionError):
        os.stat(path)  # below a file there is nothing, and nothing can be made: that is said at once
    # Where a pipe stands in place of the log or its journal, SQLite would wait for who writes to it.
    refuse_what_is_no_file(path, or_folder=True)  # of a folder the log itself tells
    for beside in ("-journal", "-wal"):
        refuse_what_is_no_file(Path(f"{path}{beside}"))
    return path


def open_shop(asked: Asked, path: Path | None = None, *, made_up: bool = False) -> Shop:
    """The shop of a command line, or the one in `path`; its log is made when there is none.

    Where the file cannot be written it is opened for reading alone; a copy of it that was due and could not
    be made is told. `made_up` is whether what is in it need not be copied to the second folder.

    Raises LogError.
    """
    from coach.bench.shop import Shop

    path = shop_path(asked) if path is None else path
    read_only = path.is_file() and not (os.access(path, os.W_OK) and os.access(path.parent, os.W_OK))
    second = None if made_up else second_folder()
    shop = Shop(path, now, read_only=read_only, system=asked.units, second=second)
    if not made_up:
        shop.memory = memory_here()
        shop.forged_with = fire_and_hammer_set()
    if shop.not_copied:
        from coach.telling.harmless import harmless
        from coach.telling.words import write
        from coach.telling.writing import Shown

        print(harmless(write(shop.not_copied, Shown(asked.units or "mm"))), file=sys.stderr)
    return shop


@contextmanager
def shop_to_begin_in(asked: Asked) -> Iterator[Shop]:
    """The shop of a command line, to begin a job in; where that fails, a log made for it goes again."""
    path = shop_path(asked)
    is_new = not os.path.lexists(path)
    try:
        with open_shop(asked, path) as shop:
            yield shop
    except BaseException:
        if is_new:
            from coach.log.file import forget_if_empty

            forget_if_empty(path)
        raise


def memory_here() -> Memory:
    """Where this computer remembers what was told and reckoned before."""
    from coach.places import cache_folder
    from coach.remembered import Memory

    return Memory(cache_folder())


def fire_and_hammer_set() -> ForgedWith:
    """The fire and the hammer that jobs are begun with where no others are named: as they are set."""
    from coach.log.kinds.forged_with import ForgedWith
    from coach.settings import set_now

    return ForgedWith(**{name: set_now().get(name) or "" for name in ("fire", "hammer")})


def second_folder() -> Path | None:
    """The second folder that copies of the log are kept in; None when none is set."""
    from coach.places import second_folder_file
    from coach.settings import set_now

    if (named := set_now().get("second_folder")) is not None:
        return expand(named)
    try:
        # A power cut may leave a file full of zeros.
        named = os.fsdecode(contents(second_folder_file(), 10_000).replace(b"\0", b"")).strip()
    except OSError:
        return None
    return Path(named) if named else None


def refuse_where_the_log_is(folder: Path, log: Path) -> None:
    """Raise Refused where a second folder is where the log itself or its first copies are."""
    from coach.log.copies import backups_beside

    first, own = (one.resolve() for one in (backups_beside(log), log.parent))
    if folder.resolve() == own or first in (folder.resolve(), *folder.resolve().parents):
        raise Refused(
            f"{folder} is where the log or its first copies are, so what is lost there is lost together:"
            " name a folder on a stick or on another disk."
        )


def look_for_log(path: Path) -> None:
    """Raise LogMissing where a log is gone that there are copies of."""
    if not path.exists():
        from coach.log.copies import check_not_lost, folders_of

        check_not_lost(path, folders_of(path, second_folder()))


@contextmanager
def a_job(asked: Asked) -> Iterator[Session]:
    """The job that a command line names, open for as long as it is needed.

    Raises Refused when there is no log yet, EntryFault when it has no such job, LogError.
    """
    with shop_and_job(asked) as (_, session):
        yield session


@contextmanager
def shop_and_job(asked: Asked) -> Iterator[tuple[Shop, Session]]:
    """The same with the shop that it is in.

    Where the coach fails over a job that no command can have made, that is the job's fault, not the coach's.
    """
    with open_shop(asked, log_with_jobs(asked)) as shop:
        session = shop.open(asked.job)
        try:
            yield shop, session
        except (Refusal, OSError):
            raise
        except Exception:
            shop.check_as_carried(session.job)
            raise


def log_with_jobs(asked: Asked) -> Path:
    """The file of the log that a command line looks for a job in; raises Refused when there is none yet."""
    path = shop_path(asked)
    look_for_log(path)
    if not os.path.lexists(path):
        raise Refused(
            f"There is no job {asked.job!r}, for {path} does not exist yet: `coach begin RECIPE` begins a job"
            f" and `coach recipes` lists what there is to make."
        )
    return path


def recipe_folders() -> tuple[Path, ...]:
    """Where recipes are looked for by name: the smith's own folder, then those that come with the coach.

    Raises Refused when the installation has lost its recipes.
    """
    from coach import places

    try:
        return places.recipe_folders()
    except FileNotFoundError as error:
        raise Refused(str(error)) from error


def recipe_path(wanted: str) -> Path:
    """The recipe file that a name or a path means; raises NoRecipe."""
    from coach.recipe.library import find_recipe

    return find_recipe(wanted, recipe_folders())
