"""Everything that can be done, as one table. Menus, shortcuts and the page of shortcuts are built from it.

A row names the method of the window that does it, and the fact that must hold for it; `app/menus.py` builds
the menus, `app/window.py` finds the methods and says which facts hold.
"""

from typing import Literal, NamedTuple

from app.words import QT_TRANSLATE_NOOP

Menu = Literal["file", "edit", "view", "arrange", "pipe", "check", "sheets", "help"]
Fact = str
"""What may or may not hold, such as `job`: a job is open. `stage:cut` and the like tick a row."""


class Action(NamedTuple):
    """One thing that can be done."""

    id: str
    menu: Menu
    text: str
    """In plain words, `&` before the letter that opens it from the keyboard."""
    handler: str
    """Method of the window, or of something it holds: `filing.save`."""
    keys: str = ""
    """Shortcut, as Qt writes it; others that do the same follow after `, `."""
    needs: Fact = ""
    """It can be done while this holds; nothing stands for always."""
    ticked: Fact = ""
    """It is shown as the one in force while this holds."""
    argument: str = ""
    """What the method is given, if anything."""
    canvas_keys: bool = False
    """The keys belong to the wall: they do this only while it has the keyboard."""
    after_line: bool = False
    """A line stands before it in the menu."""


MENUS: dict[Menu, str] = {
    "file": QT_TRANSLATE_NOOP("Actions", "&File"),
    "edit": QT_TRANSLATE_NOOP("Actions", "&Edit"),
    "view": QT_TRANSLATE_NOOP("Actions", "&View"),
    "arrange": QT_TRANSLATE_NOOP("Actions", "&Arrange"),
    "pipe": QT_TRANSLATE_NOOP("Actions", "&Pipe"),
    "check": QT_TRANSLATE_NOOP("Actions", "&Check"),
    "sheets": QT_TRANSLATE_NOOP("Actions", "&Sheets"),
    "help": QT_TRANSLATE_NOOP("Actions", "&Help"),
}

_FILE = (
    Action("new", "file", QT_TRANSLATE_NOOP("Actions", "&New job…"), "show_start", "Ctrl+N"),
    Action("open", "file", QT_TRANSLATE_NOOP("Actions", "&Open…"), "filing.ask_open", "Ctrl+O"),
    Action(
        "save", "file", QT_TRANSLATE_NOOP("Actions", "&Save"), "filing.save", "Ctrl+S", "job",
        after_line=True,
    ),
    Action(
        "save-as", "file", QT_TRANSLATE_NOOP("Actions", "Save &as…"), "filing.save_as", "Ctrl+Shift+S", "job",
    ),
    Action(
        "revert", "file", QT_TRANSLATE_NOOP("Actions", "Go &back to the saved file"), "filing.revert",
        "Ctrl+Shift+R", "revertible",
    ),
    Action(
        "settings", "file", QT_TRANSLATE_NOOP("Actions", "Se&ttings…"), "show_settings", "Ctrl+,",
        after_line=True,
    ),
    Action("quit", "file", QT_TRANSLATE_NOOP("Actions", "&Quit"), "close", "Ctrl+Q", after_line=True),
)  # fmt: skip

_EDIT = (
    Action("undo", "edit", QT_TRANSLATE_NOOP("Actions", "&Undo"), "undo", "Ctrl+Z", "undo"),
    Action("redo", "edit", QT_TRANSLATE_NOOP("Actions", "&Redo"), "redo", "Ctrl+Shift+Z, Ctrl+Y", "redo"),
    Action(
        "duplicate", "edit", QT_TRANSLATE_NOOP("Actions", "&Duplicate"), "arranging.duplicate", "Ctrl+D",
        "chosen", after_line=True,
    ),
    Action(
        "remove", "edit", QT_TRANSLATE_NOOP("Actions", "Re&move"), "arranging.remove", "Del", "chosen",
        canvas_keys=True,
    ),
    Action(
        "all", "edit", QT_TRANSLATE_NOOP("Actions", "Choose &everything"), "arranging.choose_all", "Ctrl+A",
        "job", after_line=True,
    ),
    Action(
        "none", "edit", QT_TRANSLATE_NOOP("Actions", "Choose &nothing"), "arranging.choose_none",
        "Ctrl+Shift+A", "chosen",
    ),
    Action(
        "properties", "edit", QT_TRANSLATE_NOOP("Actions", "&Type its place and size"),
        "bench.edit_properties", "F2", "chosen",
    ),
)  # fmt: skip

