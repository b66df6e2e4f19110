"""Any sequence of edits, undo, redo, save and load leaves canvas, lists, findings, file and job agreeing."""

from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from shiboken6 import delete

from app.canvas.canvas import Canvas
from app.panels.check import CheckPanel
from app.panels.table import PartsModel, PartsTable
from app.window import Window
from geometry.checks.runner import check
from geometry.edits.contents import duplicated, removed
from geometry.edits.moves import mirrored_wall, moved, other_hand
from geometry.edits.refs import Ref, things
from geometry.finding import STATUSES
from geometry.jobfile import read_job
from geometry.model import Job
from geometry.plan import Plan
from tests.app.driving import Answers, child, keys
from tests.samples import SAMPLES, sample_job

STEPS = st.integers(min_value=-300, max_value=300)
NUMBERS = st.integers(min_value=0, max_value=30)
ARROWS = {"Left": (-1, 0), "Right": (1, 0), "Up": (0, 1), "Down": (0, -1)}


class Sequence(RuleBasedStateMachine):
    """A window, and beside it the history as a plain list of jobs."""

    window: Window
    answers: Answers
    folder: Path

    def __init__(self) -> None:
        super().__init__()
        self.history: list[Job] = []
        self.at = 0
        self.saved: int | None = 0
        self.file: Path | None = None
        self.in_file: Job | None = None

    @property
    def job(self) -> Job:
        return self.history[self.at]

    @property
    def plan(self) -> Plan:
        document = self.window.open_job.document
        return Plan(self.job, document.catalogue, document.rules)

    @initialize(sample=st.sampled_from(SAMPLES))
    def begin(self, sample: str) -> None:
        job = sample_job(sample)
        self.window.open_job.store.start(job)
        self.window.show_bench()
        self.history, self.at, self.saved = [job], 0, 0

    def pushed(self, job: Job) -> None:
        """Note a step of the history."""
        if job == self.job:
            return
        if self.saved is not None and self.saved > self.at:
            self.saved = None
        self.history[self.at + 1 :] = [job]
        self.at += 1

    def ref(self, number: int) -> Ref:
        refs = list(things(self.job))
        return refs[number % len(refs)]

    def has_things(self) -> bool:
        return bool(things(self.job))

    # edits

    @precondition(has_things)
    @rule(number=NUMBERS, dx=STEPS, dy=STEPS, steps=st.integers(1, 3), keep=st.booleans())
    def drag(self, number: int, dx: int, dy: int, steps: int, keep: bool) -> None:
        document, plan, chosen = self.window.open_job.document, self.plan, [self.ref(number)]
        for step in range(1, steps + 1):
            document.preview(moved(plan, chosen, dx * step / steps, dy * step / steps))
        if keep:
            document.edit("Move", document.job)
            self.pushed(moved(plan, chosen, dx, dy))
        else:
            document.cancel()

    @precondition(has_things)
    @rule(number=NUMBERS, arrow=st.sampled_from(sorted(ARROWS)), presses=st.integers(1, 3))
    def nudge(self, number: int, arrow: str, presses: int) -> None:
        ref, plan = self.ref(number), self.plan
        self.window.open_job.selection.choose([ref])
        for _ in range(presses):
            keys(self.window.bench.canvas, arrow)
        self.window.open_job.selection.choose([])
        after = self.window.open_job.document.job
        if ref.kind in ("service", "opening"):
            across, up = ARROWS[arrow]
            assert after == moved(plan, [ref], across * presses, up * presses)
        self.pushed(after)

    @precondition(has_things)
    @rule(number=NUMBERS)
    def remove(self, number: int) -> None:
        ref = self.ref(number)
        self.window.open_job.selection.choose([ref])
        keys(self.window.bench.canvas, "Del")
        self.pushed(removed(self.job, [ref]))

    @precondition(has_things)
    @rule(number=NUMBERS)
    def duplicate(self, number: int) -> None:
        ref = self.ref(number)
        self.window.open_job.selection.choose([ref])
        keys(self.window.bench.canvas, "Ctrl+D")
        self.pushed(duplicated(self.plan, [ref])[0])

    @rule(whole=st.booleans())
    def mirror(self, whole: bool) -> None:
        keys(self.window.bench.canvas, "Ctrl+Shift+M" if whole else "Ctrl+M")
        self.pushed(mirrored_wall(self.job) if whole else other_hand(self.job))

    @rule(width=st.integers(600, 3000))
    def widen(self, width: int) -> None:
        job = self.job.but(wall=self.job.wall.but(width=float(width)))
        self.window.open_job.document.edit("Change wall", job)
        self.pushed(job)

    # history and file

    @rule()
    def undo(self) -> None:
        keys(self.window.bench.canvas, "Ctrl+Z")
        self.at = max(self.at - 1, 0)

    @rule()
    def redo(self) -> None:
        keys(self.window.bench.canvas, "Ctrl+Shift+Z")
        self.at = min(self.at + 1, len(self.history) - 1)

    @rule(name=st.sampled_from(["one.json", "two.json"]))
    def save(self, name: str) -> None:
        self.answers.file = self.folder / name
        keys(self.window.bench.canvas, "Ctrl+S" if self.file else "Ctrl+Shift+S")
        self.file, self.in_file, self.saved = self.file or self.folder / name, self.job, self.at

    @precondition(lambda self: self.file is not None)
    @rule()
    def load(self) -> None:
        assert self.file is not None
        assert self.in_file is not None
        self.answers.unsaved = "discard"
        self.window.open_file(self.file)
        self.history, self.at, self.saved = [self.in_file], 0, 0

    @precondition(lambda self: self.file is not None)
    @rule()
    def go_back_to_the_file(self) -> None:
        assert self.in_file is not None
        if self.saved != self.at:  # the menu offers it only then
            keys(self.window.bench.canvas, "Ctrl+Shift+R")
            self.pushed(self.in_file)
            self.saved = self.at

    # what must agree

    @invariant()
    def everything_shows_the_job(self) -> None:
        if not self.history:
            return
        opened = self.window.open_job
        state = opened.document.state
        assert state.job == opened.document.kept_job == self.job
        assert state.findings == check(self.plan)
        strip = self.window.bench.strip
        for status in STATUSES:
            assert strip.count(status) == sum(finding.status == status for finding in state.findings)
        listed = child(self.window, CheckPanel).model
        found = [listed.row(number).finding for number in range(listed.rowCount())]
        wanting = [finding for finding in state.findings if finding.status != "clear"]
        assert [finding for finding in found if finding is not None] == wanting

    @invariant()
    def the_table_shows_every_thing(self) -> None:
        if not self.history:
            return
        table = child(self.window, PartsTable)
        fresh = PartsModel(table)
        fresh.show_state(self.window.open_job.document.state)
        assert table.model.refs == tuple(things(self.job))
        assert cells(table.model) == cells(fresh)
        delete(fresh)

    @invariant()
    def title_menus_and_file_tell_the_truth(self) -> None:
        if not self.history:
            return
        assert self.window.isWindowModified() == (self.saved != self.at)
        assert self.window.menus.entries["undo"].isEnabled() == (self.at > 0)
        assert self.window.menus.entries["redo"].isEnabled() == (self.at < len(self.history) - 1)
        if self.file is not None:
            assert read_job(self.file.read_bytes()) == self.in_file

    def teardown(self) -> None:
        """Compare the picture of the wall with that of a canvas that has seen nothing before."""
        if not self.history:
            return
        opened, old = self.window.open_job, self.window.bench.canvas
        opened.selection.choose([])
        old.clearFocus()
        old.fit()
        fresh = Canvas(opened.document, opened.selection, options=old.options, theme=old.theme)
        fresh.set_stage(old.stage)
        fresh.resize(old.size())
        fresh.fit()
        assert fresh.grab().toImage() == old.grab().toImage()
        delete(fresh)  # or it would draw along with all that follows


def cells(model: PartsModel) -> list[str]:
    """Return the texts of a table, row by row."""
    columns = range(model.columnCount())
    return [model.data(model.index(row, column)) for row in range(model.rowCount()) for column in columns]


@pytest.mark.timeout(300)
def test_any_sequence_leaves_everything_agreeing(window: Window, answers: Answers, tmp_path: Path) -> None:
    window.show_bench()
    window.bench.go_to("check")
    window.bench.toggle_table()

    class Here(Sequence):
        pass

    Here.window, Here.answers, Here.folder = window, answers, tmp_path
    run_state_machine_as_test(
        Here,
        settings=settings(
            settings.get_profile("ci"),
            max_examples=25,
            stateful_step_count=20,
            suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
        ),
    )
