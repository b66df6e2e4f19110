"""The panel of the water: readings are typed, what comes out follows, and what it would change comes late."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.panels import water_late
from app.panels.section import Section
from app.panels.water import WaterPanel
from app.panels.water_forms import usual_supply
from app.panels.water_late import Late
from app.selection import Selection
from app.settings import Preferences
from geometry.model import Branch, Reading, Upstream
from geometry.model.supply import Booster, Drain
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from tests.app.panels.desk import Desk, choose, press, tick, type_into
from tests.samples import sample_job

Show = Callable[[QWidget], None]
INSTANT = "corner-1200x800"
"""A sample with an instant heater of 28 kW and three outlets."""


def opened(panel: WaterPanel) -> WaterPanel:
    for section in panel.findChildren(Section):
        section.open(True)
    return panel


@pytest.fixture
def panel(desk: Desk, shown: Show) -> WaterPanel:
    made = WaterPanel(*desk)
    shown(made)
    return made


@pytest.fixture
def started(panel: WaterPanel) -> WaterPanel:
    press(panel.start)
    return opened(panel)


@pytest.fixture
def instant(qapp: object, tmp_path: Path, shown: Show) -> WaterPanel:
    document = Document(sample_job(INSTANT), generic_parts(), standard_rules())
    made = WaterPanel(document, Selection(document), Preferences(tmp_path / "settings.json", document))
    shown(made)
    return opened(made)


def cold(desk: Desk) -> Branch:
    assert desk.job.supply is not None
    return desk.job.supply.cold


def hot(desk: Desk) -> Branch:
    assert desk.job.supply is not None
    return desk.job.supply.hot


def flow(panel: WaterPanel, row: int = 0) -> float:
    return float(panel.results.rows[row][1])


def headings(panel: WaterPanel) -> list[str]:
    return [section.title for section in panel.findChildren(Section) if section.isVisible()]


def ready(qtbot: QtBot, *late: Late) -> None:
    qtbot.waitUntil(lambda: all(each.is_ready and each.isEnabled() for each in late))


def test_with_nothing_measured_only_a_beginning_is_offered(panel: WaterPanel, desk: Desk) -> None:
    assert desk.job.supply is None
    assert panel.start.isVisible()
    assert headings(panel) == []
    assert panel.headline.texts == ()


def test_usual_readings_are_begun_with_named_as_such_and_undone(panel: WaterPanel, desk: Desk) -> None:
    press(panel.start)
    assert desk.job.supply == usual_supply()
    assert desk.undo_text == "Start with usual readings"
    assert not panel.start.isVisible()
    assert "not yours" in panel.usual.text()
    assert "What comes out" in headings(panel)
    desk.document.history.undo()
    assert desk.job.supply is None
    assert panel.start.isVisible()
    assert headings(panel) == []


def test_the_readings_are_removed_and_brought_back(started: WaterPanel, desk: Desk) -> None:
    press(started.remove)
    assert desk.job.supply is None
    assert desk.undo_text == "Remove the readings"
    assert started.results.rows == ()
    desk.document.history.undo()
    assert desk.job.supply == usual_supply()
    assert started.results.rows != ()


def test_typed_readings_are_no_longer_called_usual(started: WaterPanel, desk: Desk) -> None:
    type_into(started.cold.field("All taps shut"), "4,5 bar")
    assert cold(desk).static == 4.5
    assert desk.undo_text == "Change all taps shut of cold water"
    assert started.usual.text() == "The readings of the hot water are still the usual ones, not yours."
    type_into(started.hot.field("Temperature"), "131 F")
    # (131 - 32) x 5/9
    assert hot(desk).temperature == 55.0
    assert started.usual.text() == ""


def test_a_pressure_is_typed_as_the_gauge_says_it(started: WaterPanel, desk: Desk) -> None:
    type_into(started.cold.field("All taps shut"), "350 kPa")
    assert cold(desk).static == 3.5
    type_into(started.cold.field("Gauge above the floor"), "0.8 m")
    assert cold(desk).gauge_height == 800.0


def test_readings_with_water_running_are_added_typed_and_removed(started: WaterPanel, desk: Desk) -> None:
    press(started.cold_readings.adders[0])
    form = started.cold_readings.forms[0]
    type_into(form.field("Flow"), "0.3 l/s")
    type_into(form.field("Pressure meanwhile"), "1.2")
    assert cold(desk).readings[1:] == (Reading(flow=18.0, pressure=1.2),)
    assert started.cold_readings.list.item(1).text() == "1.2 bar while 18 l/min run"
    assert desk.undo_text == "Change pressure meanwhile of cold reading"
    press(started.cold_readings.remover)
    assert len(cold(desk).readings) == 1
    assert len(hot(desk).readings) == 1


def test_pipes_before_the_wall_are_added_with_their_elbows(started: WaterPanel, desk: Desk) -> None:
    press(started.hot_pipes.adders[0])
    form = started.hot_pipes.forms[0]
    choose(form.field("Tube"), "copper-22")
    type_into(form.field("Length"), "9 m")
    type_into(form.field("Elbows in it"), "6")
    assert hot(desk).upstream == (Upstream(tube="copper-22", length=9000.0, elbows=6.0),)


def test_a_long_narrow_pipe_before_the_wall_lets_less_through(started: WaterPanel, desk: Desk) -> None:
    before = flow(started)
    press(started.hot_pipes.adders[0])
    type_into(started.hot_pipes.forms[0].field("Length"), "60 m")
    assert flow(started) < before


def test_more_pressure_gives_more_water_at_once(started: WaterPanel) -> None:
    before = flow(started)
    for form in (started.cold, started.hot):
        type_into(form.field("All taps shut"), "5")
    assert flow(started) > before


def test_the_share_of_hot_is_what_the_temperatures_ask_for(started: WaterPanel) -> None:
    # cold 10, hot 60, set to 38: (38 - 10) / (60 - 10) = 0.56
    assert started.results.rows[0][2:4] == ("38", "56 %")
    type_into(started.source.field("Thermostat set to"), "40")
    # (40 - 10) / (60 - 10) = 0.60
    assert started.results.rows[0][2:4] == ("40", "60 %")


def test_every_outlet_stands_alone_and_with_every_other(instant: WaterPanel) -> None:
    names = [row[0] for row in instant.results.rows]
    assert names == [
        "head", "handset at outlet", "foot-spout", "head and handset at outlet", "head and foot-spout",
        "handset at outlet and foot-spout",
    ]  # fmt: skip
    assert len(instant.headline.texts) == 3
    assert instant.headline.texts[0].startswith("✓ head: ")
    assert instant.headline.texts[2].startswith("≈ foot-spout: ")
    choose(instant.running, ("head", "foot-spout"))
    assert [text.partition(":")[0] for text in instant.details.texts if "stated" in text] == [
        "head", "foot-spout",
    ]  # fmt: skip
    assert any(text.startswith("What costs most between house and spray: ") for text in instant.details.texts)
    assert [row[0] for row in instant.losses.rows][-1] == "mouth of foot-spout"


def test_a_pressure_above_the_static_one_is_one_plain_sentence(started: WaterPanel) -> None:
    started.cold_readings.choose(0)
    type_into(started.cold_readings.forms[0].field("Pressure meanwhile"), "4")
    assert started.headline.texts == (
        "The flow at valve cannot be worked out: cold water reading 1: 4 bar with water running cannot be"
        " above the static 3 bar.",
    )
    assert started.results.rows == ()
    assert "What comes out" not in headings(started)


def test_hot_that_is_colder_than_cold_is_one_plain_sentence(started: WaterPanel) -> None:
    type_into(started.hot.field("Temperature"), "8")
    [sentence] = started.headline.texts
    assert sentence.startswith(
        "The flow at valve cannot be worked out: hot water: must be above the cold 10 "
    )
    assert sentence.endswith(", got 8.")


def test_without_a_reading_or_the_heaters_power_the_panel_says_what_is_missing(started: WaterPanel) -> None:
    choose(started.source.field("Hot water comes from"), "instant_heater")
    assert started.headline.texts == (
        "The flow at valve cannot be worked out: the power of the instant heater is not stated.",
    )
    type_into(started.source.field("Heater's power"), "9500 W")
    assert "too small" in " ".join(started.details.texts)
    started.hot_readings.choose(0)
    press(started.hot_readings.remover)
    assert started.headline.texts == (
        "The flow at valve cannot be worked out: hot water: needs at least one reading with water running,"
        " has none.",
    )


def test_what_a_source_does_not_have_is_not_asked_for(started: WaterPanel) -> None:
    heater, stored = started.source.field("Heater's power"), started.source.field("Stored")
    assert (heater.isVisible(), stored.isVisible()) == (False, True)
    choose(started.source.field("Hot water comes from"), "instant_heater")
    assert (heater.isVisible(), stored.isVisible()) == (True, False)


def test_a_value_that_cannot_be_is_refused_beside_its_field(started: WaterPanel, desk: Desk) -> None:
    field = started.cold.field("All taps shut")
    type_into(field, "300")
    assert cold(desk).static == 3.0
    assert field.problem.startswith("Must be ")
    type_into(field, "12 l/min")
    assert field.problem == "Not a number of bar or kPa or psi: '12 l/min'."


def test_a_pump_a_reducing_valve_check_valves_and_a_tank_are_noted(started: WaterPanel, desk: Desk) -> None:
    extras = started.hot_extras
    tick(extras.pumped)
    assert desk.undo_text == "Add hot pump"
    type_into(extras.pump.field("Pump with nothing running"), "2")
    type_into(extras.pump.field("Pump against nothing"), "30")
    choose(extras.pump.field("It draws from"), "mains")
    assert hot(desk).pump == Booster(pressure=2.0, flow=30.0, draws_from="mains")
    type_into(extras.form.field("Reducing valve set to"), "2.5")
    choose(extras.form.field("Check valve at the shower"), "single")
    type_into(extras.form.field("Water in its tank, above the floor"), "5 m")
    assert (hot(desk).regulated, hot(desk).check_valves, hot(desk).cistern) == (2.5, "single", 5000.0)
    type_into(extras.form.field("Reducing valve set to"), "")
    assert hot(desk).regulated is None
    assert cold(desk).pump is None
    tick(extras.pumped)
    assert hot(desk).pump is None
    assert desk.undo_text == "Remove hot pump"


def test_the_waste_pipe_is_noted_and_forgotten(started: WaterPanel, desk: Desk) -> None:
    tick(started.drained)
    type_into(started.drain.field("Length"), "2.4 m")
    type_into(started.drain.field("Fall"), "18")
    type_into(started.drain.field("Trap carries"), "0.4 l/s")
    assert desk.job.supply is not None
    assert desk.job.supply.drain == Drain(length=2400.0, fall=18.0, capacity=24.0)
    tick(started.drained)
    assert desk.job.supply.drain is None
    assert desk.undo_text == "Forget the waste pipe"


def test_what_the_checks_say_of_the_water_stands_there_too(instant: WaterPanel) -> None:
    found = [
        finding.message
        for finding in instant.document.state.findings
        if finding.rule.startswith("supply.") and finding.status != "clear"
    ]
    assert found
    assert [text[2:] for text in instant.findings.texts] == found


def test_the_changes_worth_trying_come_once_the_hand_rests(instant: WaterPanel, qtbot: QtBot) -> None:
    ready(qtbot, instant.plot, instant.sizes, instant.changes)
    assert len(instant.plot.legend.texts) == 3
    assert "The heater's power bounds this flow" in instant.sizes.best.text()
    assert [row[0] for row in instant.sizes.table.rows][-1] == "riser pipe"
    assert {"Another head", "Pump on both supplies", "Reducing valve on both"} == {
        row[0] for row in instant.changes.table.rows
    }


def test_until_the_hand_rests_the_changes_are_pale(
    desk: Desk, shown: Show, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(water_late, "IDLE", 600_000)
    panel = WaterPanel(*desk)
    shown(panel)
    press(panel.start)
    late = panel.plot, panel.sizes, panel.changes
    assert not any(each.is_ready or each.isEnabled() for each in late)
    assert panel.plot.plot.is_empty
    press(panel.remove)
    assert all(each.is_ready for each in late)


def test_changes_are_of_the_outlet_that_runs(instant: WaterPanel, qtbot: QtBot) -> None:
    ready(qtbot, instant.sizes)
    choose(instant.running, ("foot-spout",))
    ready(qtbot, instant.sizes)
    assert [row[0] for row in instant.sizes.table.rows][-1] == "foot pipe"


def test_nothing_slow_is_worked_out_while_a_part_is_dragged(
    started: WaterPanel, desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    ready(qtbot, started.plot, started.sizes, started.changes)
    asked: list[object] = []

    def counted(shower: object) -> tuple[()]:
        asked.append(shower)
        return ()

    monkeypatch.setattr(water_late, "sweeps", counted)
    valve = desk.job.fitting("valve")
    dragged = desk.job.moved("valve", valve.x, valve.height + 120.0)
    desk.document.preview(dragged)
    qtbot.waitUntil(lambda: not started.plot.is_ready)
    with qtbot.waitSignal(started.plot.rested):  # the hand holds still, and has not let go
        pass
    assert asked == []
    assert not started.plot.isEnabled()
    desk.document.edit("Move valve", dragged)
    ready(qtbot, started.plot)
    assert len(asked) == 1


def test_a_move_that_leaves_all_lengths_as_they_are_costs_nothing(
    started: WaterPanel, desk: Desk, qtbot: QtBot
) -> None:
    ready(qtbot, started.plot, started.sizes, started.changes)
    desk.document.edit("Name it", desk.job.but(about=desk.job.about.but(title="Upstairs")))
    assert all(late.is_ready and late.isEnabled() for late in (started.plot, started.sizes, started.changes))


def test_what_is_folded_away_is_not_worked_out(
    panel: WaterPanel, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    section = next(one for one in panel.findChildren(Section) if one.title == "Flow against supply pressure")
    section.open(False)
    press(panel.start)
    ready(qtbot, panel.sizes, panel.changes)
    assert not panel.plot.is_ready
    section.open(True)
    ready(qtbot, panel.plot)
    assert not panel.plot.plot.is_empty


def test_an_undone_reading_leaves_the_panel_in_order(started: WaterPanel, desk: Desk) -> None:
    before = started.results.rows
    press(started.cold_readings.adders[0])
    type_into(started.cold_readings.forms[0].field("Flow"), "20")
    desk.document.history.undo()
    desk.document.history.undo()
    assert started.cold_readings.list.count() == 1
    assert started.results.rows == before


def test_with_no_valve_on_the_wall_nothing_comes_out_and_nothing_breaks(
    started: WaterPanel, desk: Desk
) -> None:
    desk.document.edit("Clear", desk.job.but(fittings=(), hoses=(), pipes=()))
    assert started.results.rows == ()
    assert started.running.values == ()
    assert "Cold, as read" in headings(started)


def test_tables_are_as_high_as_their_rows_at_any_width(instant: WaterPanel) -> None:
    table = instant.results
    for wide in (340, 700):
        instant.resize(wide, 700)
        rows = sum(table.rowHeight(row) for row in range(table.rowCount()))
        assert table.height() == table.horizontalHeader().sizeHint().height() + rows
