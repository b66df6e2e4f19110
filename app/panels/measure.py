"""The step Measure: what is there before anything is fitted, as it is measured with a tape and a gauge."""

from typing import Any, TypeVar

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.document import State
from app.panels.choice_fields import TickField
from app.panels.enclosure_forms import EnclosureForm, panes, waste_form
from app.panels.form import Form
from app.panels.house_forms import AboutForm, HouseForm, fixtures
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.photo_box import PhotoBox
from app.panels.section import Column, Section
from app.panels.sentence import Sentence
from app.panels.service_forms import services
from app.panels.wall_forms import WallForm, far_cuts, openings
from geometry.edits.refs import Ref

F = TypeVar("F", bound=Form[Any])
L = TypeVar("L", bound=Listing[Any])


class MeasurePanel(Panel):
    """Wall, tray, panes, openings, what is in the wall, house and title block."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Measure"))
        self.column = Column()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.column)
        self._forms: list[Form[Any]] = []
        self._listings: list[Listing[Any]] = []
        self._counted: list[tuple[Section, Listing[Any]]] = []

        self.wall = self._form(WallForm(self))
        self.tray = self._form(EnclosureForm(self))
        self.waste = self._form(waste_form(self))
        self.panes = self._listing(panes(self))
        self.openings = self._listing(openings(self))
        self.services = self._listing(services(self))
        self.far_cuts = self._listing(far_cuts(self))
        self.house = self._form(HouseForm(self))
        self.fixtures = self._listing(fixtures(self))
        self.about = self._form(AboutForm(self))
        self.photo = PhotoBox(self)
        self.looked_behind = TickField(self.tr("Somebody has looked at the other face"))
        self.looked_behind.entered.connect(self._on_looked_behind)
        self._build()

    def _build(self) -> None:
        self._section(self.tr("Wall"), self.wall)
        self._section(self.tr("Photograph of the bare wall"), self.photo, folded=True)
        self._section(self.tr("Tray or bath"), self.tray, self.waste)
        in_plan = self.tr(
            "Counted from the wall's left corner, and out from its face; heights from the floor."
        )
        on_wall = self.tr("Counted from the wall's left corner and from the finished floor.")
        self._section(self.tr("Screens and doors"), Sentence("quiet", in_plan), self.panes, folded=True)
        self._section(self.tr("Openings"), Sentence("quiet", on_wall), self.openings, folded=True)
        self._section(self.tr("In the wall already"), Sentence("quiet", on_wall), self.services, folded=True)
        self._section(self.tr("Cut into the other face"), self.looked_behind, self.far_cuts, folded=True)
        self._section(self.tr("House and people"), self.house, folded=True)
        self._section(
            self.tr("Other fixtures in the room"), Sentence("quiet", in_plan), self.fixtures, folded=True
        )
        self._section(self.tr("Title block"), self.about, folded=True)

    def show_state(self, state: State) -> None:
        """Show what was measured."""
        for form in self._forms:
            form.show_state(state)
        for listing in self._listings:
            listing.show_state(state)
        for section, listing in self._counted:
            section.count(listing.list.count())
        looked = state.job.wall.other_face is not None
        self.looked_behind.show_value(looked)
        self.far_cuts.setVisible(looked)

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Show the form of an opening or of a thing in the wall that was chosen on the wall."""
        for section, listing in self._counted:
            if listing.show_chosen(refs):
                section.open(True)

    def _form(self, form: F) -> F:
        self._forms.append(form)
        return form

    def _listing(self, listing: L) -> L:
        self._listings.append(listing)
        return listing

    def _section(self, title: str, *widgets: QWidget, folded: bool = False) -> Section:
        section = Section(title, opened=not folded)
        section.add(*widgets)
        listings = [widget for widget in widgets if isinstance(widget, Listing)]
        if len(listings) == 1:
            self._counted.append((section, listings[0]))
        self.column.add(section)
        return section

    def _on_looked_behind(self, looked: bool) -> None:
        job = self.document.job
        title = self.tr("Change what is known of the other face")
        self.edit(title, job.but(wall=job.wall.but(other_face=() if looked else None)))
