"""An imported file comes out as it was sent, for whoever may import its kind."""

from django.core.files.uploadedfile import SimpleUploadedFile

from tests.cast import Cast
from tests.client import CheckedClient

BODY = b"\xef\xbb\xbfname;phone\r\n=1+1;0\r\n\x00"


def sent(client: CheckedClient, kind: str, name: str) -> str:
    upload = SimpleUploadedFile(name, BODY)
    answer = client.post("imports", {"kind": kind, "file": upload}, format="multipart")
    assert answer.status_code == 201, answer.content
    return f"imports/{answer.json()['id']}/original"


def test_it_has_the_bytes_and_the_name_that_were_sent(cast: Cast) -> None:
    advisor = cast.signed_in("advisor")
    answer = advisor.get(sent(advisor, "customers", "Kunden <März>.csv"))
    assert (answer.status_code, answer.content) == (200, BODY)
    assert answer["Content-Type"] == "application/octet-stream" and answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Content-Disposition"].startswith("attachment; filename")
    assert answer["Cache-Control"] == "no-store"


def test_who_may_not_import_a_kind_does_not_read_its_files(cast: Cast) -> None:
    path = sent(cast.signed_in("advisor"), "customers", "customers.csv")
    assert [cast.signed_in(role).get(path).status_code for role in ("parts", "technician")] == [403, 403]
    rules = sent(cast.signed_in("manager"), "rules", "rules.xlsx")
    assert cast.signed_in("advisor").get(rules).status_code == 403
