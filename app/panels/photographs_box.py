"""The photographs of the as-fitted record: files beside the job, chosen or named, and what each shows."""

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app import questions
from app.attached import attach
from app.document import State
from app.look import TARGET
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.sentence import Sentence, plainly
from geometry.model.pipework import Photograph

NEW_FILE = "photograph.jpg"
"""Stands in a new record until the name of a file is typed."""


class PhotographsBox(QWidget):
    """Lists the photographs; takes more from files, which are copied beside the job if they lie elsewhere."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel = panel
        self.chooser = QPushButton(self.tr("Choose photographs…"))
        self.chooser.setMinimumHeight(TARGET)
        self.chooser.clicked.connect(self._on_choose)
        self.problem = Sentence("clash")
        told = self.tr("They stand in the record as fitted, and are kept beside the job.")
        self.listing: Listing[Photograph] = Listing(
            panel,
            self.tr("photographs"),
            lambda job: job.pipework.photographs,
            lambda job, records: job.but(pipework=job.pipework.but(photographs=records)),
            lambda record: f"{record.file}: {record.shows}" if record.shows else record.file,
        )
        form = self.listing.form(Photograph, self.tr("photograph"))
        form.text("file", self.tr("Name of the file"), most=200, wide=True)
        self.shows = form.text("shows", self.tr("What it shows"), wide=True)
        self.listing.offer(self.tr("Add by name"), lambda job: Photograph(file=NEW_FILE))
        self.listing.finish()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        for widget in (Sentence("quiet", told), self.chooser, self.problem, self.listing):
            layout.addWidget(widget)

    def show_state(self, state: State) -> None:
        """Show the photographs of a state."""
        self.listing.show_state(state)

    def _on_choose(self) -> None:
        path = self._panel.document.path
        if path is None:
            self.problem.say(self.tr("Save the job first: its photographs are kept beside its file."))
            return
        chosen = questions.ask_photographs(self, str(path.parent))
        before = self._panel.document.job.pipework.photographs
        added: list[Photograph] = []
        problems: list[str] = []
        for file in chosen:
            try:
                one = attach(path.parent, file)
            except (OSError, ValueError) as problem:
                why = (isinstance(problem, OSError) and problem.strerror) or problem
                problems.append(f"{file.name}: {plainly(why)}")
            else:
                if one.file not in [other.file for other in (*before, *added)]:
                    added.append(one)
        self.problem.say("\n".join(problems))
        if added:
            self._add(before, added)

    def _add(self, before: tuple[Photograph, ...], added: list[Photograph]) -> None:
        """Add photographs as one step, and ask what the first of them shows."""
        job = self._panel.document.job
        pipework = job.pipework.but(photographs=(*before, *added))
        problem = self._panel.edit(self.tr("Add photographs"), job.but(pipework=pipework))
        if problem:
            self.problem.say(problem)
        else:
            self.listing.choose(len(before))
            self.shows.setFocus()
