"""An instant is written in one format everywhere in an answer."""

import pytest
from django.http import HttpResponse

from shop.encoding import encode
from tests.client import check


@pytest.mark.parametrize("other", ["2026-07-01T10:30:00+00:00", "2026-07-01T12:30:00+02:00", "2026-07-01 10:30:00Z"])
def test_the_client_of_the_tests_refuses_every_other_spelling(other: str) -> None:
    body = encode({"anything": [{"at": other}]})
    with pytest.raises(AssertionError, match="for an instant"):
        check("get", "/api/v1/shops/x/jobs", HttpResponse(body, content_type="application/json", status=200))
