"""The forms for what was measured of the water at the house: readings, hot water, pumps and tanks, waste."""

from collections.abc import Callable
from typing import Any, Literal

from app.document import State
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.tubes import tube_field
from app.panels.words import HOT_SOURCES, choices, translate
from app.words import QT_TRANSLATE_NOOP
from geometry.model import Branch, Job, Reading, Supply, Upstream
from geometry.model.supply import Booster, Drain
from geometry.units import number

Side = Literal["cold", "hot"]
USUAL_STATIC = 3.0
"""bar; usual at a mains tap, no source. It stands until the reading is typed, as all that follows here."""
USUAL_READING = Reading(flow=12.0, pressure=2.0)
"""Own choice: a bucket of 12 l in a minute, and 1 bar less than with all taps shut."""
COLD, HOT = 10.0, 60.0
"""Degrees Celsius; own choice, hot as it should be stored."""
NEW_PUMP = Booster(pressure=1.5, flow=40.0)
"""A usual pump for showers, from memory."""
NEW_DRAIN = Drain(length=1500.0, fall=20.0)
"""A short waste of usual fall, common practice, no source."""
CHECKS = {
    "not_known": QT_TRANSLATE_NOOP("Choices", "Not known yet"),
    "none": QT_TRANSLATE_NOOP("Choices", "None"),
    "single": QT_TRANSLATE_NOOP("Choices", "Single"),
    "double": QT_TRANSLATE_NOOP("Choices", "Double"),
}
BEYOND = {
    "cooler": QT_TRANSLATE_NOOP("Choices", "The water runs cooler"),
    "slower": QT_TRANSLATE_NOOP("Choices", "The heater lets less through"),
}
DRAWN_FROM = {
    "cistern": QT_TRANSLATE_NOOP("Choices", "A tank"),
    "mains": QT_TRANSLATE_NOOP("Choices", "The mains"),
}


def usual_supply() -> Supply:
    """Return a supply of usual readings, to be typed over."""
    return Supply(cold=usual_branch("cold"), hot=usual_branch("hot"))


def usual_branch(side: Side) -> Branch:
    """Return the usual readings of one side."""
    warm = COLD if side == "cold" else HOT
    return Branch(static=USUAL_STATIC, readings=(USUAL_READING,), temperature=warm)


