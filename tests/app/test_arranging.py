"""What the menus do to the chosen things, each as one step of the history."""

import pytest
from PySide6.QtWidgets import QApplication

from app.arranging import Arranging, Axis
from app.document import Document
from app.selection import Selection
from geometry.edits.moves import mirrored_wall, other_hand
from geometry.edits.refs import Ref, things
from geometry.model import Accessory
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
RAIL, VALVE, OUTLET = (Ref("fitting", name) for name in ("rail", "valve", "outlet"))


class Place:
    """A job and what arranges it."""

    def __init__(self) -> None:
        self.document = Document(JOB, generic_parts(), standard_rules())
        self.selection = Selection()
        self.arranging = Arranging(self.document, self.selection)

    @property
    def undo(self) -> str:
        return self.document.history.undo_text()

    def at(self, name: str) -> tuple[float, float]:
        return self.document.job.fitting(name).at


@pytest.fixture
def place(qapp: QApplication) -> Place:
    return Place()


def test_a_copy_is_put_beside_and_chosen(place: Place) -> None:
    place.selection.choose([RAIL])
    place.arranging.duplicate()
    assert place.selection.refs == (Ref("fitting", "rail-2"),)
    assert place.undo == "Duplicate rail"


def test_what_is_chosen_is_removed_with_what_hangs_on_it(place: Place) -> None:
    place.selection.choose([RAIL])
    place.arranging.remove()
    assert place.document.job.hoses == ()
    assert place.undo == "Remove rail"
    assert RAIL not in place.arranging.chosen
    place.document.history.undo()
    assert place.document.job == JOB
    assert RAIL in place.arranging.chosen


def test_choosing_everything_and_nothing(place: Place) -> None:
    place.arranging.choose_all()
    assert place.arranging.chosen == tuple(things(JOB))
    place.arranging.choose_none()
    assert place.selection.refs == ()
    assert not place.document.history.can_undo()


@pytest.mark.parametrize(("axis", "index"), [("x", 0), ("y", 1)])
def test_aligned_things_have_the_line_of_the_first_chosen(place: Place, axis: Axis, index: int) -> None:
    place.selection.choose([VALVE, RAIL])
    line = place.at("valve")[index]
    other = place.at("rail")[1 - index]
    place.arranging.align(axis)
    assert place.at("rail")[index] == line
    assert place.at("rail")[1 - index] == other
    assert place.undo == "Align 2 things"


def test_things_are_spaced_evenly(place: Place) -> None:
    job = JOB.but(
        services=tuple(
            Accessory(id=f"socket-{n}", kind="socket", x=x, height=300.0)
            for n, x in enumerate((100.0, 130.0, 500.0))
        )
    )
    place.document.replace(job, None, saved=True)
    place.selection.choose([Ref("service", f"socket-{n}") for n in range(3)])
    place.arranging.distribute("x")
    # evenly between the outermost two: (100 + 500) / 2 = 300
    assert [s.x for s in place.document.job.services if isinstance(s, Accessory)] == [100, 300, 500]


def test_other_hand_and_mirror_are_steps_of_their_own(place: Place) -> None:
    place.arranging.other_hand()
    assert place.document.job == other_hand(JOB)
    place.document.history.undo()
    place.arranging.mirror_wall()
    assert place.document.job == mirrored_wall(JOB)
    assert place.undo == "Mirror the wall"


def test_what_is_gone_from_the_job_is_left_alone(place: Place) -> None:
    place.selection.choose([Ref("fitting", "nobody")])
    for do in (place.arranging.duplicate, place.arranging.remove):
        do()
    assert place.document.job == JOB
    assert not place.document.history.can_undo()