_VIEW = (
    Action(
        "measure", "view", QT_TRANSLATE_NOOP("Actions", "Step 1: &Measure"), "bench.go_to", "Ctrl+1", "job",
        ticked="step:measure", argument="measure",
    ),
    Action(
        "set-out", "view", QT_TRANSLATE_NOOP("Actions", "Step 2: &Set out"), "bench.go_to", "Ctrl+2", "job",
        ticked="step:set_out", argument="set_out",
    ),
    Action(
        "pipe", "view", QT_TRANSLATE_NOOP("Actions", "Step 3: &Pipe"), "bench.go_to", "Ctrl+3", "job",
        ticked="step:pipe", argument="pipe",
    ),
    Action(
        "check", "view", QT_TRANSLATE_NOOP("Actions", "Step 4: &Check"), "bench.go_to", "Ctrl+4", "job",
        ticked="step:check", argument="check",
    ),
    Action(
        "mark", "view", QT_TRANSLATE_NOOP("Actions", "Step 5: Mar&k"), "bench.go_to", "Ctrl+5", "job",
        ticked="step:mark", argument="mark",
    ),
    Action(
        "stage-cut", "view", QT_TRANSLATE_NOOP("Actions", "Show what is c&ut"), "bench.show_stage", "Alt+1",
        "job", ticked="stage:cut", argument="cut", after_line=True,
    ),
    Action(
        "stage-piped", "view", QT_TRANSLATE_NOOP("Actions", "Show what is p&iped"), "bench.show_stage",
        "Alt+2", "job", ticked="stage:piped", argument="piped",
    ),
    Action(
        "stage-finished", "view", QT_TRANSLATE_NOOP("Actions", "Show what is seen when &finished"),
        "bench.show_stage", "Alt+3", "job", ticked="stage:finished", argument="finished",
    ),
    Action(
        "stage-all", "view", QT_TRANSLATE_NOOP("Actions", "Show &everything"), "bench.show_stage", "Alt+4",
        "job", ticked="stage:all", argument="all",
    ),
    Action(
        "fit", "view", QT_TRANSLATE_NOOP("Actions", "&Whole wall"), "bench.fit", "Ctrl+0", "job",
        after_line=True,
    ),
    Action(
        "larger", "view", QT_TRANSLATE_NOOP("Actions", "&Larger"), "bench.larger", "Ctrl++, Ctrl+=", "job",
    ),
    Action("smaller", "view", QT_TRANSLATE_NOOP("Actions", "Sm&aller"), "bench.smaller", "Ctrl+-", "job"),
    Action(
        "table", "view", QT_TRANSLATE_NOOP("Actions", "&Table of all parts"), "bench.toggle_table", "Ctrl+T",
        "job", ticked="table", after_line=True,
    ),
    Action(
        "next-area", "view", QT_TRANSLATE_NOOP("Actions", "Keyboard to the &next area"), "bench.next_area",
        "F6", "job",
    ),
    Action(
        "snapping", "view", QT_TRANSLATE_NOOP("Actions", "Snappin&g"), "toggle_snapping", "Ctrl+Shift+N",
        ticked="snapping", after_line=True,
    ),
    Action("unit", "view", QT_TRANSLATE_NOOP("Actions", "Ne&xt unit: mm, cm, inches"), "next_unit", "Ctrl+U"),
    Action(
        "theme", "view", QT_TRANSLATE_NOOP("Actions", "&Dark"), "toggle_dark", "Ctrl+Shift+D", ticked="dark",
    ),
    Action(
        "full-screen", "view", QT_TRANSLATE_NOOP("Actions", "Full sc&reen"), "toggle_full_screen", "F11",
        ticked="full-screen",
    ),
)  # fmt: skip

