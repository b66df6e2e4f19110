"""A page for a phone: one HTML file with the finished face, its holes, cuts and amounts; nothing is fetched.

It is built as a tree of elements, so that no text is read as markup; its own style and script are named by
their hash, and nothing else may load or run. It reads without script: then a hole leads to its row. Of the
job it names title, number and date, but no person and no place.
"""

import base64
import hashlib
from xml.etree import ElementTree as ET

from export.drawings.tile_plan import draw_tile_plan, plan_bounds
from export.html_looks import SCRIPT, STYLE
from export.sheets.options import SheetOptions
from export.sheets.tiler import amounts_words, build_up_words, cut_rows, hole_rows, waterproofing_words
from export.svg import SvgPen
from export.text import clean
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.tiling.drilling import Drilled, drilled
from geometry.tiling.pieces import pieces_of
from geometry.units import number

WIDE, HIGH = 110.0, 200.0
"""Room for the picture in mm, in which letters are readable when it is opened up once."""
TOUCH = 4.0  # mm in the picture: least radius that a finger meets
_HOLES = (
    "No.", "Hole", "Tile", "Diameter in tile", "Diameter in board", "From left edge of tile",
    "Above lower edge of tile", "Across from datum", "Up from datum",
)  # fmt: skip
_CUTS = ("Pieces", "Width", "Height", "Tiles")
_LEFT = {"Hole", "Tile", "Tiles"}
_STRONG = {"No.", "Diameter in tile", "From left edge of tile", "Above lower edge of tile"}


def phone_page(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    """Return the page as one HTML file in UTF-8.

    Args:
        plan: the job with its parts.
        findings: of its checks; those about tiles that are not clear are repeated.
        options: not used: a page has no paper.

    Raises:
        ValueError: there are too many tiles.
    """
    about = plan.job.about
    html = ET.Element("html", {"lang": "en"})
    _head(html, about.title or "Finished face")
    body = ET.SubElement(html, "body")
    header = ET.SubElement(body, "header")
    _add(header, "h1", about.title or "Finished face")
    if line := " · ".join(part for part in (about.number, about.revision, about.date) if part):
        _add(header, "p", line)
    main = ET.SubElement(body, "main")
    holes = drilled(plan)
    _picture(main, plan, holes)
    ET.SubElement(main, "div", {"class": "shown-hole", "role": "status", "aria-live": "polite"})
    _table(_section(main, "Holes", "holes"), _HOLES, hole_rows(holes), "hole-")
    _rest(main, plan, findings)
    footer = ET.SubElement(body, "footer")
    datum = f"the left edge of the {plan.job.enclosure.kind.replace('_', ' ')} and its finished floor"
    _add(footer, "p", f"All lengths in mm. The datum is {datum}. Seen from the room.")
    _add(footer, "p", "Local codes and the makers' instructions win over this page.")
    ET.SubElement(body, "script").text = SCRIPT
    markup: str = ET.tostring(html, encoding="unicode", method="html")
    return ("<!DOCTYPE html>\n" + markup + "\n").encode()


def _head(html: ET.Element, title: str) -> None:
    head = ET.SubElement(html, "head")
    ET.SubElement(head, "meta", {"charset": "utf-8"})
    policy = (
        f"default-src 'none'; style-src {_hash(STYLE)}; script-src {_hash(SCRIPT)}; "
        "base-uri 'none'; form-action 'none'"
    )
    ET.SubElement(head, "meta", {"http-equiv": "Content-Security-Policy", "content": policy})
    ET.SubElement(head, "meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"})
    ET.SubElement(head, "meta", {"name": "referrer", "content": "no-referrer"})
    _add(head, "title", title)
    ET.SubElement(head, "style").text = STYLE


