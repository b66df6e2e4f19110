"""Benchmarks run as the program does."""

from app.cli import tune

tune()
