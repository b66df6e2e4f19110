"""The stages of the work that the drawing can show, and what each of them shows."""

from typing import Literal, get_args

Stage = Literal["cut", "piped", "finished", "all"]
"""What is cut, what is piped before the wall is covered, what is seen when finished, or everything."""
STAGES: tuple[Stage, ...] = get_args(Stage)
Subject = Literal[
    "cuts", "pipes", "bodies", "fittings", "hoses", "holes", "services", "studs", "zones", "tiles",
    "pieces",
]  # fmt: skip
_IN_THE_WALL: frozenset[Subject] = frozenset({"cuts", "holes", "services", "studs", "zones"})
_SHOWN: dict[Stage, frozenset[Subject]] = {
    "cut": _IN_THE_WALL,
    "piped": _IN_THE_WALL | {"pipes", "bodies", "pieces"},
    "finished": frozenset({"fittings", "hoses", "tiles"}),
    "all": frozenset(get_args(Subject)) - {"pieces"},  # the letters of the pipes do
}


def shows(stage: Stage, subject: Subject) -> bool:
    """Return whether a stage shows a subject. Electrical points on the wall's face are always shown."""
    return subject in _SHOWN[stage]
