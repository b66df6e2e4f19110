"""The words for the values of choices, in the user's language."""

from typing import Any

from PySide6.QtCore import QCoreApplication

from app.words import QT_TRANSLATE_NOOP
from geometry.model.record import Record

translate = QCoreApplication.translate
"""Under a name of its own: the tool that gathers the texts knows it by that."""

MAKE_UPS = {
    "aerated_block": QT_TRANSLATE_NOOP("Choices", "Aerated block"),
    "dense_block": QT_TRANSLATE_NOOP("Choices", "Dense block"),
    "hollow_block": QT_TRANSLATE_NOOP("Choices", "Hollow block"),
    "brick": QT_TRANSLATE_NOOP("Choices", "Brick"),
    "timber_stud": QT_TRANSLATE_NOOP("Choices", "Timber studs"),
    "metal_stud": QT_TRANSLATE_NOOP("Choices", "Metal studs"),
}
LOADBEARING = {
    "not_known": QT_TRANSLATE_NOOP("Choices", "Not known"),
    "yes": QT_TRANSLATE_NOOP("Choices", "Yes"),
    "no": QT_TRANSLATE_NOOP("Choices", "No"),
}
SIDES = {
    "corner": QT_TRANSLATE_NOOP("Choices", "A corner"),
    "free_end": QT_TRANSLATE_NOOP("Choices", "A free end"),
}
RULE_SETS: dict[tuple[str, ...], str] = {
    ("en_1996", "approved_document_a"): QT_TRANSLATE_NOOP("Choices", "Both, each by itself"),
    ("en_1996",): QT_TRANSLATE_NOOP("Choices", "EN 1996-1-1"),
    ("approved_document_a",): QT_TRANSLATE_NOOP("Choices", "Approved Document A"),
}
ENCLOSURES = {
    "tray": QT_TRANSLATE_NOOP("Choices", "Shower tray"),
    "bath": QT_TRANSLATE_NOOP("Choices", "Bath"),
    "wet_floor": QT_TRANSLATE_NOOP("Choices", "Wet floor"),
}
FROM_LEFT = {
    "tray": QT_TRANSLATE_NOOP("Choices", "From the tray's left"),
    "bath": QT_TRANSLATE_NOOP("Choices", "From the bath's left"),
    "wet_floor": QT_TRANSLATE_NOOP("Choices", "From the floor's left"),
}
ABOVE_FLOOR = {
    "tray": QT_TRANSLATE_NOOP("Choices", "Above the tray floor"),
    "bath": QT_TRANSLATE_NOOP("Choices", "Above the bath floor"),
    "wet_floor": QT_TRANSLATE_NOOP("Choices", "Above the wet floor"),
}
"""From where places count, by the kind of enclosure."""
ENTRIES = {
    "left": QT_TRANSLATE_NOOP("Choices", "From the left"),
    "front": QT_TRANSLATE_NOOP("Choices", "From the front"),
    "right": QT_TRANSLATE_NOOP("Choices", "From the right"),
}
ACCESSORIES = {
    "socket": QT_TRANSLATE_NOOP("Choices", "Socket"),
    "switch": QT_TRANSLATE_NOOP("Choices", "Switch"),
    "spur": QT_TRANSLATE_NOOP("Choices", "Fused spur"),
    "shaver": QT_TRANSLATE_NOOP("Choices", "Shaver point"),
    "light": QT_TRANSLATE_NOOP("Choices", "Light"),
    "fan": QT_TRANSLATE_NOOP("Choices", "Fan"),
    "heater": QT_TRANSLATE_NOOP("Choices", "Heater"),
}
LAYERS = {
    "board": QT_TRANSLATE_NOOP("Choices", "Board"),
    "plaster": QT_TRANSLATE_NOOP("Choices", "Plaster"),
    "tanking": QT_TRANSLATE_NOOP("Choices", "Tanking"),
    "adhesive": QT_TRANSLATE_NOOP("Choices", "Adhesive"),
    "tile": QT_TRANSLATE_NOOP("Choices", "Tile"),
    "panel": QT_TRANSLATE_NOOP("Choices", "Panel"),
}
BONDS = {
    "straight": QT_TRANSLATE_NOOP("Choices", "Straight"),
    "half": QT_TRANSLATE_NOOP("Choices", "Half bond"),
    "third": QT_TRANSLATE_NOOP("Choices", "Third bond"),
    "vertical": QT_TRANSLATE_NOOP("Choices", "Vertical"),
    "herringbone": QT_TRANSLATE_NOOP("Choices", "Herringbone"),
}
RUNS = {
    "plumb": QT_TRANSLATE_NOOP("Choices", "Plumb"),
    "level": QT_TRANSLATE_NOOP("Choices", "Level"),
}
WATERS = {
    "hot": QT_TRANSLATE_NOOP("Choices", "Hot"),
    "cold": QT_TRANSLATE_NOOP("Choices", "Cold"),
    "mixed": QT_TRANSLATE_NOOP("Choices", "Mixed"),
}
JOINTINGS = {
    "capillary": QT_TRANSLATE_NOOP("Choices", "Soldered"),
    "compression": QT_TRANSLATE_NOOP("Choices", "Compression"),
    "press": QT_TRANSLATE_NOOP("Choices", "Pressed"),
    "push_fit": QT_TRANSLATE_NOOP("Choices", "Push-fit"),
}
TURNS = {
    "elbows": QT_TRANSLATE_NOOP("Choices", "With elbows"),
    "bends": QT_TRANSLATE_NOOP("Choices", "With a bender"),
}
MEASURES = {
    "elbow": QT_TRANSLATE_NOOP("Choices", "Elbow"),
    "tee_run": QT_TRANSLATE_NOOP("Choices", "Tee, along its run"),
    "tee_branch": QT_TRANSLATE_NOOP("Choices", "Tee, its branch"),
    "coupling": QT_TRANSLATE_NOOP("Choices", "Coupling"),
    "adaptor": QT_TRANSLATE_NOOP("Choices", "Adaptor"),
    "port": QT_TRANSLATE_NOOP("Choices", "Port of the valve"),
    "wall_elbow": QT_TRANSLATE_NOOP("Choices", "Elbow at the wall"),
    "insertion": QT_TRANSLATE_NOOP("Choices", "How deep the tube goes in"),
}
HANDS = {
    "left": QT_TRANSLATE_NOOP("Choices", "Left"),
    "right": QT_TRANSLATE_NOOP("Choices", "Right"),
}
HOT_SOURCES = {
    "instant_heater": QT_TRANSLATE_NOOP("Choices", "Instant heater"),
    "stored_mains": QT_TRANSLATE_NOOP("Choices", "Cylinder on the mains"),
    "stored_gravity": QT_TRANSLATE_NOOP("Choices", "Cylinder fed from a tank"),
    "boosted": QT_TRANSLATE_NOOP("Choices", "Pumped"),
}
USERS = {
    "usual": QT_TRANSLATE_NOOP("Choices", "Usual height"),
    "tall": QT_TRANSLATE_NOOP("Choices", "Tall"),
    "child": QT_TRANSLATE_NOOP("Choices", "Child"),
    "seated": QT_TRANSLATE_NOOP("Choices", "Seated"),
}
BACKFLOWS = {
    "not_known": QT_TRANSLATE_NOOP("Choices", "Not known yet"),
    "retaining_ring": QT_TRANSLATE_NOOP("Choices", "A ring that holds the hose"),
    "factory_ring": QT_TRANSLATE_NOOP("Choices", "A ring fixed for good"),
    "double_check_outlet": QT_TRANSLATE_NOOP("Choices", "Double check valve at the outlet"),
    "double_check_supplies": QT_TRANSLATE_NOOP("Choices", "Double check valves on both supplies"),
    "gravity_feed": QT_TRANSLATE_NOOP("Choices", "A cistern for hot and cold"),
    "none": QT_TRANSLATE_NOOP("Choices", "Nothing"),
}
ISOLATIONS = {
    "not_known": QT_TRANSLATE_NOOP("Choices", "Not known yet"),
    "behind_plate": QT_TRANSLATE_NOOP("Choices", "Behind the valve's plate"),
    "accessible": QT_TRANSLATE_NOOP("Choices", "Where they can be reached"),
    "none": QT_TRANSLATE_NOOP("Choices", "Nowhere"),
}
SANITARY = {
    "wc": QT_TRANSLATE_NOOP("Choices", "WC"),
    "bidet": QT_TRANSLATE_NOOP("Choices", "Bidet"),
    "basin": QT_TRANSLATE_NOOP("Choices", "Basin"),
}
PARTS = {
    "valve": QT_TRANSLATE_NOOP("Choices", "Valves"),
    "head": QT_TRANSLATE_NOOP("Choices", "Heads"),
    "hose_outlet": QT_TRANSLATE_NOOP("Choices", "Hose outlets"),
    "rail": QT_TRANSLATE_NOOP("Choices", "Rails"),
    "hose": QT_TRANSLATE_NOOP("Choices", "Hoses"),
    "spout": QT_TRANSLATE_NOOP("Choices", "Bath spouts"),
}
"""Headings over the parts that a user adds to the wall, by their kind."""
THINGS = {
    "valve": QT_TRANSLATE_NOOP("Choices", "Valve"),
    "head": QT_TRANSLATE_NOOP("Choices", "Head"),
    "hose_outlet": QT_TRANSLATE_NOOP("Choices", "Hose outlet"),
    "rail": QT_TRANSLATE_NOOP("Choices", "Rail"),
    "spout": QT_TRANSLATE_NOOP("Choices", "Bath spout"),
    "hose": QT_TRANSLATE_NOOP("Choices", "Hose"),
    "pipe": QT_TRANSLATE_NOOP("Choices", "Pipe"),
    "accessory": QT_TRANSLATE_NOOP("Choices", "Electrical point"),
    "cable": QT_TRANSLATE_NOOP("Choices", "Cable"),
    "old_pipe": QT_TRANSLATE_NOOP("Choices", "Old pipe"),
    "stud": QT_TRANSLATE_NOOP("Choices", "Stud"),
    "joist": QT_TRANSLATE_NOOP("Choices", "Noggin or plate"),
    "opening": QT_TRANSLATE_NOOP("Choices", "Opening"),
}
"""What a thing of the job is called; by the tag of its record."""


def said(text: str) -> str:
    """Return one of the texts above in the user's language."""
    return QCoreApplication.translate("Choices", text)


def kind_word(thing: Record | type[Record]) -> str:
    """Return what a thing of the job is called by its kind."""
    kind = thing if isinstance(thing, type) else type(thing)
    tag = kind.__struct_config__.tag
    return said(THINGS[kind.__name__.lower() if tag is None else str(tag)])


def choices(words: dict[Any, str]) -> tuple[tuple[Any, str], ...]:
    """Return values with their words, as a field of choices takes them."""
    return tuple((value, said(text)) for value, text in words.items())
