"""The command line. Scripts rely on it: commands, options, exit codes and JSON keys are fixed.

Exit codes: 0 no clash and nothing unchecked, 1 otherwise, 2 input that cannot be used. Errors are one
line on standard error. What only some commands need is imported by those commands, and only the parser
of the command that was given is built, so that a start stays cheap.
"""

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, NoReturn

DESCRIPTION = "Plans a concealed shower on one wall before anybody cuts it."
DISPLAYS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
"""Environment variables on Linux of which a window needs one; Qt ends the program without."""


class _OneLineParser(argparse.ArgumentParser):
    """A parser whose errors are one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {' '.join(message.split())}\n")


class Command(NamedTuple):
    """One command: what the help says of it, the arguments it takes, and what it does."""

    help: str
    add_arguments: Callable[[argparse.ArgumentParser], None]
    run: Callable[[argparse.Namespace], int]


def main(argv: Sequence[str] | None = None) -> int:
    """Run the program and return its exit code."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    try:
        code = _run(arguments)
        if sys.stdout is not None:
            sys.stdout.flush()  # what cannot be written is told here, and not while Python ends
        return code
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else 2
    except BrokenPipeError:  # the reader of our output has gone, as with `| head`
        _write_no_more()
        return 1
    except OSError as problem:  # a full disk, as a report that is sent to a file may meet
        _write_no_more()
        print(f"chasewright: cannot write: {problem.strerror or problem}", file=sys.stderr)
        return 2
    except Exception as problem:
        from app.files import InputError

        if not isinstance(problem, InputError):
            raise
        print(f"chasewright: {problem}", file=sys.stderr)
        return 2


def _write_no_more() -> None:
    """Lead what is still to be written nowhere, since Python would fail once more on it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def run() -> None:
    """Run the program as a console script."""
    tune()
    sys.exit(main())


def tune() -> None:
    """Set for this process what suits the program: the threads of libraries, the garbage collector."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # no linear algebra here is worth a thread
    gc.set_threshold(50_000)  # what is imported and read stays; looking for garbage in it costs a start 5 %


def _run(arguments: list[str]) -> int:
    if arguments and arguments[0] in ("-h", "--help", "--version"):
        _overview().parse_args(arguments)
    named = bool(arguments) and arguments[0] in COMMANDS
    name = arguments[0] if named else "window"
    command = COMMANDS[name]
    if arguments and not named:
        _refuse_unknown(arguments)
    parser = _OneLineParser(prog=f"chasewright {name}" if named else "chasewright", description=command.help)
    command.add_arguments(parser)
    return command.run(parser.parse_args(arguments[1:] if named else arguments))


def _refuse_unknown(arguments: list[str]) -> None:
    """Refuse what is neither a command nor a job file; a file that is missing is told in the window."""
    first = arguments[0]
    may_be_job = len(arguments) == 1 and first.lower().endswith(".json")
    if not (first.startswith("-") or may_be_job or os.path.exists(first)):
        from app.files import InputError

        commands = ", ".join(COMMANDS)
        raise InputError(f"{first[:60]}: neither a command nor a file; the commands are {commands}")


def _overview() -> argparse.ArgumentParser:
    listed = "\n".join(f"  {name:8} {command.help}" for name, command in COMMANDS.items())
    parser = _OneLineParser(
        prog="chasewright",
        usage="chasewright [FILE] | COMMAND ...",
        description=DESCRIPTION,
        epilog=f"commands:\n{listed}\n\n`chasewright COMMAND --help` tells what each takes.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version="chasewright 0.1.0")
    return parser


def _window_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", nargs="?", type=Path, metavar="FILE")


def _window(options: argparse.Namespace) -> int:
    if sys.platform == "linux" and not any(os.environ.get(name) for name in DISPLAYS):
        from app.files import InputError

        raise InputError("the window needs a display; start, check, pack, parts and rules do without one")
    from app.window import open_window

    return open_window(options.file)


def _start_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--tray", required=True, metavar="WxD", help="width along the wall x projection, mm")
    parser.add_argument("--entry", required=True, choices=("left", "right", "front"))
    parser.add_argument("--wall", metavar="WxH", help="width x height, mm")


def _start(options: argparse.Namespace) -> int:
    from app.commands import start

    return start(options.file, options.tray, options.entry, options.wall)


def _check_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--all", action="store_true", help="list what is clear, too")
    parser.add_argument("--json", action="store_true", help="all of it, for scripts")


def _check(options: argparse.Namespace) -> int:
    from app.commands import check

    return check(options.file, whole=options.all, as_json=options.json)


def _pack_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("-o", dest="folder", type=Path, required=True, metavar="DIR")
    parser.add_argument("--paper", default="A4", metavar="A4|A3|...")
    parser.add_argument("--scale", type=_scale, metavar="N", help="1:N for the scaled sheets")
    parser.add_argument("--only", nargs="+", default=[], metavar="NAME", help="some sheets only")
    parser.add_argument("--stretch-x", type=float, default=1.0, metavar="F", help="corrects a printer")
    parser.add_argument("--stretch-y", type=float, default=1.0, metavar="F")


def _scale(text: str) -> int:
    """Read `10` or `1:10`."""
    try:
        return int(text.removeprefix("1:"))
    except ValueError:
        raise argparse.ArgumentTypeError(f"must be a whole number such as 10, got {text[:40]!r}") from None


def _pack(options: argparse.Namespace) -> int:
    from app.commands import pack

    stretch = (options.stretch_x, options.stretch_y)
    return pack(options.file, options.folder, options.paper, options.scale, options.only, stretch)


def _parts_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true")


def _parts(options: argparse.Namespace) -> int:
    from app.commands import parts

    return parts(as_json=options.json)


def _rules_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", nargs="?", type=Path, metavar="FILE", help="a job beside which rules may lie")
    parser.add_argument("--json", action="store_true")


def _rules(options: argparse.Namespace) -> int:
    from app.commands import rules

    return rules(options.file, as_json=options.json)


COMMANDS: dict[str, Command] = {
    "window": Command("open the window (also without any command)", _window_arguments, _window),
    "start": Command("write a new job, set out by the trade's rule", _start_arguments, _start),
    "check": Command("list what is wrong; exit 0 if nothing is", _check_arguments, _check),
    "pack": Command("write the sheets", _pack_arguments, _pack),
    "parts": Command("list the parts", _parts_arguments, _parts),
    "rules": Command("list the limits, with where each comes from", _rules_arguments, _rules),
}
"""The commands, in the order of the help."""
