"""The command line. Scripts rely on it: commands, options, exit codes and JSON keys are fixed.

Exit codes: 0 no clash and nothing unchecked, 1 otherwise, 2 input that cannot be used. Errors are one
line on standard error. What only some commands need is imported by those commands.
"""

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NoReturn

COMMANDS = ("start", "check", "pack", "parts", "rules")
DESCRIPTION = "Plans a concealed shower on one wall before anybody cuts it."


class _OneLineParser(argparse.ArgumentParser):
    """A parser whose errors are one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {' '.join(message.split())}\n")


def main(argv: Sequence[str] | None = None) -> int:
    """Run the program and return its exit code."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    try:
        options = _parser().parse_args(_with_command(arguments))
        run: Callable[[argparse.Namespace], int] = options.run
        return run(options)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else 2
    except BrokenPipeError:  # the reader of our output has gone, as with `| head`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except Exception as problem:
        from app.files import InputError

        if not isinstance(problem, InputError):
            raise
        print(f"chasewright: {problem}", file=sys.stderr)
        return 2


def run() -> None:
    """Run the program as a console script."""
    sys.exit(main())


def _with_command(arguments: list[str]) -> list[str]:
    """Put the word `window` before arguments that name no command."""
    if arguments and (arguments[0] in COMMANDS or arguments[0] in ("-h", "--help", "--version")):
        return arguments
    return ["window", *arguments]


def _parser() -> argparse.ArgumentParser:
    parser = _OneLineParser(prog="chasewright", description=DESCRIPTION)
    parser.add_argument("--version", action="version", version="chasewright 0.1.0")
    commands = parser.add_subparsers(metavar="COMMAND", required=True)

    window = commands.add_parser("window", help="open the window (also without any command)")
    window.add_argument("file", nargs="?", type=Path, metavar="FILE")
    window.set_defaults(run=_window)

    start = commands.add_parser("start", help="write a new job, set out by the trade's rule")
    start.add_argument("file", type=Path, metavar="FILE")
    start.add_argument("--tray", required=True, metavar="WxD", help="width along the wall x projection, mm")
    start.add_argument("--entry", required=True, choices=("left", "right", "front"))
    start.add_argument("--wall", metavar="WxH", help="width x height, mm")
    start.set_defaults(run=_start)

    check = commands.add_parser("check", help="list what is wrong; exit 0 if nothing is")
    check.add_argument("file", type=Path, metavar="FILE")
    check.add_argument("--json", action="store_true")
    check.set_defaults(run=_check)

    pack = commands.add_parser("pack", help="write the sheets")
    pack.add_argument("file", type=Path, metavar="FILE")
    pack.add_argument("-o", dest="folder", type=Path, required=True, metavar="DIR")
    pack.add_argument("--paper", default="A4", metavar="A4|A3|...")
    pack.add_argument("--scale", type=int, metavar="N", help="1:N for the scaled sheets")
    pack.add_argument("--only", nargs="+", default=[], metavar="NAME", help="some sheets only")
    pack.add_argument("--stretch-x", type=float, default=1.0, metavar="F", help="corrects a printer")
    pack.add_argument("--stretch-y", type=float, default=1.0, metavar="F")
    pack.set_defaults(run=_pack)

    parts = commands.add_parser("parts", help="list the parts")
    parts.add_argument("--json", action="store_true")
    parts.set_defaults(run=_parts)

    rules = commands.add_parser("rules", help="list the limits, with where each comes from")
    rules.add_argument("file", nargs="?", type=Path, metavar="FILE", help="a job beside which rules may lie")
    rules.add_argument("--json", action="store_true")
    rules.set_defaults(run=_rules)
    return parser


def _window(options: argparse.Namespace) -> int:
    from app.window import open_window

    return open_window(options.file)


def _start(options: argparse.Namespace) -> int:
    from app.commands import start

    return start(options.file, options.tray, options.entry, options.wall)


def _check(options: argparse.Namespace) -> int:
    from app.commands import check

    return check(options.file, as_json=options.json)


def _pack(options: argparse.Namespace) -> int:
    from app.commands import pack

    stretch = (options.stretch_x, options.stretch_y)
    return pack(options.file, options.folder, options.paper, options.scale, options.only, stretch)


def _parts(options: argparse.Namespace) -> int:
    from app.commands import parts

    return parts(as_json=options.json)


def _rules(options: argparse.Namespace) -> int:
    from app.commands import rules

    return rules(options.file, as_json=options.json)
