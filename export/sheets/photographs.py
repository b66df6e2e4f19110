"""Pages of photographs: one upright or two wide ones to a page, as large as fits, captions under them.

Millimetres on paper.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from export.document import PagePen
from export.picture import Picture
from export.sheets.flow import GAP, paragraph
from geometry.model import Photograph
from geometry.shape.outline import Bounds

_UNDER = 1.5  # mm, between a picture and its caption


class Captioned(NamedTuple):
    """A picture and what is written under it."""

    picture: Picture
    caption: str


def captioned(
    photographs: Sequence[Photograph], pictures: Mapping[str, Picture | str]
) -> tuple[Captioned, ...]:
    """Return the photographs of which there is a picture, in their order."""
    found = ((one, pictures.get(one.file)) for one in photographs)
    return tuple(
        Captioned(picture, f"{one.file}: {' '.join(one.shows.split())}" if one.shows else one.file)
        for one, picture in found
        if isinstance(picture, Picture)
    )


def photograph_pages(shown: Sequence[Captioned], room: Bounds) -> list[Callable[[PagePen], None]]:
    """Return what draws each page, in the free room of a sheet."""
    left, low, right, top = room
    middle = (low + top) / 2
    pages: list[Callable[[PagePen], None]] = []
    for group in _grouped(shown):
        slots = [room] if len(group) == 1 else [(left, middle, right, top), (left, low, right, middle - GAP)]
        pages.append(_page(list(zip(group, slots, strict=True))))
    return pages


def _grouped(shown: Sequence[Captioned]) -> list[list[Captioned]]:
    """Put two wide pictures that follow each other on one page."""
    groups: list[list[Captioned]] = []
    for one in shown:
        if groups and len(groups[-1]) == 1 and all(map(_is_wide, (*groups[-1], one))):
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def _is_wide(one: Captioned) -> bool:
    return one.picture.width > one.picture.height


def _page(placed: Sequence[tuple[Captioned, Bounds]]) -> Callable[[PagePen], None]:
    def draw(pen: PagePen) -> None:
        for one, slot in placed:
            _draw(pen, one, slot)

    return draw


def _draw(pen: PagePen, one: Captioned, slot: Bounds) -> None:
    """Draw a picture in the top left corner of its slot, and its caption under it.

    The caption takes half the slot at most; the whole of it stands in the record.
    """
    left, low, right, top = slot
    lines = paragraph(one.caption, right - left)
    lines = lines[: int((top - low) / 2 // lines[0].height)]
    tall = top - low - _UNDER - sum(line.height for line in lines)
    scale = min((right - left) / one.picture.width, tall / one.picture.height)
    y = top - one.picture.height * scale
    pen.picture("rule", one.picture, (left, y, left + one.picture.width * scale, top))
    y -= _UNDER
    for line in lines:
        line.draw(pen, left, y)
        y -= line.height
