"""The form for one pipe: what runs in it, from where to where, its tube, and the points between."""

from collections.abc import Callable

from app.document import State
from app.panels.choice_fields import ChoiceField
from app.panels.form import Form
from app.panels.panel import Panel
from app.panels.points import PointsField
from app.panels.tubes import tube_field
from app.panels.words import ABOVE_FLOOR, FROM_LEFT, JOINTINGS, TURNS, WATERS, choices, said, translate
from geometry.edits.refs import Ref
from geometry.edits.renaming import renamed, replaced
from geometry.edits.routes import corners
from geometry.model import Job, Pipe


def pipe_form(panel: Panel, find: Callable[[Job], Pipe | None]) -> Form[Pipe]:
    """Return the form for the pipe that `find` finds in a job."""
    form: Form[Pipe] = Form(panel, translate("Pipes", "pipe"), find, _put)
    form.text("id", translate("Pipes", "Name"), most=60)
    form.choice("service", translate("Pipes", "Water"), choices(WATERS))
    start = ChoiceField(translate("Pipes", "From"))
    form.add(start, lambda pipe: pipe.start, lambda pipe, name: _from(panel, pipe, name))
    end = form.choice("end", translate("Pipes", "To"))
    tube_field(form, wide=True)
    usual: tuple[tuple[str | None, str], ...] = ((None, translate("Pipes", "As usual")),)
    form.choice("jointing", translate("Pipes", "Joints"), (*usual, *choices(JOINTINGS)))
    form.choice("turns", translate("Pipes", "Square turns"), choices(TURNS))
    form.length("wrap", translate("Pipes", "Wrap all round"))
    depth = form.length("depth", translate("Pipes", "Depth of its centre"), empty="")
    route = PointsField(
        translate("Pipes", "Corners on its way"),
        panel.display,
        across=said(FROM_LEFT["tray"]),
        up=said(ABOVE_FLOOR["tray"]),
    )
    form.add(
        route,
        lambda pipe: corners(panel.document.state.plan, pipe.id),
        lambda pipe, points: pipe.but(route=points),
        title=translate("Pipes", "Reshape %2"),
        wide=True,
    )

    def prepare(pipe: Pipe, state: State) -> None:
        plan = state.plan
        names = [(port.name, port.words) for port in plan.ports.values()]
        start.set_choices([(None, feed_word()), *names])
        end.set_choices(names)
        enclosure = state.job.enclosure
        route.set_headings(said(FROM_LEFT[enclosure.kind]), said(ABOVE_FLOOR[enclosure.kind]))
        route.set_origin((enclosure.left, enclosure.floor))
        course = plan.courses[pipe.id]
        route.set_ends(course.start and course.start.at, course.end.at)
        chase = next(chase for chase in plan.chases if chase.pipe == pipe.id)
        words = translate("Pipes", "%1 if empty")
        depth.set_empty(words.replace("%1", panel.written(chase.axis)))

    form.before_showing(prepare)
    return form


def feed_word() -> str:
    """Return the word for where a pipe comes from that begins at no port."""
    return translate("Pipes", "The supply")


def _put(job: Job, old: Pipe, new: Pipe) -> Job:
    ref = Ref("pipe", old.id)
    if new.id != old.id:
        return renamed(job, ref, new.id)
    return replaced(job, ref, new)


def _from(panel: Panel, pipe: Pipe, start: str | None) -> Pipe:
    """Return a pipe that begins elsewhere; one that is fed now is fed where it began, one that was is not."""
    if start is None and pipe.start is not None:
        return pipe.but(start=None, route=(panel.document.state.plan.ports[pipe.start].at, *pipe.route))
    if start is not None and pipe.start is None:
        return pipe.but(start=start, route=pipe.route[1:])
    return pipe.but(start=start)