def _hash(text: str) -> str:
    """Return how a page's policy names a style or script of its own."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _add(parent: ET.Element, tag: str, text: str, **attributes: str) -> ET.Element:
    made = ET.SubElement(parent, tag, attributes)
    made.text = clean(text)
    return made


def _section(main: ET.Element, heading: str, name: str) -> ET.Element:
    section = ET.SubElement(main, "section", {"id": name})
    _add(section, "h2", heading)
    return section


def _picture(main: ET.Element, plan: Plan, holes: tuple[Drilled, ...]) -> None:
    """Draw the finished face; each hole is a link to its row."""
    wall = plan.job.wall
    scale = max(wall.width / WIDE, wall.height / HIGH)
    x0, y0, x1, y1 = (side / scale for side in plan_bounds(plan, scale))
    title = "The finished face with its tiles and holes"
    pen = SvgPen(x1 - x0, y1 - y0, title=title, description="Every hole is listed in the table below.")
    draw_tile_plan(plan, Placed(pen, 1 / scale, -x0, -y0), scale)
    svg = ET.fromstring(pen.to_bytes())
    for element in svg.iter():
        element.tag = element.tag.rpartition("}")[2]
    for name in ("width", "height"):
        svg.attrib.pop(name)
    svg.set("tabindex", "0")
    svg.remove(svg.findall("rect")[0])  # the white paper
    for one in sorted(holes, key=lambda one: -one.hole.diameter):  # small ones lie over large ones
        x, y = one.hole.at[0] / scale - x0, y1 - one.hole.at[1] / scale
        where = one.names or "not tiled"
        what = f"Hole {one.number}, {one.hole.owner}, {number(one.hole.diameter)} wide, {where}"
        link = ET.SubElement(svg, "a", {"href": f"#hole-{one.number}", "aria-label": clean(what)})
        radius = max(TOUCH, one.hole.diameter / 2 / scale)
        ET.SubElement(link, "circle", {"cx": number(x, 3), "cy": number(y, 3), "r": number(radius, 3)})
    section = ET.SubElement(main, "section", {"class": "picture", "id": "picture"})
    section.append(svg)
    buttons = ET.SubElement(section, "div", {"class": "buttons"})
    for name, text, label in (
        ("closer", "+", "Closer"),
        ("farther", "−", "Farther"),
        ("fit", "All", "Show all"),
    ):
        _add(buttons, "button", text, **{"id": name, "type": "button", "aria-label": label})


def _table(section: ET.Element, heads: tuple[str, ...], rows: list[list[str]], name: str = "") -> None:
    if not rows:
        _add(section, "p", "None.")
        return
    table = ET.SubElement(ET.SubElement(section, "div", {"class": "wide"}), "table")
    top = ET.SubElement(ET.SubElement(table, "thead"), "tr")
    for head in heads:
        _add(top, "th", head, scope="col", **{"class": "left" if head in _LEFT else "right"})
    body = ET.SubElement(table, "tbody")
    for row in rows:
        line = ET.SubElement(body, "tr", {"id": f"{name}{row[0]}"} if name and row[0] else {})
        for head, text in zip(heads, row, strict=True):
            looks = " ".join((*(["left"] if head in _LEFT else []), *(["strong"] if head in _STRONG else [])))
            _add(line, "td", text, **{"data-head": head, **({"class": looks} if looks else {})})


def _rest(main: ET.Element, plan: Plan, findings: tuple[Finding, ...]) -> None:
    pieces, tiling = pieces_of(plan), plan.job.finish.tiling
    if tiling is not None and pieces:
        _table(_section(main, "Cuts", "cuts"), _CUTS, cut_rows(pieces))
        _list(_section(main, "Amounts", "amounts"), amounts_words(plan, pieces, tiling))
    _list(_section(main, "Build-up", "build-up"), build_up_words(plan))
    _list(_section(main, "Waterproofing", "waterproofing"), waterproofing_words(plan))
    watch = [one for one in findings if one.rule.startswith("tiling.") and one.status != "clear"]
    if watch:
        _list(_section(main, "Watch", "watch"), [(one.status.capitalize(), one.message) for one in watch])


def _list(section: ET.Element, entries: list[tuple[str, str]]) -> None:
    made = ET.SubElement(section, "dl")
    for name, text in entries:
        _add(made, "dt", name)
        _add(made, "dd", text)