_ARRANGE = (
    Action("add", "arrange", QT_TRANSLATE_NOOP("Actions", "&Add a part…"), "bench.add_part", "Ins", "job"),
    Action(
        "nudge-left", "arrange", QT_TRANSLATE_NOOP("Actions", "Nudge &left"), "bench.nudge", "Left",
        "chosen", argument="left", canvas_keys=True, after_line=True,
    ),
    Action(
        "nudge-right", "arrange", QT_TRANSLATE_NOOP("Actions", "Nudge &right"), "bench.nudge", "Right",
        "chosen", argument="right", canvas_keys=True,
    ),
    Action(
        "nudge-up", "arrange", QT_TRANSLATE_NOOP("Actions", "Nudge &up"), "bench.nudge", "Up", "chosen",
        argument="up", canvas_keys=True,
    ),
    Action(
        "nudge-down", "arrange", QT_TRANSLATE_NOOP("Actions", "Nudge &down"), "bench.nudge", "Down",
        "chosen", argument="down", canvas_keys=True,
    ),
    Action(
        "tiles", "arrange", QT_TRANSLATE_NOOP("Actions", "Move the &tiles by their start"),
        "bench.canvas.choose_tiles", "Ctrl+Alt+T", "job", after_line=True,
    ),
    Action(
        "plumb", "arrange", QT_TRANSLATE_NOOP("Actions", "&Plumb under the first chosen"), "arranging.align",
        "Ctrl+L", "two", argument="x", after_line=True,
    ),
    Action(
        "level", "arrange", QT_TRANSLATE_NOOP("Actions", "Le&vel with the first chosen"), "arranging.align",
        "Ctrl+Shift+L", "two", argument="y",
    ),
    Action(
        "spread-across", "arrange", QT_TRANSLATE_NOOP("Actions", "&Space evenly across"),
        "arranging.distribute", "Ctrl+G", "three", argument="x",
    ),
    Action(
        "spread-up", "arrange", QT_TRANSLATE_NOOP("Actions", "Space &evenly upwards"), "arranging.distribute",
        "Ctrl+Shift+G", "three", argument="y",
    ),
    Action(
        "other-hand", "arrange", QT_TRANSLATE_NOOP("Actions", "Change to the other &hand"),
        "arranging.other_hand", "Ctrl+M", "job", after_line=True,
    ),
    Action(
        "mirror", "arrange", QT_TRANSLATE_NOOP("Actions", "&Mirror the whole wall"), "arranging.mirror_wall",
        "Ctrl+Shift+M", "job",
    ),
)  # fmt: skip

_PIPE = (
    Action(
        "draw-hot", "pipe", QT_TRANSLATE_NOOP("Actions", "Draw a &hot pipe"), "bench.draw_pipe", "Ctrl+Alt+H",
        "job", argument="hot",
    ),
    Action(
        "draw-cold", "pipe", QT_TRANSLATE_NOOP("Actions", "Draw a &cold pipe"), "bench.draw_pipe",
        "Ctrl+Alt+C", "job", argument="cold",
    ),
    Action(
        "draw-mixed", "pipe", QT_TRANSLATE_NOOP("Actions", "Draw a &mixed pipe"), "bench.draw_pipe",
        "Ctrl+Alt+M", "job", argument="mixed",
    ),
    Action(
        "lead-all", "pipe", QT_TRANSLATE_NOOP("Actions", "&Lead all pipes anew"), "bench.lead_all",
        "Ctrl+Alt+R", "job", after_line=True,
    ),
)  # fmt: skip

