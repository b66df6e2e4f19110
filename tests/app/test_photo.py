"""Photographs of the wall: laid flat to scale, kept beside the job, hostile ones refused in one line."""

import struct
import zlib
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QBuffer, QIODevice, QPointF
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from app.document import Document
from app.files import InputError
from app.photo import KEPT, MOST_BYTES, Photo, flattened, load_beside, read_photograph, save_beside
from app.store import Store
from geometry.parts.catalogue import generic_parts
from geometry.photo import Backdrop, perspective
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.camera import ASKEW, CORNERS, MARKS

WALL = (0.0, 0.0, 2000.0, 2400.0)


def taken() -> QImage:
    """A picture by our camera: a red disc of 5 pixels at each mark on a grey wall."""
    image = QImage(ASKEW.width, ASKEW.height, QImage.Format.Format_RGB32)
    image.fill(QColor(128, 128, 128))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(QColor(255, 0, 0))
    painter.setPen(QColor(255, 0, 0))
    for at in MARKS:
        painter.drawEllipse(QPointF(*ASKEW.sees(at)), 5.0, 5.0)
    painter.end()
    return image


def encoded(image: QImage, kind: str = "PNG") -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(buffer, kind)  # type: ignore[call-overload]
    return bytes(buffer.data().data())


def test_ten_marks_come_back_within_two_millimetres(qtbot: QtBot) -> None:
    image = read_photograph(encoded(taken()), "wall.png")
    flat = flattened(image, perspective([ASKEW.sees(at) for at in CORNERS], CORNERS), WALL)
    assert (flat.width(), flat.height()) == (2000, 2400)  # a pixel for each mm
    bits = np.frombuffer(flat.constBits(), dtype=np.uint8).reshape(2400, 2000, 4).astype(float)
    red = np.clip(bits[:, :, 2] - bits[:, :, 1], 0, None)
    for x, y in MARKS:
        left, top = round(x) - 40, 2400 - round(y) - 40
        patch = red[top : top + 80, left : left + 80]
        rows, columns = np.mgrid[0:80, 0:80]
        found = (
            left + float((patch * (columns + 0.5)).sum() / patch.sum()),
            2400 - (top + float((patch * (rows + 0.5)).sum() / patch.sum())),
        )
        assert np.hypot(found[0] - x, found[1] - y) < 2.0


def test_where_the_photograph_shows_no_wall_it_is_clear(qtbot: QtBot) -> None:
    held = perspective([ASKEW.sees(at) for at in CORNERS], CORNERS)
    flat = flattened(taken(), held, (-9000.0, 0.0, -8000.0, 1000.0))
    assert flat.pixelColor(500, 500).alpha() == 0


def test_what_lies_behind_the_camera_is_clear(qtbot: QtBot) -> None:
    # turned by 14 degrees it looks along a wall no farther left than 200 - 3000 / tan(14) = -11832
    held = perspective([ASKEW.sees(at) for at in CORNERS], CORNERS)
    flat = flattened(taken(), held, (-20000.0, 0.0, -12000.0, 2400.0))
    assert {flat.pixelColor(x, y).alpha() for x in range(0, flat.width(), 50) for y in (0, 300, 600)} == {0}


def test_a_photograph_is_kept_beside_the_job_at_a_bounded_size(qtbot: QtBot, tmp_path: Path) -> None:
    large = QImage(4000, 3000, QImage.Format.Format_RGB32)
    large.fill(QColor(200, 180, 160))
    image = read_photograph(encoded(large, "JPG"), "large.jpg")
    assert max(image.width(), image.height()) == KEPT
    corners = ((10.0, 1700.0), (2300.0, 1700.0), (2300.0, 10.0), (10.0, 10.0))
    backdrop = Backdrop(picture=corners, wall=((0, 0), (900, 0), (900, 700), (0, 700)), strength=0.3)
    job = tmp_path / "wall.json"
    assert load_beside(job) is None
    save_beside(job, Photo(image, backdrop))
    assert {path.name for path in tmp_path.iterdir()} == {"wall.photo.jpg", "wall.photo.json"}
    found = load_beside(job)
    assert found is not None
    assert found.backdrop == backdrop
    assert found.image.size() == image.size()
    assert (tmp_path / "wall.photo.jpg").stat().st_size < 2_000_000


