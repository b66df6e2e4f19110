"""A shower on a bare wall, with a supply that does not fall however much runs, for sums by hand."""

from geometry.model import (
    Branch,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Pipe,
    Rail,
    Reading,
    Supply,
    Valve,
)
from tests.geometry.checks.walls import bare

COLD = Branch(static=3.0, readings=(Reading(pressure=3.0, flow=10.0),), temperature=10.0)
HOT = COLD.but(temperature=60.0)
SUPPLY = Supply(cold=COLD, hot=HOT, stored_litres=200.0)
"""3 bar on both sides however much runs, read 1000 above the floor."""
VALVE = Valve(id="valve", part="valve-two-round", x=1000, height=1100)
HEAD = Head(id="head", part="head-wall-200", x=1000, height=2100)
OUTLET = HoseOutlet(id="outlet", part="outlet-round", x=1300, height=1100)
RAIL = Rail(id="rail", part="rail-700", x=1300, height=1200, slider=500)
HOSE = Hose(id="hose", part="hose-1500", outlet="outlet", rail="rail")
PIPES = (
    Pipe(id="hot", service="hot", end="valve.hot", route=((955, 0),)),
    Pipe(id="cold", service="cold", end="valve.cold", route=((1045, 0),)),
    Pipe(id="riser", service="mixed", start="valve.out1", end="head.in"),
    Pipe(id="branch", service="mixed", start="valve.out2", end="outlet.in"),
)
JOB = bare(VALVE, HEAD, OUTLET, RAIL, pipes=PIPES).but(hoses=(HOSE,), supply=SUPPLY)


def with_branch(job: Job, side: str, **changes: object) -> Job:
    assert job.supply is not None
    return job.but(supply=job.supply.but(**{side: getattr(job.supply, side).but(**changes)}))
