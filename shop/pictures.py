"""Reads a photograph from a phone, and encodes its pixels again.

What is kept is a JPEG of our own: no metadata (a place, an owner), no second file behind the picture.
"""

import io
from dataclasses import dataclass

from PIL import Image, ImageOps

MOST_BYTES = 6 * 1024 * 1024
MOST_PIXELS = 24_000_000
LONGEST_SIDE = 1600
SMALL_SIDE = 800  # of the copy on the customer's page
QUALITY = 85
MOST_SCANS = 64  # a phone writes one or some ten; each further one costs a pass over all pixels and 40 bytes
MEDIA_TYPE = "image/jpeg"
BEGINS = b"\xff\xd8\xff"
END, SCAN = 0xD9, 0xDA
FRAMES = frozenset({*range(0xC0, 0xD0)} - {0xC4, 0xC8, 0xCC})  # the segments that name width and height
ALONE = frozenset({0x01, *range(0xD0, 0xD8)})  # markers without a length


class PictureError(Exception):
    """The bytes are no photograph that is kept; `code` says why.

    `no_jpeg`, `more_than_a_picture` (bytes behind its end), `too_many_pixels`, `unreadable`.
    """

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Picture:
    """A JPEG with its size in pixels."""

    body: bytes
    width: int
    height: int


def picture_from(body: bytes, longest: int = LONGEST_SIDE) -> Picture:
    """The photograph, upright and at most `longest` pixels long. Nothing is decoded before its size is known."""
    if not body.startswith(BEGINS):
        raise PictureError("no_jpeg")
    width, height = _size(body)
    if width * height > MOST_PIXELS:
        raise PictureError("too_many_pixels")
    try:
        with Image.open(io.BytesIO(body), formats=["JPEG"]) as image:
            if image.width * image.height > MOST_PIXELS:
                raise PictureError("too_many_pixels")
            image.draft("RGB", (longest, longest))
            upright = ImageOps.exif_transpose(image).convert("RGB")
    except (OSError, SyntaxError, ValueError, TypeError, ZeroDivisionError) as error:
        raise PictureError("unreadable") from error
    upright.thumbnail((longest, longest))
    plain = Image.new("RGB", upright.size)
    plain.paste(upright)  # the pixels without what else the image carries
    written = io.BytesIO()
    plain.save(written, "JPEG", quality=QUALITY, optimize=True)
    return Picture(written.getvalue(), plain.width, plain.height)


def _size(body: bytes) -> tuple[int, int]:
    """(width, height) of the first frame. Walks the segments to the end of the picture, which has to end the file."""
    place, frame, scans = 2, (0, 0), 0
    try:
        while True:
            if body[place] != 0xFF:
                raise PictureError("unreadable")
            marker = body[place + 1]
            if marker == 0xFF:  # a fill byte
                place += 1
            elif marker == END:
                break
            elif marker in ALONE:
                place += 2
            else:
                length = int.from_bytes(body[place + 2 : place + 4], "big")
                if length < 2:
                    raise PictureError("unreadable")
                if marker in FRAMES and frame == (0, 0):
                    numbers = body[place + 5 : place + 9]
                    frame = int.from_bytes(numbers[2:], "big"), int.from_bytes(numbers[:2], "big")
                place += 2 + length
                if marker == SCAN:
                    place, scans = _after_scan(body, place), scans + 1
    except IndexError:
        raise PictureError("unreadable") from None
    if body[place + 2 :].strip(b"\0"):
        raise PictureError("more_than_a_picture")
    if 0 in frame or scans > MOST_SCANS:
        raise PictureError("unreadable")
    return frame


def _after_scan(body: bytes, place: int) -> int:
    """The place of the next marker behind the compressed data, in which FF 00 is a byte and FF D0 to D7 restart it."""
    while True:
        place = body.find(b"\xff", place)
        if place < 0:
            raise PictureError("unreadable")
        if body[place + 1] != 0 and not 0xD0 <= body[place + 1] <= 0xD7:
            return place
        place += 2
