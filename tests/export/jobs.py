"""Jobs for drawings and sheets: a usual one, and walls with many fittings and awkward names."""

from geometry.model import (
    About,
    Accessory,
    Cable,
    Enclosure,
    Finish,
    FinishArea,
    Head,
    Hose,
    HoseOutlet,
    Job,
    OldPipe,
    Pipe,
    Rail,
    Service,
    Spout,
    Stud,
    Valve,
    Wall,
)
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import USUAL_LAYERS, suggested_job
from tests.samples import sample_job

AWKWARD = About(
    title=r"Łazienka <b>bold</b> & %%c \P",
    owner="Ż & Co <i>",
    place="מקלחת",
    number="X" * 60,
    creator="Zoë",
    date="2026-10-05",
    revision="B",
    approved_by="A" * 80,
    notes="First note with <b> & ümlauts.\nSecond note.",
)


def planned(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def usual() -> Plan:
    """A 760 tray entered from the left: the trade's own arrangement."""
    return planned(suggested_job(760, 760, "left"))


def sample(name: str) -> Plan:
    return planned(sample_job(name))


def crowded(bays: int, width: float) -> Plan:
    """A wall with five fittings, four pipes and a hose for each bay, and what is in it already."""
    fittings: list[Valve | Head | HoseOutlet | Rail | Spout] = []
    pipes: list[Pipe] = []
    hoses: list[Hose] = []
    for i in range(bays):
        x, up = 200 + i * (width - 300) / bays, (i % 4) * 17.3
        fittings += [
            Valve(id=f"valve-{i}", part="valve-three-square", x=x, height=1000 + up),
            Head(id=f"head-{i}", part="head-wall-200", x=x, height=2150 + up / 2),
            HoseOutlet(id=f"outlet-{i}", part="outlet-round", x=x + 190, height=1005 + up * 2),
            Rail(id=f"rail-{i}", part="rail-700", x=x + 190, height=1100 + up),
            Spout(id=f"spout-{i}", part="spout-170", x=x + 100, height=600 + up),
        ]
        pipes += [
            Pipe(id=f"hot-{i}", service="hot", end=f"valve-{i}.hot", route=((x - 45, 0.0),)),
            Pipe(id=f"cold-{i}", service="cold", end=f"valve-{i}.cold", route=((x + 45, 0.0),)),
            Pipe(id=f"riser-{i}", service="mixed", start=f"valve-{i}.out1", end=f"head-{i}.in"),
            Pipe(id=f"branch-{i}", service="mixed", start=f"valve-{i}.out2", end=f"outlet-{i}.in"),
        ]
        hoses.append(Hose(id=f"hose-{i}", part="hose-1500", outlet=f"outlet-{i}", rail=f"rail-{i}"))
    services: tuple[Service, ...] = (
        *(Stud(id=f"stud-{i}", x=300.0 + i * 600) for i in range(int(width // 600))),
        Accessory(id="<b>socket & co", kind="socket", x=width - 100, height=400.0),
        Cable(id="Zażółć gęślą", route=((width - 100, 400.0), (width - 100, 2400.0))),
        OldPipe(id="צינור ישן", route=((50.0, 300.0), (width / 2, 300.0))),
    )
    return planned(
        Job(
            about=AWKWARD,
            wall=Wall(width=width, height=2400.0, thickness=140.0),
            enclosure=Enclosure(left=0.0, width=min(width, 1700.0), projection=800.0),
            services=services,
            fittings=tuple(fittings),
            hoses=tuple(hoses),
            pipes=tuple(pipes),
            finish=Finish(areas=(FinishArea(id="wall", layers=USUAL_LAYERS),)),
        )
    )
