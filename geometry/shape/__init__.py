"""Outlines and depth intervals of everything on the wall."""
