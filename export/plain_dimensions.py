"""Dimensions as plain lines and text, for pens whose format has no dimension of its own.

Millimetres, y up. Every size here is a share of the text height, so a dimension keeps its looks at
any scale. Text reads from the bottom or from the right of the drawing, and no line of a dimension
runs through its own text.
"""

from export.pen import XY, Align, Axis, Pen
from export.text import is_bold, text_width

# Shares of the text height; common drawing practice, no source.
TICK = 0.5  # half of the oblique stroke, along either axis
OFF_FEATURE = 0.6  # gap between a measured point and the line drawn from it
OVERSHOOT = 0.6  # how far an extension line passes the dimension line
CLEAR = 0.5  # gap between a line and the text beside it


class PlainDimensions:
    """Gives a pen its dimensions, drawn with its own lines and text."""

    def dimension(
        self: Pen, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a dimension as lines and text."""
        draw_dimension(self, layer, start, end, base, axis, text, height)

    def running(
        self: Pen, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a running dimension as lines and text."""
        draw_running(self, layer, feature, tag, axis, text, height)


def draw_dimension(
    pen: Pen, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
) -> None:
    """Draw the distance of two points along an axis, with extension lines and oblique strokes.

    The text stands over the middle of the dimension line. If the extension lines leave too little
    room for it there, it moves past their ends, away from the measured points; if those lie on
    both sides of the line, it moves along it, beyond the upper or right-hand end.

    Args:
        pen: What draws; only `line` and `text` are used.
        layer: The layer of every stroke.
        start: One measured point.
        end: The other one.
        base: Any point of the dimension line.
        axis: "x" measures across and the text is level; "y" measures up and the text stands upright.
        text: What to write.
        height: The height of a capital letter.
    """
    onto, off, angle = (_as_it_is, _as_it_is, 0.0) if axis == "x" else (_turned, _turned_back, 90.0)
    ends = sorted((onto(start), onto(end)))
    (a, _), (b, _) = ends
    _, level = onto(base)
    tick, clear, overshoot = TICK * height, CLEAR * height, OVERSHOOT * height

    strokes = [((a, level), (b, level))]
    strokes += [((along - tick, level - tick), (along + tick, level + tick)) for along in (a, b)]
    sides = set()
    for along, across in ends:
        if across != level:
            side = 1.0 if across < level else -1.0
            gap = min(OFF_FEATURE * height, abs(level - across))
            strokes.append(((along, across + side * gap), (along, level + side * overshoot)))
            sides.add(side)

    width = text_width(text, height, bold=is_bold(layer))
    align: Align = "centre"
    at = ((a + b) / 2, level + clear)
    if width + 2 * clear > b - a:
        if len(sides) == 2:
            align, at = "left", (b + 2 * clear, level + clear)
            strokes.append(((b, level), (b + 2 * clear + width, level)))
        elif -1.0 in sides:
            at = (at[0], level - overshoot - clear - height)
        else:
            at = (at[0], level + overshoot + clear)

    for first, last in strokes:
        if first != last:
            pen.line(layer, off(first), off(last))
    pen.text(layer, off(at), text, height, align=align, angle=angle)


def draw_running(pen: Pen, layer: str, feature: XY, tag: XY, axis: Axis, text: str, height: float) -> None:
    """Draw a running dimension: a leader from the feature to `tag`, and the text beyond it.

    The leader starts a little off the feature and runs straight out. If the tag lies off the
    feature's level, to leave room for its neighbours, the leader bends at 45 degrees to reach it.
    Leaders do not cross while their tags end on one line, keep the order of the features, and
    each has room for its bend.

    Args:
        pen: What draws; only `polyline` and `text` are used.
        layer: The layer of every stroke.
        feature: The point that is measured.
        tag: Where the leader ends; the text begins `CLEAR` heights beyond, centred on this level.
        axis: "y" gives a height, tag left or right of the feature, text level; "x" gives a distance
            across, tag above or below it, text upright and read from the right.
        text: What to write.
        height: The height of a capital letter.
    """
    # Along the leader is along the text, and across what is measured.
    onto, off, angle = (_as_it_is, _as_it_is, 0.0) if axis == "y" else (_turned, _turned_back, 90.0)
    (out, level), (last, tag_level) = onto(feature), onto(tag)
    side = 1.0 if last >= out else -1.0
    first = out + side * min(OFF_FEATURE * height, abs(last - out))
    knee = last - side * min(abs(tag_level - level), abs(last - first))
    leader = dict.fromkeys([(first, level), (knee, level), (last, tag_level)])
    if len(leader) > 1:
        pen.polyline(layer, [off(point) for point in leader])
    at = off((last + side * CLEAR * height, tag_level - height / 2))
    pen.text(layer, at, text, height, align="left" if side > 0 else "right", angle=angle)


def _as_it_is(point: XY) -> XY:
    return point


def _turned(point: XY) -> XY:
    """Turn the drawing clockwise, so that what is read from the right is read from the bottom."""
    x, y = point
    return y, -x


def _turned_back(point: XY) -> XY:
    x, y = point
    return -y, x
