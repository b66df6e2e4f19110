"""What is there besides the fittings: screens, doors, and what is in the wall already, as solids."""

from geometry.model import Accessory, Cable, Door, Joist, OldPipe, Screen, Service, Stud, Wall
from geometry.shape.fittings import sector
from geometry.shape.outline import rectangle, run
from geometry.shape.solid import Solid

ACCESSORY_DEPTH = 47.0
"""Depth of an accessory's back box, in mm: the deepest usual one (common practice, no source)."""
ACCESSORY_OUT = 12.0
"""How far an accessory's plate stands out from the bare face with its finish, in mm (common practice)."""


def screen_solid(screen: Screen) -> Solid:
    """Return a fixed pane."""
    outline = run((screen.start, screen.end), screen.thickness)
    return Solid(screen.id, "screen", outline, screen.bottom, screen.top, "plan")


def door_solid(door: Door) -> Solid:
    """Return all that a door sweeps."""
    swept = sector(door.hinge, door.width, door.angle_from, door.angle_to).grown(door.thickness / 2)
    return Solid(door.id, "door", swept, door.bottom, door.top, "plan")


def service_solid(service: Service, wall: Wall) -> Solid:
    """Return what an existing service or timber takes up in or on the wall."""
    if isinstance(service, Accessory):
        x, y, w, h = service.x, service.height, service.wide / 2, service.high / 2
        return Solid(
            service.id, service.kind, rectangle(x - w, y - h, x + w, y + h), -ACCESSORY_DEPTH, ACCESSORY_OUT
        )
    if isinstance(service, Cable | OldPipe):
        r = service.diameter / 2
        what = "cable" if isinstance(service, Cable) else "old pipe"
        outline = run(service.route, service.diameter)
        return Solid(service.id, what, outline, -service.depth - r, -service.depth + r)
    if isinstance(service, Stud):
        outline = rectangle(service.x - service.wide / 2, 0.0, service.x + service.wide / 2, wall.height)
        return Solid(service.id, "stud", outline, -wall.thickness, 0.0)
    assert isinstance(service, Joist)
    low, high = service.height - service.high / 2, service.height + service.high / 2
    outline = rectangle(service.left, low, service.right, high)
    return Solid(service.id, "noggin", outline, -wall.thickness, 0.0)
