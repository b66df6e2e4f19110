"""What a check says is worked out once, as far as somebody listens; what fails, fails for all who listen."""

from collections.abc import Iterator
from itertools import islice

import pytest

from geometry.cures.heard import Heard
from geometry.finding import Finding


def said(rule: str) -> Finding:
    return Finding(rule=rule, status="clear", parts=(), message="")


def test_each_finding_is_worked_out_once_and_only_when_it_is_asked_for() -> None:
    worked_out: list[str] = []

    def check() -> Iterator[Finding]:
        for rule in ("a", "b", "c"):
            worked_out.append(rule)
            yield said(rule)

    heard = Heard(check())
    assert [finding.rule for finding in islice(heard, 2)] == ["a", "b"] == worked_out
    assert [finding.rule for finding in heard] == ["a", "b", "c"] == worked_out
    assert len(list(heard)) == 3
    assert worked_out == ["a", "b", "c"]


def test_what_failed_for_one_fails_for_the_next() -> None:
    def check() -> Iterator[Finding]:
        yield said("a")
        raise ArithmeticError("no such place")

    heard = Heard(check())
    for _ in range(2):
        with pytest.raises(ArithmeticError, match="no such place"):
            list(heard)
