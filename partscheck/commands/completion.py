"""``completion``: a script by which the shell completes commands, options, names and files.

The script itself is made by shtab from the parser of the command line; what a script cannot know (kinds,
rules, fields, catalogue ids) it asks for with ``completion --values``, which imports little.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partscheck.commands import common

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable, Iterator

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
    "DIR": "folder", "FILE": "file",
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
    from argparse import SUPPRESS

    parser.epilog = EPILOG
    parser.add_argument("shell", choices=SHELLS, nargs="?", help="which shell")
    parser.add_argument("--values", choices=sorted(VALUES), help=SUPPRESS)


def run(arguments: argparse.Namespace) -> int:
    if arguments.values is not None:
        common.write("".join(f"{value}\n" for value in VALUES[arguments.values]()))
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
        if takes in VALUES:
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
    bodies = {
        "bash": '_partscheck_{0}() {{ compgen -W "$(partscheck completion --values {0} 2>/dev/null)" -- "$1"; }}',
        "zsh": (
            "_partscheck_{0}() {{ local -a found; "
            'found=("${{(@f)$(partscheck completion --values {0} 2>/dev/null)}}"); compadd{1} -a found }}'
        ),
        "fish": "function _partscheck_{0}\n  partscheck completion --values {0} 2>/dev/null\nend",
    }
    used = sorted(set(TAKES.values()) & set(VALUES))
    return "\n".join(bodies[shell].format(name, " -S ''" if name == "settings" else "") for name in used)


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
    return [*_rules(), *_fields(), *_limits(), *_parts(), "units"]


VALUES = {
    "drawings": _drawings, "fields": _fields, "kinds": _kinds, "limits": _limits, "names": _names, "parts": _parts,
    "rules": _rules, "settings": _settings,
}  # fmt: skip
