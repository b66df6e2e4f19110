"""What a user types in a title appears as typed in every file, whatever it would mean to the format."""

import io
import json
from pathlib import Path

import ezdxf.recover
import pypdfium2
import pytest

from app.cli import main
from tests.samples import sample_path

PLAIN = ("<b>Łazienka</b> & 50%", "%%c %%d 100%", r"\P {\L} \U+0041", "Zażółć gęślą jaźń", "a<br/>&amp;b")
HEBREW = "מקלחת 760"


def packed(title: str, folder: Path) -> None:
    job = json.loads(sample_path("alcove-760").read_text(encoding="utf-8"))
    job["about"]["title"] = title
    path = folder / "job.json"
    path.write_text(json.dumps(job), encoding="utf-8")
    assert main(["pack", str(path), "-o", str(folder), "--only", "elevation", "full-size", "dxf"]) == 0


def pdf_text(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def dxf_texts(path: Path) -> list[str]:
    document, _ = ezdxf.recover.read(io.BytesIO(path.read_bytes()))
    spaces = (document.modelspace(), *(layout for layout in document.layouts if layout.name != "Model"))
    return [str(e.plain_text()) for space in spaces for e in space.query("TEXT")]  # type: ignore[attr-defined]


@pytest.mark.parametrize("title", PLAIN)
def test_a_title_appears_as_typed(title: str, tmp_path: Path) -> None:
    packed(title, tmp_path)
    assert title in pdf_text(tmp_path / "elevation.pdf")
    assert title in pdf_text(tmp_path / "full-size.pdf")
    assert title in dxf_texts(tmp_path / "elevation_mm.dxf")


def test_a_right_to_left_title_is_seen_in_its_order(tmp_path: Path) -> None:
    packed(HEBREW, tmp_path)
    assert HEBREW in dxf_texts(tmp_path / "elevation_mm.dxf")
    page = pypdfium2.PdfDocument(tmp_path / "elevation.pdf")[0].get_textpage()
    letters: dict[str, float] = {}
    for index in range(page.count_chars()):
        letter = page.get_text_range(index, 1)
        if letter in "מקלחת" and letter.strip():
            letters.setdefault(letter, page.get_charbox(index)[0])
    assert letters["מ"] > letters["ק"] > letters["ל"] > letters["ח"] > letters["ת"]
