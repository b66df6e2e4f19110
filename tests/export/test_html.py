"""The page for a phone: built of text that stays text, and opened in a real browser with the network off."""

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest

from export.html import phone_page
from export.sheets.options import SheetOptions
from geometry.checks.runner import check
from geometry.model import About
from geometry.plan import Plan
from geometry.tiling.drilling import drilled
from tests.export.browser import Phone, browser, phone
from tests.export.jobs import AWKWARD, sample
from tests.samples import SAMPLES

HOSTILE = "</title></script><script>document.title='caught'</script><img src=x onerror=alert(1)> & 'quotes\""


def page(plan: Plan) -> bytes:
    return phone_page(plan, check(plan), SheetOptions())


def named(name: str, about: About) -> Plan:
    plan = sample(name)
    return Plan(plan.job.but(about=about), plan.catalogue, plan.rules)


class Tags(HTMLParser):
    """Gathers the tags of a page with their attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def tags(data: bytes) -> list[tuple[str, dict[str, str | None]]]:
    reader = Tags()
    reader.feed(data.decode())
    return reader.found


@pytest.mark.parametrize("name", SAMPLES)
def test_a_page_fetches_nothing_and_is_small(name: str) -> None:
    data = page(sample(name))
    assert len(data) < 2_000_000
    text = data.decode()
    without_namespace = text.replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|['\"(]//|url\(|@import", without_namespace)
    for tag, attributes in tags(data):
        assert tag not in ("img", "link", "iframe", "object", "embed", "base", "form")
        assert not any(key == "src" or key.startswith("on") or key == "style" for key in attributes)
        if "href" in attributes:
            assert str(attributes["href"]).startswith("#hole-")


def test_every_hole_has_its_row_to_read_without_script() -> None:
    plan = sample("bath-stud-wall")
    found = tags(page(plan))
    rows = {attributes["id"] for tag, attributes in found if tag == "tr" and "id" in attributes}
    links = {str(attributes["href"])[1:] for tag, attributes in found if tag == "a"}
    assert rows == links == {f"hole-{one.number}" for one in drilled(plan)}


def test_hostile_words_stay_words() -> None:
    about = About(
        title=HOSTILE, number=HOSTILE[:16], owner="Owner Name", place="12 Some Street", creator="Someone"
    )
    data = page(named("alcove-760", about))
    assert sum(tag == "script" for tag, _ in tags(data)) == 1
    assert not any(tag == "img" for tag, _ in tags(data))
    for private in ("Owner Name", "Some Street", "Someone"):
        assert private not in data.decode()


def test_equal_jobs_give_equal_pages() -> None:
    assert page(sample("alcove-760")) == page(sample("alcove-760"))


def test_awkward_letters_are_written_in_utf_8() -> None:
    assert "Łazienka" in page(named("alcove-760", AWKWARD)).decode()


# in a browser


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[Phone]:
    program = browser()
    if program is None:
        pytest.skip("no Chromium is installed here, so the page cannot be opened")
    with phone(program, tmp_path) as one:
        yield one


def centre_of(opened: Phone, link: str) -> tuple[float, float]:
    box = opened.run(
        f"(b => [b.x + b.width / 2, b.y + b.height / 2])(document.querySelector('a[href=\"#{link}\"]')"
        ".getBoundingClientRect())"
    )
    return box[0], box[1]


def test_in_a_browser_a_tapped_hole_shows_its_numbers_and_nothing_is_fetched(
    opened: Phone, tmp_path: Path
) -> None:
    plan = named("bath-stud-wall", About(title=HOSTILE))
    file = tmp_path / "phone.html"
    file.write_bytes(page(plan))
    opened.open(file)
    assert opened.run("document.title") == HOSTILE
    assert opened.run("document.querySelector('h1').textContent") == HOSTILE
    assert opened.run("document.documentElement.scrollWidth") <= 390
    first = drilled(plan)[0]
    opened.tap(*centre_of(opened, "hole-1"))
    told = opened.run("document.querySelector('.shown-hole').textContent")
    tile = first.tiles[0]
    assert first.hole.owner in told
    assert f"From left edge of tile {tile.across:g}" in told
    assert f"Above lower edge of tile {tile.up:g}" in told
    before = opened.run("document.querySelector('svg').getAttribute('viewBox')")
    opened.run("document.getElementById('closer').click()")
    assert opened.run("document.querySelector('svg').getAttribute('viewBox')") != before
    opened.run("document.getElementById('fit').click()")
    back = opened.run("document.querySelector('svg').getAttribute('viewBox')")
    assert [float(part) for part in back.split()] == pytest.approx([float(part) for part in before.split()])
    opened.picture(tmp_path / "light.png")
    assert opened.requests() == [file.as_uri()]
    assert opened.complaints() == []


def test_in_a_browser_without_script_a_hole_leads_to_its_row(opened: Phone, tmp_path: Path) -> None:
    file = tmp_path / "phone.html"
    file.write_bytes(page(sample("alcove-760")))
    opened.open(file, dark=True, script=False)
    opened.tap(*centre_of(opened, "hole-1"))
    assert opened.run("location.hash") == "#hole-1"
    assert opened.run("getComputedStyle(document.body).backgroundColor") == "rgb(22, 25, 28)"  # the dark one
    assert opened.run("getComputedStyle(document.querySelector('.buttons')).display") == "none"
    assert opened.complaints() == []
