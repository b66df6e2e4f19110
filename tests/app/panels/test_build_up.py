"""What covers the wall: layers, areas and tiles are typed, and the section follows at once."""

from collections.abc import Callable

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget

from app.panels.build_up import BuildUpPanel
from app.panels.section import Section
from geometry.edits.refs import Ref
from tests.app.panels.desk import Desk, choose, press, tick, type_into

Show = Callable[[QWidget], None]


@pytest.fixture
def panel(desk: Desk, shown: Show) -> BuildUpPanel:
    made = BuildUpPanel(*desk)
    shown(made)
    for section in made.findChildren(Section):
        section.open(True)
    return made


def thicknesses(desk: Desk) -> list[float]:
    return [layer.thickness for layer in desk.job.finish.areas[0].layers]


def picture(panel: BuildUpPanel) -> QImage:
    return panel.section.grab().toImage()


def test_the_layers_of_the_first_area_are_listed_and_summed(panel: BuildUpPanel, desk: Desk) -> None:
    assert thicknesses(desk) == [1, 4, 9]
    assert panel.layers.list.count() == 3
    # 1 + 4 + 9, and 1 mm either way for the adhesive
    assert panel.total.text() == "Together 14 mm; with tolerances 13 mm to 15 mm."


def test_a_thicker_layer_makes_the_recess_shallower_and_the_section_another(
    panel: BuildUpPanel, desk: Desk
) -> None:
    before, drawn = desk.document.state.plan.cuts["valve"], picture(panel)
    panel.layers.choose(2)
    type_into(panel.layers.forms[0].field("Thickness"), "19")
    assert thicknesses(desk) == [1, 4, 19]
    # the box keeps its distance to the finished face, which came out by 10
    assert desk.document.state.plan.cuts["valve"] == before - 10
    assert f"cut {before - 10:g} mm deep" in panel.cut.text()
    assert picture(panel) != drawn
    assert desk.undo_text == "Change thickness of layer"


def test_a_layer_is_added_below_the_chosen_one_moved_and_removed(panel: BuildUpPanel, desk: Desk) -> None:
    panel.layers.choose(0)
    assert panel.layers.menu is not None
    board = next(a for a in panel.layers.menu.actions() if a.text() == "Add board")
    board.trigger()
    assert thicknesses(desk) == [1, 12.5, 4, 9]
    assert panel.layers.index == 1
    press(panel.layers.raiser)
    assert thicknesses(desk) == [12.5, 1, 4, 9]
    assert panel.layers.index == 0
    assert not panel.layers.raiser.isEnabled()
    press(panel.layers.remover)
    assert thicknesses(desk) == [1, 4, 9]


def test_a_negative_thickness_changes_nothing(panel: BuildUpPanel, desk: Desk) -> None:
    panel.layers.choose(1)
    field = panel.layers.forms[0].field("Thickness")
    type_into(field, "-1")
    assert thicknesses(desk) == [1, 4, 9]
    assert field.problem == "Must be at least 0 and at most 20000 mm, got -1."


def test_an_area_covers_a_part_of_the_wall(panel: BuildUpPanel, desk: Desk) -> None:
    press(panel.areas.adders[0])
    assert [area.id for area in desk.job.finish.areas] == ["area-1", "wall"]  # on top, or it would not count
    type_into(panel.region.field("Height"), "2100")
    region = desk.job.finish.areas[0].region
    assert region is not None
    assert region.height == 2100
    tick(panel.areas.forms[0].field("Only a part of the wall"))
    assert desk.job.finish.areas[0].region is None
    assert panel.region.isHidden()


def test_the_chosen_area_is_handed_on_to_be_outlined(panel: BuildUpPanel, desk: Desk) -> None:
    wanted: list[str] = []
    panel.outline_requested.connect(wanted.append)
    press(panel.areas.adders[0])
    press(panel.outliner)
    assert wanted == ["area-1"]


def test_the_layers_of_the_chosen_area_are_shown(panel: BuildUpPanel, desk: Desk) -> None:
    press(panel.areas.adders[0])
    panel.layers.choose(0)
    press(panel.layers.remover)
    assert thicknesses(desk) == [4, 9]
    assert panel.layers.list.count() == 2
    panel.areas.choose(1)
    assert panel.layers.list.count() == 3


def test_tiles_are_left_out_and_typed(panel: BuildUpPanel, desk: Desk) -> None:
    type_into(panel.tiling.field("Tile, width"), "250")
    assert desk.job.finish.tiling is not None
    assert desk.job.finish.tiling.wide == 250
    choose(panel.tiling.field("Bond"), "half")
    assert desk.job.finish.tiling.bond == "half"
    tick(panel.tiled)
    assert desk.job.finish.tiling is None
    assert panel.tiling.isHidden()


def test_the_section_is_that_of_the_fitting_chosen_on_the_wall(panel: BuildUpPanel, desk: Desk) -> None:
    assert panel.seat.value == "valve"
    drawn = picture(panel)
    desk.selection.choose([Ref("fitting", "outlet")])
    assert panel.seat.value == "outlet"
    assert picture(panel) != drawn
    choose(panel.seat, "head")
    assert panel.section.accessibleName() == "Section through head"


def test_with_nothing_in_the_wall_the_section_is_empty(panel: BuildUpPanel, desk: Desk) -> None:
    desk.document.edit("Clear", desk.job.but(fittings=(), hoses=(), pipes=()))
    assert panel.section.is_empty
    assert panel.cut.text() == "Nothing sits in the wall yet."


def test_an_undone_area_leaves_the_panel_in_order(panel: BuildUpPanel, desk: Desk) -> None:
    press(panel.areas.adders[0])
    panel.layers.choose(2)
    desk.document.history.undo()
    assert panel.areas.list.count() == 1
    assert panel.layers.list.count() == 3


def test_lengths_in_lists_follow_the_unit(panel: BuildUpPanel, desk: Desk) -> None:
    desk.preferences.change(unit="cm")
    assert panel.layers.list.item(1).text() == "adhesive: 0.4 cm ± 0.1 cm"
    assert panel.total.text() == "Together 1.4 cm; with tolerances 1.3 cm to 1.5 cm."


def test_panels_niches_and_background_are_typed(panel: BuildUpPanel, desk: Desk) -> None:
    tick(panel.panelled)
    type_into(panel.panels.field("Panel, width"), "1200")
    press(panel.niches.adders[0])
    type_into(panel.niches.forms[0].field("Depth"), "75")
    type_into(panel.background.field("Holes in board wider by"), "8")
    type_into(panel.background.field("It carries"), "32")
    finish = desk.job.finish
    assert finish.panels is not None
    assert finish.panels.wide == 1200
    assert [niche.depth for niche in finish.niches] == [75]
    assert (finish.board_wider, finish.carries) == (8, 32)
    type_into(panel.background.field("It carries"), "")
    assert desk.job.finish.carries is None
    tick(panel.panelled)
    assert desk.job.finish.panels is None
    assert panel.panels.isHidden()


def test_a_movement_joint_is_added_and_turned(panel: BuildUpPanel, desk: Desk) -> None:
    press(panel.movement.adders[0])
    (joint,) = desk.job.finish.movement
    assert (joint.runs, joint.at, joint.width) == ("plumb", 600, 6)  # the middle of a wall of 1200
    form = panel.movement.forms[0]
    choose(form.field("It runs"), "level")
    type_into(form.field("Its middle, from left or floor"), "1300")
    (joint,) = desk.job.finish.movement
    assert (joint.runs, joint.at) == ("level", 1300)
    press(panel.movement.remover)
    assert desk.job.finish.movement == ()
