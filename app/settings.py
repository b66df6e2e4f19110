"""What a user has chosen once and wants kept: one frozen record, and the file that it lives in.

Lengths are mm. Fields with a `Shown` are settings in the dialog, built from this record; the others are
remembered silently. A file that cannot be read costs the choices in it, never the start of the program.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Literal, NamedTuple, get_type_hints

import msgspec
from PySide6.QtCore import QObject, Signal

from app.folders import settings_file
from app.words import QT_TRANSLATE_NOOP
from geometry.model.record import Record, Span, Words
from geometry.units import Display

Theme = Literal["auto", "light", "dark"]
MOST_RECENT = 8
"""Job files that are remembered."""
MOST_BYTES = 200_000


class Shown(NamedTuple):
    """How a setting is offered: its label and one sentence. Both are translated where they are shown."""

    label: str
    sentence: str


@dataclass(frozen=True)
class Choices:
    """The words for the values of a setting that is one of several."""

    words: dict[str, str]


Step = Annotated[float, Span(0.1, 500.0, " mm", grid=1)]
Stretch = Annotated[float, Span(0.9, 1.1, "")]
Path_ = Annotated[str, Words(4000, empty=True)]


class Settings(Record, frozen=True, kw_only=True):
    """Every setting with its default and bounds."""

    unit: Annotated[
        Display,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Unit"),
            QT_TRANSLATE_NOOP("Settings", "Lengths are shown in it; a number typed without a unit is in it."),
        ),
        Choices(
            {
                "mm": QT_TRANSLATE_NOOP("Settings", "Millimetres"),
                "cm": QT_TRANSLATE_NOOP("Settings", "Centimetres"),
                "in": QT_TRANSLATE_NOOP("Settings", "Inches and fractions"),
            }
        ),
    ] = "mm"
    theme: Annotated[
        Theme,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Light or dark"),
            QT_TRANSLATE_NOOP("Settings", "Light reads best in daylight, dark in a dim room."),
        ),
        Choices(
            {
                "auto": QT_TRANSLATE_NOOP("Settings", "As the computer has it"),
                "light": QT_TRANSLATE_NOOP("Settings", "Light"),
                "dark": QT_TRANSLATE_NOOP("Settings", "Dark"),
            }
        ),
    ] = "auto"
    snapping: Annotated[
        bool,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Snapping"),
            QT_TRANSLATE_NOOP(
                "Settings",
                "A dragged part catches on centre lines, neighbours and joints; Ctrl holds it off.",
            ),
        ),
    ] = True
    nudge: Annotated[
        Step,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Step of an arrow key"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen."),
        ),
    ] = 1.0
    nudge_far: Annotated[
        Step,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Step with Shift"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen while Shift is held."),
        ),
    ] = 10.0
    nudge_fine: Annotated[
        Step,
        Shown(
            QT_TRANSLATE_NOOP("Settings", "Step with Alt"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen while Alt is held."),
        ),
    ] = 0.1

    last_folder: Path_ = ""
    """Where a job was opened or saved last."""
    recent: tuple[str, ...] = ()
    """Job files, the last one first."""
    sheets: tuple[str, ...] = ()
    """Names of the sheets that were made last; none stands for all."""
    sheet_folder: Path_ = ""
    paper: str = "A4"
    scale: Annotated[int, Span(1, 200, "")] | None = None
    stretch_x: Stretch = 1.0
    stretch_y: Stretch = 1.0
    window_size: tuple[int, int] | None = None
    panel_width: Annotated[int, Span(200, 2000, " px")] | None = None

    def with_recent(self, path: Path) -> "Settings":
        """Return the settings with a job file as the last one, and its folder as the last folder."""
        name = str(path.absolute())
        kept = tuple(held for held in self.recent if held != name)
        return self.but(recent=(name, *kept)[:MOST_RECENT], last_folder=str(path.absolute().parent))


class Offered(NamedTuple):
    """One setting as the dialog offers it."""

    name: str
    shown: Shown
    default: Any
    span: Span | None
    choices: dict[str, str] | None


def offered() -> tuple[Offered, ...]:
    """Return the settings that the dialog offers, in the order of the record."""
    found = []
    for name, hint in get_type_hints(Settings, include_extras=True).items():
        marks = {type(mark): mark for mark in getattr(hint, "__metadata__", ())}
        if Shown in marks:
            choices = marks[Choices].words if Choices in marks else None
            found.append(Offered(name, marks[Shown], getattr(Settings(), name), marks.get(Span), choices))
    return tuple(found)


def read_settings(data: bytes) -> tuple[Settings, tuple[str, ...]]:
    """Read settings; what cannot be used takes its default, with one sentence each that says so."""
    try:
        plain = msgspec.json.decode(data)
        if not isinstance(plain, dict):
            raise ValueError("it holds no settings")
    except (ValueError, RecursionError) as problem:
        return Settings(), (f"The settings could not be read and are back at their defaults: {problem}",)
    held, problems = Settings(), []
    for name, value in plain.items():
        if name not in Settings.__struct_fields__:
            continue  # of a newer program, perhaps
        try:
            one = msgspec.convert({name: value}, Settings)
        except ValueError as problem:
            problems.append(f"The setting {name} could not be read and is back at its default: {problem}")
        else:
            held = held.but(**{name: getattr(one, name)})
    return held, tuple(problems)


def write_settings(settings: Settings) -> bytes:
    """Return the bytes of a settings file; only what differs from the defaults stands in it."""
    usual = Settings()
    changed = {
        name: getattr(settings, name)
        for name in Settings.__struct_fields__
        if getattr(settings, name) != getattr(usual, name)
    }
    return msgspec.json.format(msgspec.json.encode(changed), indent=2) + b"\n"


class Preferences(QObject):
    """The settings in force, kept in a file; views hear `changed` and show them."""

    changed = Signal(object)
    """The new Settings."""
    failed = Signal(str)
    """The settings could not be kept: one sentence."""

    def __init__(self, file: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.file = file or settings_file()
        self.problems: tuple[str, ...] = ()
        self._settings = Settings()
        self._read()

    @property
    def settings(self) -> Settings:
        """The settings in force."""
        return self._settings

    def change(self, **changes: Any) -> None:
        """Change some settings and keep them.

        Raises:
            ValueError: a value is out of bounds; nothing has changed then.
        """
        self.use(self._settings.but(**changes))

    def use(self, settings: Settings) -> None:
        """Put settings in force and keep them."""
        if settings != self._settings:
            self._settings = settings
            self._write()
            self.changed.emit(settings)

    def _read(self) -> None:
        try:
            with self.file.open("rb") as file:
                data = file.read(MOST_BYTES)
        except FileNotFoundError:
            return
        except OSError as problem:
            self.problems = (f"The settings could not be read: {problem.strerror or problem}",)
            return
        self._settings, self.problems = read_settings(data)

    def _write(self) -> None:
        from export.atomic import write_atomically

        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            write_atomically(self.file, write_settings(self._settings))
        except OSError as problem:
            self.failed.emit(f"The settings could not be kept: {problem.strerror or problem}")
