"""A photograph of the bare wall as an image: read with care, laid flat, kept beside the job, bounded in size.

The perspective is worked out in `geometry.photo`; here are the pixels. Beside `wall.json` stand
`wall.photo.jpg` and `wall.photo.json`, which holds the four points and the strength.
"""

import json
import math
from pathlib import Path

import msgspec
import numpy as np
from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader

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
QUALITY = 85  # of the kept file, 0 to 100
MOST_TEXT = 10_000  # bytes of the points beside it


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
    if not size.isValid() or size.width() * size.height() > MOST_PIXELS:
        shown = f"{size.width()} x {size.height()} pixels" if size.isValid() else "of unknown size"
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
    seen = _pixels(image)
    flat = np.zeros((high, wide, 4), dtype=np.uint8)
    xs = x0 + (np.arange(wide) + 0.5) / per_mm
    for row in range(high):
        y = y1 - (row + 0.5) / per_mm
        at = held.to_picture(np.column_stack([xs, np.full(wide, y)]))
        flat[row] = _sampled(seen, at)
    made = QImage(flat.tobytes(), wide, high, 4 * wide, QImage.Format.Format_ARGB32)
    return made.copy()  # its own pixels: those of the array are freed


def _pixels(image: QImage) -> "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]":
    """Return the pixels of an image, row by row from the top: blue, green, red, cover."""
    held = image.convertToFormat(QImage.Format.Format_ARGB32)
    bits = np.frombuffer(held.constBits(), dtype=np.uint8)
    rows = bits.reshape(held.height(), held.bytesPerLine())[:, : 4 * held.width()]
    return rows.reshape(held.height(), held.width(), 4).copy()


def _sampled(
    seen: "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]",
    at: "np.ndarray[tuple[int, ...], np.dtype[np.float64]]",
) -> "np.ndarray[tuple[int, ...], np.dtype[np.uint8]]":
    """Return the colours at points of a picture, between its pixels; clear outside it."""
    high, wide = seen.shape[:2]
    inside = np.isfinite(at).all(axis=1) & (at >= 0).all(axis=1) & (at[:, 0] < wide) & (at[:, 1] < high)
    points = np.where(inside[:, None], at, 0.0) - 0.5
    low = np.floor(points).astype(np.int64)
    share = points - low
    total = np.zeros((len(at), 4))
    for dx in (0, 1):
        for dy in (0, 1):
            x = np.clip(low[:, 0] + dx, 0, wide - 1)
            y = np.clip(low[:, 1] + dy, 0, high - 1)
            weight = np.abs(1 - dx - share[:, 0]) * np.abs(1 - dy - share[:, 1])
            total += weight[:, None] * seen[y, x]
    total[~inside] = 0.0
    return np.rint(total).astype(np.uint8)


# beside the job


def save_beside(job: Path, image: QImage, backdrop: Backdrop) -> None:
    """Write the photograph and how it lies beside a job's file, each whole or not at all.

    Args:
        job: the file of the job.
        image: as `read_photograph` gave it; the points of the backdrop are pixels of it.
        backdrop: how it lies.

    Raises:
        OSError: a file cannot be written.
        ValueError: the image cannot be kept.
    """
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not image.save(buffer, "JPG", QUALITY):  # type: ignore[call-overload]
        raise ValueError("the photograph cannot be kept as JPEG")
    picture, points = _files(job)
    write_atomically(picture, bytes(buffer.data().data()))
    write_atomically(points, msgspec.json.format(msgspec.json.encode(backdrop), indent=2) + b"\n")


def load_beside(job: Path) -> tuple[QImage, Backdrop] | None:
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
    return read_photograph(picture.read_bytes(), picture.name), backdrop


def _files(job: Path) -> tuple[Path, Path]:
    return job.with_suffix(".photo.jpg"), job.with_suffix(".photo.json")