def bomb(width: int, height: int) -> bytes:
    """A PNG of some hundred bytes whose head says that it is huge."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "not a photograph"),
        (b"\x00\xff" * 500, "not a photograph"),
        (
            b"<svg xmlns='http://www.w3.org/2000/svg'><image href='file:///etc/hostname'/></svg>",
            "not a photograph",
        ),
        (b"GIF89a" + bytes(40), "not a photograph"),
        (bomb(60_000, 60_000), "too large for a photograph: 60000 x 60000 pixels"),
        (bytes(MOST_BYTES + 1), "too large for a photograph: 40 MB"),
    ],
)
@pytest.mark.no_qt_log  # what the decoder says of a broken file is not a fault of ours
def test_hostile_files_are_refused_in_one_clear_line(qtbot: QtBot, data: bytes, message: str) -> None:
    with pytest.raises(ValueError, match=message) as caught:
        read_photograph(data, "evil.png")
    assert str(caught.value).startswith("evil.png: ")
    assert "\n" not in str(caught.value)


@pytest.mark.no_qt_log  # the decoder warns of the missing end
def test_a_photograph_cut_short_is_refused(qtbot: QtBot) -> None:
    whole = encoded(taken())
    with pytest.raises(ValueError, match="cut short"):
        read_photograph(whole[: len(whole) // 2], "half.png")


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"picture": [[1, 1]], "wall": []}', "[" * 5000, "x" * 20_000]
)
def test_points_that_cannot_be_read_name_their_file(qtbot: QtBot, tmp_path: Path, text: str) -> None:
    (tmp_path / "wall.photo.jpg").write_bytes(encoded(taken(), "JPG"))
    (tmp_path / "wall.photo.json").write_text(text)
    with pytest.raises(ValueError, match=r"^wall\.photo\.json: "):
        load_beside(tmp_path / "wall.json")


# the store


def a_photo() -> Photo:
    image = QImage(40, 30, QImage.Format.Format_RGB32)
    image.fill(QColor(10, 20, 30))
    corners = ((0.0, 30.0), (40.0, 30.0), (40.0, 0.0), (0.0, 0.0))
    return Photo(image, Backdrop(picture=corners, wall=((0, 0), (900, 0), (900, 700), (0, 700))))


@pytest.fixture
def store(qtbot: QtBot, tmp_path: Path) -> Iterator[Store]:
    """A store whose job has a file."""
    document = Document(suggested_job(760, 760, "left"), generic_parts(), standard_rules())
    made = Store(document, tmp_path / "locks")
    made.save_as(tmp_path / "wall.json")
    yield made
    made.close()


def test_a_photograph_follows_the_job_to_another_file(store: Store, tmp_path: Path) -> None:
    store.document.keep_photo(a_photo())
    store.save_as(tmp_path / "copy.json")
    assert (tmp_path / "wall.photo.jpg").is_file()
    assert (tmp_path / "copy.photo.jpg").is_file()
    store.document.keep_photo(None)
    assert (tmp_path / "wall.photo.jpg").is_file()
    assert not (tmp_path / "copy.photo.jpg").exists()


def test_a_job_that_is_only_looked_at_keeps_its_photograph(store: Store, tmp_path: Path) -> None:
    store.document.keep_photo(a_photo())
    other = Store(
        Document(store.document.job, generic_parts(), standard_rules(), store.document), tmp_path / "locks"
    )
    other.open(tmp_path / "wall.json", look_only=True)
    assert other.document.photo is not None
    other.document.keep_photo(None)
    assert (tmp_path / "wall.photo.jpg").is_file()
    assert not other.document.is_saved  # to be saved elsewhere
    other.close()


def test_a_photograph_that_cannot_be_kept_is_refused(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError("No space left on device")

    monkeypatch.setattr("app.photo.write_atomically", full)
    with pytest.raises(InputError, match=r"^The photograph beside wall\.json could not be kept: No space"):
        store.document.keep_photo(a_photo())
    assert store.document.photo is None


def test_only_the_points_are_written_when_only_they_change(store: Store, tmp_path: Path) -> None:
    photo = a_photo()
    store.document.keep_photo(photo)
    (tmp_path / "wall.photo.jpg").write_bytes(b"as it was")
    store.document.keep_photo(photo._replace(backdrop=photo.backdrop.but(strength=0.2)))
    assert (tmp_path / "wall.photo.jpg").read_bytes() == b"as it was"
    assert '"strength": 0.2' in (tmp_path / "wall.photo.json").read_text()
