"""The job: the whole truth about one wall, as one immutable record. An edit makes a new one."""

from collections.abc import Iterator
from typing import Self

from geometry.model.about import About
from geometry.model.enclosure import Enclosure
from geometry.model.finish import Finish
from geometry.model.fittings import Fitting, Hose
from geometry.model.house import House, Sanitary
from geometry.model.pipes import Pipe
from geometry.model.pipework import Pipework
from geometry.model.record import Record
from geometry.model.services import Service
from geometry.model.supply import Supply
from geometry.model.wall import Wall


class Job(Record, frozen=True, kw_only=True):
    """One wall with its enclosure, what is in it, what is fitted to it and what covers it."""

    about: About = About()
    wall: Wall
    enclosure: Enclosure
    services: tuple[Service, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    hoses: tuple[Hose, ...] = ()
    pipes: tuple[Pipe, ...] = ()
    pipework: Pipework = Pipework()
    finish: Finish = Finish()
    supply: Supply | None = None
    house: House = House()
    sanitary: tuple[Sanitary, ...] = ()
    """Other fixtures in the room that a handset might reach."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self._refuse_duplicates()
        kinds = {fitting.id: type(fitting).__name__ for fitting in self.fittings}
        for index, hose in enumerate(self.hoses):
            for field, kind in (("outlet", "HoseOutlet"), ("rail", "Rail")):
                name = getattr(hose, field)
                if kinds.get(name) != kind:
                    raise ValueError(f".hoses[{index}].{field}: no such fitting: {name!r}")
        for index, pipe in enumerate(self.pipes):
            for field in ("start", "end"):
                name = getattr(pipe, field)
                if name is not None and name.partition(".")[0] not in kinds:
                    raise ValueError(f".pipes[{index}].{field}: no such fitting and port: {name!r}")

    def fitting(self, name: str) -> Fitting:
        """Return the fitting of this id.

        Raises:
            KeyError: there is none.
        """
        for fitting in self.fittings:
            if fitting.id == name:
                return fitting
        raise KeyError(name)

    def moved(self, name: str, x: float, height: float) -> Self:
        """Return this job with one fitting elsewhere, in mm; all else is shared."""
        return self.with_fitting(self.fitting(name).but(x=x, height=height))

    def with_fitting(self, changed: Fitting) -> Self:
        """Return this job with the fitting of the same id replaced, or with a new one at the end."""
        kept = tuple(changed if fitting.id == changed.id else fitting for fitting in self.fittings)
        return self.but(fittings=kept if changed in kept else (*kept, changed))

    def named(self) -> Iterator[tuple[str, str]]:
        """Go through all that findings name: its path in the job, such as `.fittings[2]`, and its id.

        Hoses, pipes and parts of the wall count too, so that a name stands for one thing only.
        """
        for path, records in (
            (".wall.openings", self.wall.openings),
            (".wall.other_face", self.wall.other_face or ()),
            (".enclosure.screens", self.enclosure.screens),
            (".enclosure.doors", self.enclosure.doors),
            (".services", self.services),
            (".fittings", self.fittings),
            (".hoses", self.hoses),
            (".pipes", self.pipes),
            (".finish.niches", self.finish.niches),
            (".finish.movement", self.finish.movement),
            (".sanitary", self.sanitary),
        ):
            for index, record in enumerate(records):
                yield f"{path}[{index}]", record.id

    def _refuse_duplicates(self) -> None:
        first: dict[str, str] = {}
        for path, name in self.named():
            if name in first:
                raise ValueError(f"{path}.id: stands twice: {name!r}, as in {first[name].lstrip('.')}")
            first[name] = path
