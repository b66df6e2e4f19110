"""The command line before any command is at work: one line and exit code 2 for what it cannot do."""

import os
import subprocess
import sys

import pytest

from app.cli import DISPLAYS
from tests.app.commanding import refused
from tests.samples import FAULTY, sample_path


@pytest.mark.parametrize("line", ["check", "pack x.json", "start x.json", "check a b", "parts --xml"])
def test_a_wrong_command_gets_one_line(line: str, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, *line.split())


@pytest.mark.parametrize("line", ["chek job.json", "chek", "job.json check"])
def test_what_is_neither_command_nor_file_is_told_the_commands(
    line: str, capsys: pytest.CaptureFixture[str]
) -> None:
    said = refused(capsys, *line.split())
    assert said.startswith(f"chasewright: {line.split()[0]}: neither a command nor a file")
    assert "check" in said


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is always full")
@pytest.mark.parametrize("command", [["parts"], ["check", str(sample_path(FAULTY))]])
def test_a_report_that_cannot_be_written_is_no_verdict(command: list[str]) -> None:
    with open("/dev/full", "w") as full:
        ended = subprocess.run(
            [sys.executable, "-m", "app", *command],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert ended.returncode == 2
    assert ended.stderr.startswith("chasewright: cannot write: ")
    assert ended.stderr.count("\n") == 1


def test_without_a_display_the_window_is_refused_in_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    for name in DISPLAYS:
        monkeypatch.delenv(name, raising=False)
    assert "needs a display" in refused(capsys)
