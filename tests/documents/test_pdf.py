import json
import logging
import subprocess
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from django.template.loader import render_to_string

from shop.documents.pdf import ForeignAddressError, render

AT = datetime(2026, 11, 24, 9, 30, tzinfo=UTC)
SHEET = "<!doctype html><html lang='en-GB'><head><title>x</title></head><body><h1>Q-12</h1>{}</body></html>"


def told_by(tool: str, path: Path, *options: str) -> str:
    return subprocess.run([tool, *options, str(path)], check=True, capture_output=True, text=True).stdout


def test_the_same_input_gives_the_same_bytes() -> None:
    first, again = (render(SHEET.format(""), title="Quote Q-12", made_at=AT, attachment=b"{}") for _ in range(2))
    assert first == again
    assert first != render(SHEET.format(""), title="Quote Q-12", made_at=AT + timedelta(seconds=1), attachment=b"{}")


def test_the_file_is_archival_tagged_and_carries_its_data(tmp_path: Path) -> None:
    body = json.dumps({"gross": "15608.40", "name": "Ärmel"}).encode()
    path = tmp_path / "quote.pdf"
    path.write_bytes(
        render(SHEET.format(""), title="Quote Q-12", made_at=AT, attachment=body, attachment_name="quote.json")
    )
    facts = told_by("pdfinfo", path, "-isodates")
    assert "Title:           Quote Q-12" in facts and "Tagged:          yes" in facts
    assert "2026-11-24T09:30:00Z" in facts
    metadata = told_by("pdfinfo", path, "-meta")
    assert 'part="3"' in metadata and 'conformance="A"' in metadata
    assert "quote.json" in told_by("pdfdetach", path, "-list")
    subprocess.run(["pdfdetach", "-save", "1", "-o", str(tmp_path / "out.json"), str(path)], check=True)
    assert (tmp_path / "out.json").read_bytes() == body


@pytest.mark.parametrize("address", ["file:///etc/hostname", "http://127.0.0.1:9/x.png", "/etc/hostname", "x.png"])
def test_nothing_outside_the_document_is_opened(address: str, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.CRITICAL, "weasyprint")
    with pytest.raises(ForeignAddressError):
        render(SHEET.format(f'<img src="{address}" alt="x">'), title="x", made_at=AT)


def test_the_base_sheet_bears_the_house_and_escapes_what_people_wrote() -> None:
    html = render_to_string("print/base.html", {"house": {"name": "Salt & <Marsh>", "phone": "01632 960 200"}})
    assert "Salt &amp; &lt;Marsh&gt;" in html and "01632 960 200" in html
