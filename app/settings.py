"""What a user has chosen once and wants kept: one frozen record, and the file that it lives in.

Lengths are mm. Fields with a `Shown` are settings in the dialog, built from this record; the others are
remembered silently. A file that cannot be read costs the choices in it, never the start of the program.
"""

import json
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any, Literal, NamedTuple

from PySide6.QtCore import QObject, Signal

from app.bounds import Between, Bound, Many, Maybe, OneOf, Text, Tick
from app.folders import settings_file
from app.words import QT_TRANSLATE_NOOP
from geometry.units import Display

Theme = Literal["auto", "light", "dark"]
MOST_RECENT = 8
"""Job files that are remembered."""
MOST_BYTES = 200_000


class Shown(NamedTuple):
    """How a setting is offered: its label and one sentence. Both are translated where they are shown."""

    label: str
    sentence: str


def _offered(bound: Bound, label: str, sentence: str) -> dict[str, Any]:
    return {"bound": bound, "shown": Shown(label, sentence)}


def _remembered(bound: Bound) -> dict[str, Any]:
    return {"bound": bound}


_UNITS = OneOf(
    {
        "mm": QT_TRANSLATE_NOOP("Settings", "Millimetres"),
        "cm": QT_TRANSLATE_NOOP("Settings", "Centimetres"),
        "in": QT_TRANSLATE_NOOP("Settings", "Inches and fractions"),
    }
)
_THEMES = OneOf(
    {
        "auto": QT_TRANSLATE_NOOP("Settings", "As the computer has it"),
        "light": QT_TRANSLATE_NOOP("Settings", "Light"),
        "dark": QT_TRANSLATE_NOOP("Settings", "Dark"),
    }
)
_STEP = Between(0.1, 500.0, " mm", places=1)
_STRETCH = Between(0.9, 1.1)


@dataclass(frozen=True)
class Settings:
    """Every setting with its default and bounds.

    Raises:
        ValueError: a value is out of bounds; begins with the setting's name, `.nudge: must be ...`.
    """

    unit: Display = field(
        default="mm",
        metadata=_offered(
            _UNITS,
            QT_TRANSLATE_NOOP("Settings", "Unit"),
            QT_TRANSLATE_NOOP("Settings", "Lengths are shown in it; a number typed without a unit is in it."),
        ),
    )
    theme: Theme = field(
        default="auto",
        metadata=_offered(
            _THEMES,
            QT_TRANSLATE_NOOP("Settings", "Light or dark"),
            QT_TRANSLATE_NOOP("Settings", "Light reads best in daylight, dark in a dim room."),
        ),
    )
    snapping: bool = field(
        default=True,
        metadata=_offered(
            Tick(),
            QT_TRANSLATE_NOOP("Settings", "Snapping"),
            QT_TRANSLATE_NOOP(
                "Settings",
                "A dragged part catches on centre lines, neighbours and joints; Ctrl holds it off.",
            ),
        ),
    )
    nudge: float = field(
        default=1.0,
        metadata=_offered(
            _STEP,
            QT_TRANSLATE_NOOP("Settings", "Step of an arrow key"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen."),
        ),
    )
    nudge_far: float = field(
        default=10.0,
        metadata=_offered(
            _STEP,
            QT_TRANSLATE_NOOP("Settings", "Step with Shift"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen while Shift is held."),
        ),
    )
    nudge_fine: float = field(
        default=0.1,
        metadata=_offered(
            _STEP,
            QT_TRANSLATE_NOOP("Settings", "Step with Alt"),
            QT_TRANSLATE_NOOP("Settings", "How far one press moves what is chosen while Alt is held."),
        ),
    )

    last_folder: str = field(default="", metadata=_remembered(Text()))
    """Where a job was opened or saved last."""
    recent: tuple[str, ...] = field(default=(), metadata=_remembered(Many(Text())))
    """Job files, the last one first."""
    sheets: tuple[str, ...] = field(default=(), metadata=_remembered(Many(Text(60))))
    """Names of the sheets that were made last; none stands for all."""
    sheet_folder: str = field(default="", metadata=_remembered(Text()))
    paper: str = field(default="A4", metadata=_remembered(Text(60)))
    scale: int | None = field(default=None, metadata=_remembered(Maybe(Between(1, 200))))
    stretch_x: float = field(default=1.0, metadata=_remembered(_STRETCH))
    stretch_y: float = field(default=1.0, metadata=_remembered(_STRETCH))
    window_size: tuple[int, int] | None = field(
        default=None, metadata=_remembered(Maybe(Many(Between(200, 20_000), 2)))
    )
    panel_width: int | None = field(default=None, metadata=_remembered(Maybe(Between(200, 2000, " px"))))

    def __post_init__(self) -> None:
        for each in fields(self):
            try:
                kept = each.metadata["bound"].kept(getattr(self, each.name))
            except ValueError as problem:
                raise ValueError(f".{each.name}: {problem}") from None
            object.__setattr__(self, each.name, kept)

    def but(self, **changes: Any) -> "Settings":
        """Return the settings with some of them changed, checked again."""
        return replace(self, **changes)

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
    bound: Bound


def offered() -> tuple[Offered, ...]:
    """Return the settings that the dialog offers, in the order of the record."""
    return tuple(
        Offered(each.name, each.metadata["shown"], each.default, each.metadata["bound"])
        for each in fields(Settings)
        if "shown" in each.metadata
    )


def read_settings(data: bytes) -> tuple[Settings, tuple[str, ...]]:
    """Read settings; what cannot be used takes its default, with one sentence each that says so."""
    try:
        plain = json.loads(data)
        if not isinstance(plain, dict):
            raise ValueError("it holds no settings")
    except (ValueError, RecursionError) as problem:
        return Settings(), (f"The settings could not be read and are back at their defaults: {problem}",)
    held, problems = Settings(), []
    known = {each.name for each in fields(Settings)}
    for name, value in plain.items():
        if name in known:  # others may be of a newer program
            try:
                held = held.but(**{name: value})
            except ValueError as problem:
                sentence = f"The setting {name} could not be read and is back at its default: it {problem}"
                problems.append(sentence.replace(f" .{name}: ", " "))
    return held, tuple(problems)


def write_settings(settings: Settings) -> bytes:
    """Return the bytes of a settings file; only what differs from the defaults stands in it."""
    changed = {
        each.name: value
        for each in fields(settings)
        if (value := getattr(settings, each.name)) != each.default
    }
    return (json.dumps(changed, indent=2) + "\n").encode()


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