_CHECK = (
    Action(
        "next-finding", "check", QT_TRANSLATE_NOOP("Actions", "&Next finding"), "bench.look_at_next", "F8",
        "job",
    ),
    Action(
        "previous-finding", "check", QT_TRANSLATE_NOOP("Actions", "&Previous finding"),
        "bench.look_at_previous", "Shift+F8", "job",
    ),
    Action(
        "worst-finding", "check", QT_TRANSLATE_NOOP("Actions", "&Worst finding"), "bench.look_at_worst",
        "Ctrl+F8", "job",
    ),
    Action(
        "no-finding", "check", QT_TRANSLATE_NOOP("Actions", "Stop &looking at it"), "bench.look_at_none",
        "Alt+F8", "finding",
    ),
    Action(
        "cure", "check", QT_TRANSLATE_NOOP("Actions", "Apply its first &cure"), "bench.apply_cure",
        "Ctrl+Return", "curable", after_line=True,
    ),
)  # fmt: skip

_SHEETS = (
    Action(
        "make", "sheets", QT_TRANSLATE_NOOP("Actions", "&Make the sheets…"), "bench.make_sheets", "Ctrl+E",
        "job",
    ),
    Action("print", "sheets", QT_TRANSLATE_NOOP("Actions", "&Print…"), "bench.print_sheets", "Ctrl+P", "job"),
    Action(
        "copy-picture", "sheets", QT_TRANSLATE_NOOP("Actions", "&Copy the elevation as a picture"),
        "bench.copy_png", "Ctrl+Shift+C", "job", after_line=True,
    ),
    Action(
        "copy-drawing", "sheets", QT_TRANSLATE_NOOP("Actions", "Copy the elevation as a &drawing (SVG)"),
        "bench.copy_svg", "Ctrl+Shift+V", "job",
    ),
    Action(
        "folder", "sheets", QT_TRANSLATE_NOOP("Actions", "&Open the folder of the sheets"),
        "bench.open_folder", "Ctrl+Shift+E", "job", after_line=True,
    ),
)  # fmt: skip

_HELP = (
    Action("shortcuts", "help", QT_TRANSLATE_NOOP("Actions", "&Shortcuts"), "show_shortcuts", "F1"),
    Action("about", "help", QT_TRANSLATE_NOOP("Actions", "&About"), "show_about", "Shift+F1"),
)  # fmt: skip

ACTIONS: tuple[Action, ...] = _FILE + _EDIT + _VIEW + _ARRANGE + _PIPE + _CHECK + _SHEETS + _HELP
"""Every action, in the order of the menus."""

SUBMENUS: dict[str, tuple[Menu, str, str]] = {
    "recent": ("file", "open", QT_TRANSLATE_NOOP("Actions", "Open &recent")),
    "samples": ("file", "open", QT_TRANSLATE_NOOP("Actions", "Open a sa&mple")),
}
"""Menus whose entries the window fills in: in which menu, after which action, and what they are called."""

ON_THE_WALL: tuple[tuple[str, str], ...] = (
    ("Tab", QT_TRANSLATE_NOOP("Actions", "Choose the next thing on the wall")),
    ("Shift+Tab", QT_TRANSLATE_NOOP("Actions", "Choose the one before")),
    ("Shift+Left", QT_TRANSLATE_NOOP("Actions", "Nudge by the larger step; so with every arrow")),
    ("Alt+Left", QT_TRANSLATE_NOOP("Actions", "Nudge by the finer step; so with every arrow")),
    ("Ctrl", QT_TRANSLATE_NOOP("Actions", "Held while dragging: no snapping")),
    ("Esc", QT_TRANSLATE_NOOP("Actions", "Give up what was begun, or choose nothing")),
    ("Return", QT_TRANSLATE_NOOP("Actions", "End the pipe that is drawn")),
    ("Backspace", QT_TRANSLATE_NOOP("Actions", "Take back the last point of the pipe that is drawn")),
    ("+", QT_TRANSLATE_NOOP("Actions", "Larger")),
    ("-", QT_TRANSLATE_NOOP("Actions", "Smaller")),
    ("0", QT_TRANSLATE_NOOP("Actions", "Whole wall")),
)
"""Keys that the wall itself takes while it has the keyboard, for the page of shortcuts."""
