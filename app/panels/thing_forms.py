"""The forms for the things that can be chosen on the wall: a form for each kind, shown for the one chosen."""

from collections.abc import Callable
from typing import Any, TypeVar

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.document import State
from app.fields import LengthField
from app.panels.choice_fields import ChoiceField
from app.panels.form import Form
from app.panels.panel import Panel
from app.panels.pipe_form import pipe_form
from app.panels.service_forms import accessory_fields, joist_fields, line_fields, stud_fields
from app.panels.wall_forms import opening_form
from app.panels.words import ABOVE_FLOOR, FROM_LEFT, HANDS, choices, kind_word, said, translate
from geometry.edits.moves import moved
from geometry.edits.refs import Ref, Thing, things
from geometry.edits.renaming import followed, renamed, replaced, successor
from geometry.model import (
    Accessory,
    Cable,
    Fitting,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Joist,
    OldPipe,
    Opening,
    Pipe,
    Rail,
    Spout,
    Stud,
    Valve,
)
from geometry.model.record import Record
from geometry.parts.records import HeadPart, HosePart, OutletPart, Part, RailPart, SpoutPart, ValvePart
from geometry.plan import Plan
from geometry.shape.fittings import slider_of

T = TypeVar("T", bound=Record)
F = TypeVar("F", bound=Fitting)
_PARTS: dict[type[Record], type[Part]] = {
    Valve: ValvePart,
    Head: HeadPart,
    HoseOutlet: OutletPart,
    Rail: RailPart,
    Spout: SpoutPart,
    Hose: HosePart,
}


class Properties(QWidget):
    """Shows and edits the one thing that is chosen; nothing while none or several are."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel = panel
        self._ref: Ref | None = None
        self._known: tuple[Ref, ...] = ()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self.forms: list[Form[Any]] = []
        self._add(Valve, _valve_fields)
        self._add(Head, _head_fields)
        self._add(HoseOutlet, _sunk_fields)
        self._add(Rail, _rail_fields)
        self._add(Spout, _sunk_fields)
        self._add(Hose, _hose_fields)
        self._add(Accessory, accessory_fields)
        self._add(Cable, line_fields)
        self._add(OldPipe, line_fields)
        self._add(Stud, stud_fields)
        self._add(Joist, joist_fields)
        self._add(Opening, opening_form)
        pipes: Form[Pipe] = pipe_form(panel, lambda job: self._thing(job, Pipe))
        self.forms.append(pipes)
        self._layout.addWidget(pipes)

    @property
    def form(self) -> Form[Any] | None:
        """The form that is shown, if any."""
        return next((form for form in self.forms if not form.isHidden()), None)

    def show_refs(self, refs: tuple[Ref, ...]) -> None:
        """Show the thing that is chosen, if it is the only one."""
        self._ref = refs[0] if len(refs) == 1 else None
        self.show_state(self._panel.document.state)

    def show_state(self, state: State) -> None:
        """Show the chosen thing as it is now, under whatever name."""
        known = tuple(things(state.job))
        if self._ref is not None:
            before, self._known = self._known, known
            self._ref = successor(before, self._ref, known)
            selection = self._panel.selection
            selection.choose(followed(selection.refs, before, known))
        self._known = known
        for form in self.forms:
            form.show_state(state)

    def _add(self, kind: type[T], add_fields: Callable[[Form[T]], object]) -> None:
        def find(job: Job) -> T | None:
            return self._thing(job, kind)

        form: Form[T] = Form(self._panel, kind_word(kind).lower(), find, self._put)
        add_fields(form)
        self.forms.append(form)
        self._layout.addWidget(form)

    def _thing(self, job: Job, kind: type[T]) -> T | None:
        thing: object = things(job).get(self._ref) if self._ref else None
        return thing if isinstance(thing, kind) else None

    def _put(self, job: Job, old: Any, new: Any) -> Job:
        ref = self._ref
        assert ref is not None, "a form is shown only for a thing that is chosen"
        return with_thing(self._panel.document.state.plan, job, ref, old, new)


def with_thing(plan: Plan, job: Job, ref: Ref, old: Thing, new: Thing) -> Job:
    """Return the job with a thing changed, be it its name or its place; what hangs on it follows."""
    if new.id != old.id:
        return renamed(job, ref, new.id)
    if isinstance(old, Fitting) and isinstance(new, Fitting) and old.at != new.at:
        return moved(plan, (ref,), new.x - old.x, new.height - old.height)
    return replaced(job, ref, new)


# the fields of each kind


def _place_fields(form: Form[F]) -> None:
    """Add name, part and place: as the tape is laid on the tray, and from the wall's corner."""
    title = translate("Properties", "Move %2")
    form.text("id", translate("Properties", "Name"), most=60, wide=True)
    _part_field(form)

    def to(fitting: F, **place: float) -> F:
        return fitting.but(**place)  # type: ignore[return-value]  # a copy is of the same kind

    across = LengthField(said(FROM_LEFT["tray"]), form.panel.display)
    up = LengthField(said(ABOVE_FLOOR["tray"]), form.panel.display)

    def tray() -> tuple[float, float]:
        enclosure = form.panel.document.job.enclosure
        return enclosure.left, enclosure.floor

    form.add(
        across,
        lambda fitting: fitting.x - tray()[0],
        lambda fitting, value: to(fitting, x=tray()[0] + value),
        title=title,
    )
    form.add(
        up,
        lambda fitting: fitting.height - tray()[1],
        lambda fitting, value: to(fitting, height=tray()[1] + value),
        title=title,
    )
    form.length("x", translate("Properties", "From the wall's left"), title=title)
    form.length("height", translate("Properties", "Above the finished floor"), title=title)

    def prepare(_fitting: F, state: State) -> None:
        kind = state.job.enclosure.kind
        across.rename(said(FROM_LEFT[kind]))
        up.rename(said(ABOVE_FLOOR[kind]))

    form.before_showing(prepare)


