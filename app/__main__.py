"""Runs the program: `python -m app`."""

from app.cli import run

run()
