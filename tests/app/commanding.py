"""Commands given to the program in this process, and what it answers."""

import json
from pathlib import Path
from typing import Any

import pytest

from app.cli import main


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    """Give a command; return its exit code and what it wrote to its output and its error output."""
    code = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return code, out, err


def report(capsys: pytest.CaptureFixture[str], path: Path) -> tuple[int, dict[str, Any]]:
    """Check a job; return the exit code and the report for scripts."""
    code, out, _ = run(capsys, "check", path, "--json")
    return code, json.loads(out)


def refused(capsys: pytest.CaptureFixture[str], *arguments: object) -> str:
    """Give a command that must be refused; return the one line that says why."""
    code, out, err = run(capsys, *arguments)
    assert code == 2
    assert out == ""
    assert err.count("\n") == 1
    assert err.endswith("\n")
    return err
