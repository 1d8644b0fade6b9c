"""What a shell is told to finish a command line: the verbs, their options, the names there are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import ModuleType
from typing import Final, NamedTuple, get_args

from coach.quantities.takes import Typed
from coach.quantities.units import System

SHELLS: Final = ("bash", "zsh", "fish")
#: What names a shell may ask for, by what a command takes first.
NAMES: Final = {"job": "jobs", "recipe": "recipes", "figure": "figures"}
#: The same, and what else a command may say that a word of it is followed by.
ASKED: Final = frozenset({*NAMES.values(), "bars", "settings"})
_COMMON: Final = ("--shop", "--units", "--json", "--version", "--help")


class Option(NamedTuple):
    """An option of a command."""

    name: str  # `--heats`
    told: str
    takes_value: bool


class Verb(NamedTuple):
    """A command as a shell finishes it."""

    name: str
    told: str
    options: tuple[Option, ...]
    names: str  # `jobs`, `recipes` or `figures`, where its first word is one of them; else empty
    after: Mapping[str, str]  # what follows a word: one of `ASKED`, or the words themselves


def verbs_told(commands: Mapping[str, ModuleType]) -> Iterator[Verb]:
    """Every command and every question, by what its file declares."""
    for name, command in commands.items():
        options = tuple(
            Option(take.name, take.help, take.typed is not Typed.FLAG)
            for take in command.TAKES
            if take.name.startswith("-")
        )
        first = next((take.name for take in command.TAKES if not take.name.startswith("-")), "")
        after = {"--units": " ".join(get_args(System)), **getattr(command, "FINISHES", {})}
        yield Verb(name, command.SUMMARY, options, NAMES.get(first, ""), after)


def script(shell: str, commands: Mapping[str, ModuleType]) -> str:
    """The text that a shell reads as it starts."""
    told = list(verbs_told(commands))
    return _fish(told) if shell == "fish" else _bash(shell, told)


def _bash(shell: str, told: list[Verb]) -> str:
    cases = "\n".join(
        f'        {one.name}) options="{" ".join((*(each.name for each in one.options), *_COMMON))}"'
        f' names="{one.names}" ;;'
        for one in told
    )
    after = "\n".join(
        f'        "{one.name} {word}") COMPREPLY=($(compgen -W "{_given(what)}" -- "$cur")); return ;;'
        for one in told
        for word, what in one.after.items()
    )
    head = "autoload -U +X bashcompinit && bashcompinit\n" if shell == "zsh" else ""
    return f"""\
# {shell} finishes what is typed after coach; made by `coach completion {shell}`.
{head}_coach() {{
    local cur="${{COMP_WORDS[COMP_CWORD]}}" verb="${{COMP_WORDS[1]}}" options="" names="" IFS=$' \\t\\n'
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        COMPREPLY=($(compgen -W "{" ".join(one.name for one in told)} {" ".join(_COMMON)}" -- "$cur"))
        return
    fi
    case "$verb" in
{cases}
        *) return ;;
    esac
    case "$verb ${{COMP_WORDS[COMP_CWORD-1]}}" in
{after}
    esac
    case "$cur" in
        -*) COMPREPLY=($(compgen -W "$options" -- "$cur")) ;;
        *)
            if [ -n "$names" ] && [ "$COMP_CWORD" -eq 2 ]; then
                COMPREPLY=($(compgen -W "$(coach completion "$names" 2>/dev/null)" -- "$cur"))
            fi
            [ "${{#COMPREPLY[@]}}" -gt 0 ] || COMPREPLY=($(compgen -f -- "$cur"))
            ;;
    esac
}}
complete -F _coach coach
"""


def _given(what: str) -> str:
    """What a shell finishes by: what the coach lists, or these words."""
    return f"$(coach completion {what} 2>/dev/null)" if what in ASKED else what


def _fish(told: list[Verb]) -> str:
    lines = [
        "# fish finishes what is typed after coach; made by `coach completion fish`.",
        "complete -c coach -f",
    ]
    for one in told:
        seen = f"-n '__fish_seen_subcommand_from {one.name}'"
        lines.append(f"complete -c coach -n __fish_use_subcommand -a {one.name} -d {_quoted(one.told)}")
        if one.names:
            lines.append(f"complete -c coach {seen} -a '(coach completion {one.names} 2>/dev/null)'")
        for word, what in one.after.items():
            if not word.startswith("-"):
                lines.append(
                    f"complete -c coach {seen[:-1]}; and __fish_prev_arg_in {word}' -a {_words(what)}"
                )
        lines.append(f"complete -c coach {seen} -l units -x -a {_words(one.after['--units'])}")
        for each in one.options:
            value = " -r -F" if each.takes_value else ""
            value = f" -x -a {_words(one.after[each.name])}" if each.name in one.after else value
            lines.append(
                f"complete -c coach {seen} -l {each.name.lstrip('-')}{value} -d {_quoted(each.told)}"
            )
    return "\n".join(lines) + "\n"


def _words(what: str) -> str:
    return _quoted(f"(coach completion {what} 2>/dev/null)" if what in ASKED else what)


def _quoted(text: str) -> str:
    """A text as fish takes it whole."""
    escaped = text.replace("\\", "\\\\").replace("'", "\\'")
    return f"'{escaped}'"