def _part_field(form: Form[T]) -> None:
    """Add the choice among the parts of the same kind."""
    field = ChoiceField(translate("Properties", "Part"))
    form.add(
        field,
        lambda record: getattr(record, "part"),  # noqa: B009
        lambda record, name: record.but(part=name),
        wide=True,
    )

    def prepare(record: T, _state: State) -> None:
        kind = _PARTS[type(record)]
        parts = (part for part in form.panel.document.catalogue if isinstance(part, kind))
        field.set_choices([(part.id, part.name) for part in parts])

    form.before_showing(prepare)


def _sunk_fields(form: Form[F]) -> None:
    """Add what fittings that sit in the wall share."""
    _place_fields(form)
    recess = form.length("recess", translate("Properties", "Depth of its recess"), empty="", wide=True)

    def prepare(record: F, state: State) -> None:
        depth = state.plan.depths.get(record.id)
        recess.setVisible(depth is not None)
        if depth is not None:
            words = translate("Properties", "%1 if empty")
            recess.set_empty(words.replace("%1", form.panel.written(depth.target)))

    form.before_showing(prepare)


def _valve_fields(form: Form[Valve]) -> None:
    _sunk_fields(form)
    form.choice("side", translate("Properties", "An outlet leaves it on the"), choices(HANDS), wide=True)


def _head_fields(form: Form[Head]) -> None:
    _sunk_fields(form)
    reach = form.length("reach", translate("Properties", "Reach from the finished face"), empty="", wide=True)

    def prepare(head: Head, state: State) -> None:
        part = state.plan.catalogue.find(head.part, HeadPart)
        words = translate("Properties", "%1 if empty")
        reach.set_empty(words.replace("%1", form.panel.written(part.reach)))

    form.before_showing(prepare)


def _rail_fields(form: Form[Rail]) -> None:
    _place_fields(form)
    slider = form.length(
        "slider", translate("Properties", "Slider above the rail's foot"), empty="", wide=True
    )

    def prepare(rail: Rail, state: State) -> None:
        part = state.plan.catalogue.find(rail.part, RailPart)
        usual = slider_of(rail.but(slider=None), part)
        words = translate("Properties", "%1 if empty")
        slider.set_empty(words.replace("%1", form.panel.written(usual)))

    form.before_showing(prepare)


def _hose_fields(form: Form[Hose]) -> None:
    form.text("id", translate("Properties", "Name"), most=60, wide=True)
    _part_field(form)
    outlet = form.choice("outlet", translate("Properties", "Hangs from"))
    rail = form.choice("rail", translate("Properties", "To the handset on"))

    def prepare(hose: Hose, state: State) -> None:
        plan = state.plan
        outlet.set_choices([(placed.fitting.id, placed.fitting.id) for placed in plan.outlets])
        rail.set_choices([(placed.fitting.id, placed.fitting.id) for placed in plan.rails])

    form.before_showing(prepare)
