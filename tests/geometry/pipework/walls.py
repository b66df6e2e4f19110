"""One pipe on a bare wall, for tests of cut lengths. All in mm."""

from geometry.model import XY, Job, OldPipe, Pipe, Pipework
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

USUAL = suggested_job(760, 760, "left", 2000)
"""Valve at (380, 1030): hot at (335, 960) down G3/4, out1 at (380, 1100) up G1/2, out2 (445, 1030) right."""


def planned(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def with_pipes(*pipes: Pipe, pipework: Pipework | None = None, services: tuple[OldPipe, ...] = ()) -> Plan:
    return planned(USUAL.but(pipes=pipes, pipework=pipework or Pipework(), services=services))


def hot(*route: XY, **more: object) -> Pipe:
    """Return a hot pipe from a feed over these points."""
    return Pipe(id="hot", service="hot", end="valve.hot", route=route, **more)  # type: ignore[arg-type]
