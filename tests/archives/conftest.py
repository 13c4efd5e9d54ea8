"""An exported shop, beside its installation and beside an empty one."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.conf import DEFAULT_STORAGE_ALIAS
from django.core.files.storage import default_storage, storages
from django.core.management import call_command
from django.utils.functional import empty

from kitting.models import PullLine, PullList
from shop.access import Actor
from shop.archives.taking import export_shop
from shop.models import Outbox
from shop.services.entry_links import invite, make_password_link
from tests.cast import Cast, make_cast
from tests.factories import CustomerFactory, PartFactory
from tests.kitting.stage import Phone, send
from tests.quotes.stage import make_stage

NOW = datetime(2026, 11, 28, 6, 0, tzinfo=UTC)
KEPT: list[bytes] = []  # one archive, for all tests that read it into an empty installation


@pytest.fixture
def cast(transactional_db: None) -> Cast:
    return make_cast()


@pytest.fixture
def address(cast: Cast) -> str:
    return make_address(cast)


def make_address(cast: Cast) -> str:
    """The address of an accepted quote of a shop that also has a sent one, a count, a waiting message and odd texts."""
    stage = make_stage(cast)
    stage.sent()
    url = str(stage.accepted()["link"]["url"])
    pull_list = PullList.objects.get(shop=cast.shop)
    line = PullLine.objects.filter(pull_list=pull_list).order_by("position")[0]
    send(cast.signed_in("parts"), pull_list, Phone(pull_list).event(line, total=3))
    Outbox.objects.create(
        shop=cast.shop, kind="link", subject_id=line.pk, body={"sealed": "ab" * 32}, asked_at=NOW, due_at=NOW
    )
    manager = Actor(shop=cast.shop, member=cast.manager)
    invite(actor=manager, email="new@saltmarsh.example", role="parts", now=NOW)
    make_password_link(actor=manager, member=cast.parts, now=NOW)
    older = PartFactory(shop=cast.shop, number="OLD")  # its id is lower than that of the part that follows it
    older.superseded_by = PartFactory(shop=cast.shop, number="NEW")
    older.save()
    CustomerFactory(shop=cast.shop, name='\\N "and", co;\u2003ü', address="=1+1\\N")
    return url


@pytest.fixture
def file(address: str, tmp_path: Path) -> Path:
    export_shop("saltmarsh", tmp_path / "shop.zip", NOW)
    return tmp_path / "shop.zip"


@pytest.fixture
def exported(transactional_db: None, tmp_path: Path) -> Path:
    """The exported file, with an empty installation."""
    if not KEPT:
        make_address(make_cast())
        export_shop("saltmarsh", tmp_path / "kept.zip", NOW)
        KEPT.append((tmp_path / "kept.zip").read_bytes())
    (tmp_path / "shop.zip").write_bytes(KEPT[0])
    empty_installation()
    return tmp_path / "shop.zip"


def empty_installation() -> None:
    call_command("flush", interactive=False, verbosity=0)
    storages._storages.pop(DEFAULT_STORAGE_ALIAS, None)
    default_storage._wrapped = empty
