"""The gates, so that pytest is the one command: lint, format, types, imports, and the shape of the house."""

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGES = ("app", "export", "geometry", "tests")
LINT_IMPORTS = str(Path(sys.executable).with_name("lint-imports"))
GATES = {
    "ruff check": (sys.executable, "-m", "ruff", "check", "."),
    "ruff format": (sys.executable, "-m", "ruff", "format", "--check", "."),
    "mypy": (sys.executable, "-m", "mypy"),
    "lint-imports": (LINT_IMPORTS,),
}

# What each contract promises, said a second time and by hand: who may not import what.
PROMISES = {
    "imports run one way: app, export, geometry": [
        ("export", "app"),
        ("geometry", "app"),
        ("geometry", "export"),
    ],
    "the engine and the sheets know no Qt": [
        ("export", "PySide6"),
        ("geometry", "PySide6"),
    ],
    "the engine writes no format": [
        ("geometry", "ezdxf"),
        ("geometry", "reportlab"),
        ("geometry", "pathlib"),
    ],
}


def run(*command: str, cwd: Path = ROOT, **environment: str) -> tuple[int, str]:
    """Run a command without colours; return its exit code and all that it printed."""
    kept = {name: value for name, value in os.environ.items() if name != "FORCE_COLOR"}
    done = subprocess.run(
        command,
        cwd=cwd,
        env=kept | {"NO_COLOR": "1"} | environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    return done.returncode, done.stdout


def contract_names() -> list[str]:
    config = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return [contract["name"] for contract in config["tool"]["importlinter"]["contracts"]]


def commands_in(script: str) -> list[str]:
    lines = (line.strip() for line in (ROOT / script).read_text(encoding="utf-8").splitlines())
    return [line for line in lines if line and not line.startswith("#")]


@pytest.mark.timeout(600)  # mypy without its cache takes a minute or two on a slow machine
@pytest.mark.parametrize("gate", GATES)
def test_gate_is_clean(gate: str) -> None:
    code, printed = run(*GATES[gate])
    assert code == 0, f"{gate}:\n{printed}"


def test_every_import_contract_is_broken_on_purpose_below() -> None:
    assert sorted(contract_names()) == sorted(PROMISES)


@pytest.mark.parametrize("contract", PROMISES)
def test_import_contract_fails_when_it_is_broken(contract: str, tmp_path: Path) -> None:
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    for package in ("app", "export", "geometry"):
        shutil.copytree(ROOT / package, tmp_path / package, ignore=shutil.ignore_patterns("__pycache__"))
    for offender, forbidden in PROMISES[contract]:
        (tmp_path / offender / f"offence_{forbidden}.py").write_text(
            f"import {forbidden}\n", encoding="utf-8"
        )

    code, printed = run(LINT_IMPORTS, cwd=tmp_path)

    assert code != 0
    assert f"{contract} BROKEN" in printed
    for offender, forbidden in PROMISES[contract]:
        assert f"{offender}.offence_{forbidden} -> {forbidden} (l.1)" in printed


def test_every_folder_of_code_is_a_package() -> None:
    # a folder without __init__.py is not seen by lint-imports, and a test in it may hide one of the same name
    folders = {path.parent for package in PACKAGES for path in (ROOT / package).rglob("*.py")}
    bare = [str(folder.relative_to(ROOT)) for folder in folders if not (folder / "__init__.py").exists()]
    assert sorted(bare) == []


def test_ci_runs_the_command_that_the_readme_gives() -> None:
    command = commands_in(".ci/run")[-1]
    blocks = re.findall(r"^```\w*\n(.*?)^```", (ROOT / "README.md").read_text(encoding="utf-8"), re.M | re.S)
    assert command == ".ci/bootstrap && .venv/bin/python -m pytest"
    assert command in [line.strip() for block in blocks for line in block.splitlines()]


@pytest.mark.parametrize("script", [".ci/bootstrap", ".ci/run"])
def test_script_can_be_run(script: str) -> None:
    assert os.access(ROOT / script, os.X_OK)


def test_bootstrap_with_an_old_python_says_so_and_stops(tmp_path: Path) -> None:
    (tmp_path / ".ci").mkdir()
    shutil.copy(ROOT / ".ci/bootstrap", tmp_path / ".ci")
    tools = tmp_path / "tools"
    tools.mkdir()
    for name in ("dirname", "mktemp", "rm"):
        (tools / name).symlink_to(shutil.which(name) or name)
    for name in ("python3", "python3.11", "python3.12", "python3.13"):
        (tools / name).write_text(
            '#!/bin/sh\n[ "$1" = --version ] || exit 1\necho Python 3.9.2\n', encoding="utf-8"
        )
        (tools / name).chmod(0o755)

    code, printed = run(shutil.which("bash") or "bash", ".ci/bootstrap", cwd=tmp_path, PATH=str(tools))

    assert (code, printed) == (
        1,
        "bootstrap: needs Python 3.11 or newer but found Python 3.9.2; install it and run this again\n",
    )
    assert not (tmp_path / ".venv").exists()


def test_top_level_holds_only_the_agreed_names() -> None:
    if not (ROOT / ".git").exists() or shutil.which("git") is None:
        pytest.skip("not a git checkout")
    code, printed = run("git", "ls-files")
    assert code == 0, printed
    agreed = {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml", "samples", *PACKAGES}
    found = {line.split("/")[0] for line in printed.splitlines()}
    assert {name for name in found if not name.startswith(".")} - agreed == set()


def test_command_line_starts_without_qt_and_without_writers() -> None:
    script = """
import sys
import app.cli
slow = {"PySide6", "ezdxf", "networkx", "reportlab", "scipy"}
print(sorted(slow & sys.modules.keys()))
"""
    assert run(sys.executable, "-c", script) == (0, "[]\n")


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is counted only before Python 3.12")
def test_qt_calls_that_return_nothing_keep_the_count_of_none() -> None:
    # a PySide6 that loses a reference to None at each such call aborts the program after some 5000 of them
    script = """
import sys
from PySide6.QtGui import QPen
pen = QPen()
before = sys.getrefcount(None)
for _ in range(10_000):
    pen.setCosmetic(True)
print(abs(sys.getrefcount(None) - before) < 100)
"""
    assert run(sys.executable, "-c", script) == (0, "True\n")
