"""``completion``: a script by which the shell completes commands, options, names and files.

The script itself is made by shtab from the parser of the command line; what a script cannot know (kinds,
rules, fields, catalogue ids) it asks for with ``completion --values``, which imports little.  What stands on a
list (ids, and their fields for ``swap --replace``) it asks for with the words of the line so far.
"""

from __future__ import annotations

from partscheck.commands import common

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable, Iterator
    from typing import Any

HELP = "print a script that lets your shell complete commands, names and files"
SHELLS = ("bash", "zsh", "fish")
EPILOG = (
    "Try it in the shell at hand: `source <(partscheck completion bash)`, "
    '`eval "$(partscheck completion zsh)"` or `partscheck completion fish | source`. To keep it, write it to '
    "~/.local/share/bash-completion/completions/partscheck (bash), to a file _partscheck in a folder of $fpath "
    "(zsh), or to ~/.config/fish/completions/partscheck.fish (fish)."
)
# What an argument takes, by its word in the help: a set of values below, or files.
TAKES = {
    "NAME": "names", "KIND": "kinds", "RULE": "rules", "FIELD": "fields", "FIELD=VALUE": "settings",
    "[WHAT]": "drawings", "PART": "parts", "LIST": "*.yaml", "CHANGE": "*.yaml", "FILE.csv": "*.csv",
    "DIR": "folder", "FILE": "file", "ID": "ids", "ID.FIELD=VALUE": "changes",
}  # fmt: skip

