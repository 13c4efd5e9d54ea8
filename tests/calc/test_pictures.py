"""A photograph is written again from its pixels alone; what is no photograph is refused."""

import io
import zipfile
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from shop.pictures import PictureError, picture_from


def jpeg(width: int = 40, height: int = 30, mode: str = "RGB", **options: Any) -> bytes:
    written = io.BytesIO()
    Image.new(mode, (width, height), "gray" if mode == "L" else (90, 60, 30) if mode == "RGB" else 0).save(
        written, "JPEG", **options
    )
    return written.getvalue()


def with_place(width: int = 40, height: int = 30) -> bytes:
    """A photograph with a place, an owner and the note that it lies on its side."""
    exif = Image.Exif()
    exif[0x0112], exif[0x013B] = 6, "Anwen Holloway"
    exif.get_ifd(0x8825)[2] = (47.0, 48.0, 12.0)
    return jpeg(width, height, exif=exif, comment=b"taken at home")


def refusal(body: bytes) -> str:
    with pytest.raises(PictureError) as refused:
        picture_from(body)
    return refused.value.code


def opened(body: bytes) -> Image.Image:
    return Image.open(io.BytesIO(body), formats=["JPEG"])


def test_metadata_is_gone_and_the_picture_stands_upright() -> None:
    body = with_place()
    assert b"Anwen" in body and b"taken at home" in body
    picture = picture_from(body)
    assert (picture.width, picture.height) == (30, 40)
    assert not opened(picture.body).getexif() and "comment" not in opened(picture.body).info
    assert b"Anwen" not in picture.body and b"taken at home" not in picture.body


@pytest.mark.parametrize(
    ("size", "becomes"), [((3200, 400), (1600, 200)), ((400, 3200), (200, 1600)), ((9, 7), (9, 7))]
)
def test_it_is_at_most_1600_pixels_long(size: tuple[int, int], becomes: tuple[int, int]) -> None:
    picture = picture_from(jpeg(*size))
    assert (picture.width, picture.height) == becomes == opened(picture.body).size


@pytest.mark.parametrize(
    "options", [{"progressive": True}, {"mode": "L"}, {"mode": "CMYK"}, {"restart_marker_blocks": 1}]
)
def test_every_kind_of_jpeg_is_read(options: dict[str, Any]) -> None:
    assert opened(picture_from(jpeg(**options)).body).mode == "RGB"


def bomb(body: bytes, width: int, height: int) -> bytes:
    """The photograph with another size in its header."""
    at = body.index(b"\xff\xc0") + 5
    return body[:at] + height.to_bytes(2, "big") + width.to_bytes(2, "big") + body[at + 4 :]


def test_a_bomb_is_refused_before_it_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Image, "open", lambda *_, **__: pytest.fail("it was opened"))
    assert refusal(bomb(jpeg(), 65_000, 65_000)) == "too_many_pixels"
    assert refusal(bomb(jpeg(), 6_001, 4_000)) == "too_many_pixels"  # 24,004,000


def test_a_picture_of_endless_passes_is_refused_before_it_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    body = jpeg(progressive=True)
    last = body[body.rindex(b"\xff\xda") : -2]
    assert picture_from(body[:-2] + last * 40 + body[-2:]).width == 40
    monkeypatch.setattr(Image, "open", lambda *args, **kw: pytest.fail("decoded"))
    assert refusal(body[:-2] + last * 100 + body[-2:]) == "unreadable"


def test_24_megapixels_are_read() -> None:
    assert picture_from(jpeg(6_000, 4_000)).width == 1600


def zipped() -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        archive.writestr("run.js", "alert(1)")
    return written.getvalue()


@pytest.mark.parametrize("behind", [b"<script>alert(1)</script>", zipped(), b"%PDF-1.7", jpeg()])
def test_a_file_behind_the_picture_is_refused(behind: bytes) -> None:
    assert refusal(jpeg() + behind) == "more_than_a_picture"


def test_empty_bytes_behind_the_picture_are_no_file() -> None:
    assert picture_from(jpeg() + bytes(7)).width == 40


def test_text_within_the_picture_is_left_out() -> None:
    assert b"<script>" not in picture_from(jpeg(comment=b"<script>alert(1)</script>")).body


def other(form: str) -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (4, 4)).save(written, form)
    return written.getvalue()


@pytest.mark.parametrize("body", [b"", b"GIF89a", other("PNG"), other("GIF"), other("WEBP"), b"<svg/>", b"%PDF-1.7"])
def test_another_kind_of_file_is_refused(body: bytes) -> None:
    assert refusal(body) == "no_jpeg"


def test_half_a_photograph_is_refused() -> None:
    body = jpeg(200, 200, quality=95)
    assert {refusal(body[:end]) for end in range(3, len(body) - 2, 7)} == {"unreadable"}


@given(place=st.integers(3, 600), value=st.integers(0, 255))
def test_a_damaged_photograph_is_read_or_refused(place: int, value: int) -> None:
    body = bytearray(jpeg())
    body[place % len(body)] = value
    try:
        picture = picture_from(bytes(body))
    except PictureError as error:
        assert error.code in ("no_jpeg", "unreadable", "too_many_pixels", "more_than_a_picture")
    else:
        assert max(picture.width, picture.height) <= 1600
