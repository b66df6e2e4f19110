"""Sizes on the screen that do not change with the zoom, in pixels. Own choice, by looking."""

SMALL = 9.0
"""Height of a capital letter of tags and names: a font of 12 pixels."""
LARGE = 11.0
"""Of the letters of pipes and of measured clearances: a font of 15 pixels."""
TOLERANCE = 8.0
"""How far off a thing may be picked with a mouse."""
PULL = 6.0
"""How far off a line draws what moves."""
TOUCH = 20.0
"""The same with a finger: a target of 40 pixels."""
THRESHOLD = 4.0
"""A press that moves less than this is a click."""
HANDLE = 5.0
"""Half of a handle's side."""
BAND = 60.0
"""Of the wall at least so much stays on the screen."""
