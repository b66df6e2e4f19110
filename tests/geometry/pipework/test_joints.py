"""Joints as data: every tube has one, wrong files are refused, tees fall back on the joint's own size."""

import pytest

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import TubePart
from geometry.pipework.joints import USUAL, read_joints, typical_joints

TUBES = [part for part in generic_parts() if isinstance(part, TubePart)]


@pytest.mark.parametrize("tube", TUBES, ids=lambda tube: str(tube.id))
def test_every_tube_is_joined_in_the_way_usual_for_it(tube: TubePart) -> None:
    joint = typical_joints().find(tube)
    assert joint.jointing == USUAL[tube.material]
    assert joint.outside == tube.outside
    assert joint.insertion > 0


def test_plastic_is_never_soldered() -> None:
    plastic = next(tube for tube in TUBES if tube.material == "barrier")
    with pytest.raises(ValueError, match=r"^no capillary joint is known for Plastic barrier pipe 15$"):
        typical_joints().find(plastic, "capillary")


def test_compression_joints_are_not_buried() -> None:
    # NHBC 8.1.11: capillary joints only where they are embedded
    copper = generic_parts().find("copper-15", TubePart)
    assert not typical_joints().find(copper, "compression").buried
    assert typical_joints().find(copper, "capillary").buried


def test_a_tee_that_is_not_listed_has_the_joints_own_size() -> None:
    joint = typical_joints().find(generic_parts().find("copper-15", TubePart), "capillary")
    assert typical_joints().tee(22.0, joint) == (12.5, 15.5)  # listed: 22 x 22 x 15
    assert typical_joints().tee(35.0, joint) == (joint.tee_run, joint.tee_branch)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[[joint]]\njointing = 'glue'", "own.toml: $.joint[0].jointing: must be one of"),
        ("[[bend]]\nradius = 3", "own.toml: $.bend: unknown key"),
        ("joint = ", "own.toml: not TOML:"),
    ],
)
def test_a_wrong_file_is_refused_by_place(text: str, words: str) -> None:
    with pytest.raises(ValueError, match=r"^own\.toml") as problem:
        read_joints(text.encode(), "own.toml")
    assert str(problem.value).startswith(words)
    assert "\n" not in str(problem.value)
