"""A photograph of the bare wall as an image: read with care, laid flat, kept beside the job, bounded in size.

The perspective is worked out in `geometry.photo`; here are the pixels. Beside `wall.json` stand
`wall.photo.jpg` and `wall.photo.json`, which holds the four points and the strength.
"""

import json
import math
from pathlib import Path
from typing import NamedTuple

import msgspec
import numpy as np
from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader, QPainter, QTransform

from export.atomic import write_atomically
from geometry.decoding import decoded, utf8_text
from geometry.photo import Backdrop, Perspective
from geometry.shape.outline import Bounds

MOST_BYTES = 40_000_000
"""A photograph of a phone is 3 to 15 MB."""
MOST_PIXELS = 120_000_000
"""Four bytes each while it is read; phones take 12 to 108 million."""
KEPT = 2400
"""Pixels of the longer side of what is kept: 1 mm of a wall of 2400."""
KINDS = (b"jpeg", b"jpg", b"png", b"bmp", b"webp")
"""Formats that are pictures of pixels and nothing else."""
PICTURES = (".jpeg", ".jpg", ".png", ".bmp", ".webp")
"""How the names of their files end."""
QUALITY = 85  # of the kept file, 0 to 100
MOST_TEXT = 10_000  # bytes of the points beside it


class Photo(NamedTuple):
    """A photograph as it is kept, and how it lies behind the drawing; its points are pixels of it."""

    image: QImage
    backdrop: Backdrop


def read_photograph(data: bytes, name: str) -> QImage:
    """Read a photograph, turned upright as the camera says, and no larger than is kept.

    Args:
        data: of the file.
        name: what to call it in a message.

    Raises:
        ValueError: it is too large, no picture, or a broken one; says which.
    """
    if len(data) > MOST_BYTES:
        raise ValueError(f"{name}: too large for a photograph: {len(data) // 1_000_000} MB, at most 40 MB")
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)
    if not reader.canRead() or reader.format().data() not in KINDS:
        raise ValueError(f"{name}: not a photograph that can be read: take JPEG, PNG, BMP or WebP")
    size = reader.size()
    if not size.isValid():
        raise ValueError(f"{name}: broken or cut short: it cannot be read whole")
    if size.width() * size.height() > MOST_PIXELS:
        shown = f"{size.width()} x {size.height()} pixels"
        raise ValueError(f"{name}: too large for a photograph: {shown}, at most 120 million pixels")
    if max(size.width(), size.height()) > KEPT:
        reader.setScaledSize(size.scaled(QSize(KEPT, KEPT), Qt.AspectRatioMode.KeepAspectRatio))
    image = reader.read()
    if image.isNull():
        raise ValueError(f"{name}: broken or cut short: it cannot be read whole")
    return image.convertToFormat(QImage.Format.Format_RGB32)


def flattened(image: QImage, held: Perspective, window: Bounds) -> QImage:
    """Return what a photograph shows of the wall, to scale, without perspective; clear where it shows none.

    Args:
        image: the photograph.
        held: its perspective.
        window: left, lower, right and upper edge of what is wanted, in mm on the wall.
    """
    x0, y0, x1, y1 = window
    per_mm = min(1.0, KEPT / max(x1 - x0, y1 - y0))
    wide, high = max(1, math.ceil((x1 - x0) * per_mm)), max(1, math.ceil((y1 - y0) * per_mm))
    flat = QImage(wide, high, QImage.Format.Format_ARGB32_Premultiplied)
    flat.fill(Qt.GlobalColor.transparent)
    onto_pixels = np.array([[per_mm, 0.0, -x0 * per_mm], [0.0, -per_mm, y1 * per_mm], [0.0, 0.0, 1.0]])
    painter = QPainter(flat)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.setTransform(QTransform(*(onto_pixels @ held.onto_wall).T.ravel().tolist()))
    painter.drawImage(0, 0, image)
    painter.end()
    return flat


# beside the job


def save_beside(job: Path, photo: Photo) -> None:
    """Write a photograph and how it lies beside a job's file, each whole or not at all.

    Raises:
        OSError: a file cannot be written.
        ValueError: the image cannot be kept.
    """
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not photo.image.save(buffer, "JPG", QUALITY):  # type: ignore[call-overload]
        raise ValueError("the photograph cannot be kept as JPEG")
    write_atomically(_files(job)[0], bytes(buffer.data().data()))
    save_points_beside(job, photo.backdrop)


def save_points_beside(job: Path, backdrop: Backdrop) -> None:
    """Write how the photograph lies that is beside a job's file already; OSError if it cannot be written."""
    write_atomically(_files(job)[1], msgspec.json.format(msgspec.json.encode(backdrop), indent=2) + b"\n")


def remove_beside(job: Path) -> None:
    """Remove what is beside a job's file, if anything; OSError if it cannot be removed."""
    for file in _files(job):
        file.unlink(missing_ok=True)


def load_beside(job: Path) -> Photo | None:
    """Read the photograph beside a job's file, or None if there is none.

    Raises:
        OSError: a file cannot be read.
        ValueError: a file is broken; the message names it.
    """
    picture, points = _files(job)
    if not (picture.is_file() and points.is_file()):
        return None
    with points.open("rb") as file:
        text = file.read(MOST_TEXT + 1)
    try:
        if len(text) > MOST_TEXT:
            raise ValueError("too large")
        backdrop = decoded(json.loads(utf8_text(text)), Backdrop)
    except (ValueError, RecursionError) as problem:
        raise ValueError(f"{points.name}: {' '.join(str(problem).split())}") from None
    if picture.stat().st_size > MOST_BYTES:
        raise ValueError(f"{picture.name}: too large for a photograph")
    return Photo(read_photograph(picture.read_bytes(), picture.name), backdrop)


def _files(job: Path) -> tuple[Path, Path]:
    return job.with_suffix(".photo.jpg"), job.with_suffix(".photo.json")