# In bash only the function that completes can say that no blank follows "stud_length=".
NO_BLANK = """
_partscheck_complete() {
  _shtab_partscheck "$@"
  [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *= ]] && compopt -o nospace 2>/dev/null
  return 0
}
complete -o bashdefault -F _partscheck_complete partscheck
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    from argparse import REMAINDER, SUPPRESS

    parser.epilog = EPILOG
    parser.add_argument("shell", choices=SHELLS, nargs="?", help="which shell")
    parser.add_argument("--values", choices=sorted({*VALUES, *OF_LIST}), help=SUPPRESS)
    parser.add_argument("--words", nargs=REMAINDER, default=[], help=SUPPRESS)


def run(arguments: argparse.Namespace) -> int:
    if arguments.values is not None:
        name = arguments.values
        values = OF_LIST[name](arguments.words) if name in OF_LIST else VALUES[name]()
        common.write("".join(f"{value}\n" for value in values))
        return common.NO_STOP
    if arguments.shell is None:
        return common.complain(f"Name the shell: {', '.join(SHELLS)}.")
    try:
        import shtab
    except ImportError:
        return common.complain(
            "The script is made by the package shtab, which is not installed: pip install 'partscheck[completion]'"
        )
    parser = arguments.whole_parser()
    _tell_what_is_taken(parser, shtab)
    script = shtab.complete(parser, arguments.shell, preamble=_asking(arguments.shell))
    common.write(script.rstrip("\n") + "\n" + (NO_BLANK if arguments.shell == "bash" else ""))
    return common.NO_STOP


# ---- what is taken where -----------------------------------------------------------------


def _tell_what_is_taken(parser: argparse.ArgumentParser, shtab: Any) -> None:
    """Mark every argument of every command with what completes it."""
    files = {
        "*.yaml": shtab.glob("*.yaml", "*.yml"),
        "*.csv": shtab.glob("*.csv"),
        "folder": shtab.DIRECTORY,
        "file": shtab.FILE,
    }
    for action in _arguments(parser):
        takes = TAKES.get(action.metavar if isinstance(action.metavar, str) else "", "")
        if takes in VALUES or takes in OF_LIST:
            function = f"_partscheck_{takes}"
            action.complete = {"bash": function, "zsh": function, "fish": f"({function})"}
        elif takes:
            action.complete = files[takes]


def _arguments(parser: argparse.ArgumentParser) -> Iterator[Any]:
    for action in parser._actions:
        if isinstance(action.choices, dict):
            for command in action.choices.values():
                yield from _arguments(command)
        else:
            yield action


def _asking(shell: str) -> str:
    """The functions of a shell that ask for values.  Nothing follows a name that awaits its value."""
    ask = "partscheck completion --values {0}{2} 2>/dev/null"
    bodies = {
        "bash": '_partscheck_{0}() {{ compgen -W "$(' + ask + ')" -- "$1"; }}',
        "zsh": '_partscheck_{0}() {{ local -a found; found=("${{(@f)$(' + ask + ')}}"); compadd{1} -a found }}',
        "fish": "function _partscheck_{0}\n  " + ask + "\nend",
    }
    words = {"bash": '"${COMP_WORDS[@]}"', "zsh": '"${(Q)words[@]}"', "fish": "(commandline -opc)"}[shell]
    used = sorted(set(TAKES.values()) & {*VALUES, *OF_LIST})
    return "\n".join(
        bodies[shell].format(
            name,
            " -S ''" if name in ("settings", "changes") else "",
            f" --words {words}" if name in OF_LIST else "",
        )
        for name in used
    )


# ---- values ------------------------------------------------------------------------------


def _kinds() -> Iterable[str]:
    from partscheck.parts.kinds import KINDS

    return sorted(KINDS)


def _drawings() -> Iterable[str]:
    from partscheck.commands.draw import KINDS

    return KINDS


def _rules() -> Iterable[str]:
    from partscheck.rules import load_rules

    return sorted(load_rules())


def _fields() -> Iterable[str]:
    """ "hub.stud_length", of every kind."""
    from partscheck.parts.kinds import KINDS

    return sorted(f"{kind}.{field.key}" for kind, record in KINDS.items() for field in record.fields.values())


def _settings() -> Iterable[str]:
    """ "stud_length=", whatever the kind."""
    return sorted({name.partition(".")[2] + "=" for name in _fields()})


def _limits() -> Iterable[str]:
    from partscheck.build.limits import Limits
    from partscheck.catalogue.catalogue import Catalogue

    return sorted(Limits(Catalogue.load([])).names())


def _parts() -> Iterable[str]:
    """Ids of the shipped catalogue."""
    from partscheck.catalogue.catalogue import Catalogue

    return sorted(entry.id for entry in Catalogue.load([]).parts())


def _names() -> Iterable[str]:
    """What ``explain`` explains."""
    return [*_rules(), *_kinds(), *_fields(), *_limits(), *_parts(), "units"]


VALUES = {
    "drawings": _drawings, "fields": _fields, "kinds": _kinds, "limits": _limits, "names": _names, "parts": _parts,
    "rules": _rules, "settings": _settings,
}  # fmt: skip


# ---- values of the list on the line ------------------------------------------------------


def _ids(words: list[str]) -> Iterable[str]:
    return (part.id for part in _parts_on(words))


def _changes(words: list[str]) -> Iterable[str]:
    """ "wheel.offset=", of every line of the list."""
    return (f"{part.id}.{field.key}=" for part in _parts_on(words) for field in part.fields.values())


def _parts_on(words: list[str]) -> list[Any]:
    """The lines of the first list among the words, read with the catalogues named beside it; none of a list
    that cannot be read: completion never complains.
    """
    import os
    import re
    import shlex
    from itertools import pairwise

    from partscheck.build.reader import read_build
    from partscheck.catalogue.catalogue import Catalogue
    from partscheck.notation.faults import Faults

    plain = []
    for word in words:
        try:
            plain.append(os.path.expanduser("".join(shlex.split(word))))
        except ValueError:  # a quote that is still open
            plain.append(word)
    folders = [word for before, word in pairwise(plain) if before == "--catalog"]
    name = next((word for word in plain if word.endswith((".yaml", ".yml")) and os.path.isfile(word)), None)
    if name is None:
        return []
    try:
        build = read_build(name, Catalogue.load([one for one in folders if os.path.isdir(one)]))
    except (Faults, OSError):
        return []
    # bash acts upon signs such as $ and ` in what it is offered: an id that has one is not offered
    return [part for part in build.parts if re.fullmatch(r"[\w./+-]+", part.id, re.ASCII)]


OF_LIST = {"changes": _changes, "ids": _ids}
