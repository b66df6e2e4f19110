"""Old pipes in the way of a cut are cut out with room for a cap on each side."""

import pytest

from geometry.model import OldPipe
from geometry.quantities.tails import tails
from tests.export.jobs import sample
from tests.geometry.pipework.walls import hot, with_pipes


def test_an_old_pipe_across_a_chase() -> None:
    # chase 39 wide about x 335: 315.5 to 354.5; half of the pipe, 7.5, and 50 each side:
    # from 315.5 - 57.5 = 258 to 354.5 + 57.5 = 412, 154 long
    old = OldPipe(id="old", route=((0, 500), (2000, 500)))
    (tail,) = tails(with_pipes(hot((335, 0)), services=(old,)))
    assert tail.pipe == "old"
    assert tail.start == pytest.approx((258, 500))
    assert tail.end == pytest.approx((412, 500))
    assert tail.length == pytest.approx(154)


def test_an_old_pipe_along_a_chase_is_cut_out_once() -> None:
    old = OldPipe(id="old", route=((335, 100), (335, 400)))
    (tail,) = tails(with_pipes(hot((335, 0)), services=(old,)))
    assert tail.length == pytest.approx(300)


def test_one_that_lies_elsewhere_stays() -> None:
    assert tails(sample("corner-1200x800")) == ()
