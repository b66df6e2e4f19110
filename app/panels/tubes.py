"""The choice of a tube among those there are."""

from typing import Any

from app.document import State
from app.panels.form import Form
from app.panels.panel import Panel
from app.panels.words import translate
from geometry.parts.records import TubePart


def tube_field(form: Form[Any], *, wide: bool = False) -> None:
    """Add the choice of a record's tube among those there are."""
    field = form.choice("tube", translate("Measure", "Tube"), wide=wide)

    def prepare(_record: Any, _state: State) -> None:
        field.set_choices(tubes(form.panel))

    form.before_showing(prepare)


def tubes(panel: Panel) -> tuple[tuple[str, str], ...]:
    """Return the tubes there are, with their names."""
    return tuple((part.id, part.name) for part in panel.document.catalogue if isinstance(part, TubePart))
