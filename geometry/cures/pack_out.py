"""The ways out of a recess that does not suit its finish, in words, with the millimetres of each.

What the model cannot express, such as packing a box out from the wall, is said here; what it can is a cure.
"""

from geometry.finding import Finding
from geometry.plan import Plan
from geometry.units import shown


def ways_out(plan: Plan, finding: Finding) -> tuple[str, ...]:
    """Return the ways out of a clash of a recess, one sentence each; none for other findings."""
    if finding.status != "clash" or finding.rule not in ("recess.range", "outlet.stub", "recess.wall"):
        return ()
    (name,) = finding.parts
    depth = plan.depths[name]
    if finding.rule == "recess.wall":
        by = shown((finding.limit or 0.0) - (finding.measured or 0.0))
        return (
            f"Build the wall out in front of {name} by {by} mm, with board or a lining.",
            f"Choose a box for {name} that may sit {by} mm shallower.",
        )
    if depth.most < 0:
        by = f"{shown(-depth.most)} mm or more"
        return (
            f"Pack {name} out from the bare wall by {by}.",
            f"Choose a box or an extension kit for {name} whose back may lie {by} deeper.",
            f"Thin the finish at {name} by {by}.",
        )
    by = shown(-depth.room)
    return (
        f"Choose a box for {name} with {by} mm more room between its least and most depth.",
        f"Hold the finish at {name} to a tolerance that is {by} mm closer in all.",
    )