class SourceForm(Form[Supply]):
    """Where the hot water comes from, and what the thermostat is set to."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel,
            translate("Water", "hot water"),
            lambda job: job.supply,
            lambda job, _, supply: job.but(supply=supply),
        )
        self.choice("source", self.tr("Hot water comes from"), choices(HOT_SOURCES), wide=True)
        self.number("set_to", self.tr("Thermostat set to"), "°C")
        self._heater = self.number("heater_kw", self.tr("Heater's power"), "kW", empty=self.tr("not known"))
        self._stored = self.number("stored_litres", self.tr("Stored"), "l", empty=self.tr("not known"))
        self._beyond = self.choice(
            "beyond_power", self.tr("If more is drawn than it heats"), choices(BEYOND), wide=True
        )
        self.before_showing(self._prepare)

    def _prepare(self, supply: Supply, _state: State) -> None:
        instant = supply.source == "instant_heater"
        self._heater.setVisible(instant)
        self._beyond.setVisible(instant)
        self._stored.setVisible(not instant)


def branch_form(panel: Panel, side: Side) -> Form[Branch]:
    """Return the form for what was read at one side with all taps shut."""
    form = _branch_form(panel, side)
    form.number("static", translate("Water", "All taps shut"), "bar")
    form.number("temperature", translate("Water", "Temperature"), "°C")
    form.length("gauge_height", translate("Water", "Gauge above the floor"))
    return form


def extras_form(panel: Panel, side: Side) -> Form[Branch]:
    """Return the form for what one side has besides: reducing valve, check valves, a tank."""
    form = _branch_form(panel, side)
    none = translate("Water", "none")
    form.number("regulated", translate("Water", "Reducing valve set to"), "bar", empty=none)
    form.choice("check_valves", translate("Water", "Check valve at the shower"), choices(CHECKS))
    form.length("cistern", translate("Water", "Water in its tank, above the floor"), empty=none, wide=True)
    return form


def pump_form(panel: Panel, side: Side) -> Form[Booster]:
    """Return the form for the pump of one side."""

    def find(job: Job) -> Booster | None:
        branch = branch_of(job, side)
        return branch.pump if branch else None

    def put(job: Job, _: Booster, pump: Booster) -> Job:
        return with_branch(job, side, pump=pump)

    form: Form[Booster] = Form(panel, side_words(side, translate("Water", "pump")), find, put)
    form.number("pressure", translate("Water", "Pump with nothing running"), "bar")
    form.number("flow", translate("Water", "Pump against nothing"), "l/min")
    form.choice("draws_from", translate("Water", "It draws from"), choices(DRAWN_FROM), wide=True)
    return form


class DrainForm(Form[Drain]):
    """The waste pipe, from the trap to the stack or gully."""

    def __init__(self, panel: Panel) -> None:
        def find(job: Job) -> Drain | None:
            return job.supply.drain if job.supply else None

        def put(job: Job, _: Drain, drain: Drain) -> Job:
            return job.but(supply=job.supply.but(drain=drain)) if job.supply else job

        super().__init__(panel, translate("Water", "waste pipe"), find, put)
        self.length("length", self.tr("Length"))
        self.length("bore", self.tr("Inside diameter"))
        self.number("fall", self.tr("Fall"), "mm/m")
        self.number("capacity", self.tr("Trap carries"), "l/min", empty=self.tr("not stated"))


def readings(panel: Panel, side: Side) -> Listing[Reading]:
    """Return the list of readings with water running."""
    read, write = _records(side, "readings")

    def describe(reading: Reading) -> str:
        words = translate("Water", "%1 bar while %2 l/min run")
        flow = number(reading.flow)
        return words.replace("%1", number(reading.pressure, 2)).replace("%2", flow)

    listing: Listing[Reading] = Listing(
        panel, side_words(side, translate("Water", "readings")), read, write, describe
    )
    form = listing.form(Reading, side_words(side, translate("Water", "reading")))
    form.number("pressure", translate("Water", "Pressure meanwhile"), "bar")
    form.number("flow", translate("Water", "Flow"), "l/min")
    listing.offer(translate("Water", "Add reading"), lambda job: _next_reading(branch_of(job, side)))
    listing.finish()
    return listing


def upstream(panel: Panel, side: Side) -> Listing[Upstream]:
    """Return the list of stretches of pipe between the gauge and the wall."""
    read, write = _records(side, "upstream")
    listing: Listing[Upstream] = Listing(
        panel,
        side_words(side, translate("Water", "pipes before the wall")),
        read,
        write,
        lambda record: f"{record.tube}, {panel.written(record.length)}",
    )
    form = listing.form(Upstream, side_words(side, translate("Water", "pipe before the wall")))
    tube_field(form, wide=True)
    form.length("length", translate("Water", "Length"))
    form.number("elbows", translate("Water", "Elbows in it"), "")
    listing.offer(translate("Water", "Add pipe"), lambda job: Upstream(tube="copper-15", length=3000.0))
    listing.finish()
    return listing


def branch_of(job: Job, side: Side) -> Branch | None:
    """Return one side of the supply, if the job has one."""
    if job.supply is None:
        return None
    return job.supply.cold if side == "cold" else job.supply.hot


def with_branch(job: Job, side: Side, **changes: Any) -> Job:
    """Return a job with something of one side changed; a job without a supply stays as it is."""
    branch = branch_of(job, side)
    if job.supply is None or branch is None:
        return job
    return job.but(supply=job.supply.but(**{side: branch.but(**changes)}))


def side_words(side: Side, thing: str) -> str:
    """Return what belongs to a side, in words: `cold readings`."""
    words = translate("Water", "cold %1") if side == "cold" else translate("Water", "hot %1")
    return words.replace("%1", thing)


def _branch_form(panel: Panel, side: Side) -> Form[Branch]:
    return Form(
        panel,
        side_words(side, translate("Water", "water")),
        lambda job: branch_of(job, side),
        lambda job, old, new: job.but(supply=job.supply.but(**{side: new})) if job.supply else job,
    )


def _next_reading(branch: Branch | None) -> Reading:
    """Return a reading that can be: the usual one, but with no more pressure than all taps shut leave."""
    static = USUAL_STATIC if branch is None else branch.static
    return USUAL_READING.but(pressure=min(USUAL_READING.pressure, static))


def _records(
    side: Side, field: str
) -> tuple[Callable[[Job], tuple[Any, ...]], Callable[[Job, tuple[Any, ...]], Job]]:
    """Return what reads and what writes the records of one field of a side; none without a supply."""

    def read(job: Job) -> tuple[Any, ...]:
        branch = branch_of(job, side)
        return getattr(branch, field) if branch else ()

    def write(job: Job, records: tuple[Any, ...]) -> Job:
        return with_branch(job, side, **{field: records})

    return read, write
