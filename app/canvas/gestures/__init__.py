"""Gestures on the canvas: each is an object that is started, moved, and finished or cancelled."""
