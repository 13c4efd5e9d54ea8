from django.apps import apps
from django.db import connection, models
from django.test.utils import isolate_apps

from shop.models import Customer
from shop.rows import ShopKey, ShopRow
from tests.architecture.registry import faults

OURS = ("shop", "kitting", "quotes")


def our_models() -> list[type[models.Model]]:
    return [model for app in OURS for model in apps.get_app_config(app).get_models()]


def test_every_row_belongs_to_a_shop_and_every_key_stays_in_it() -> None:
    assert faults(our_models()) == []


@isolate_apps("shop")
def test_planted_faults_are_found() -> None:
    class Loose(models.Model):  # noqa: DJ008
        class Meta:
            app_label = "shop"

    class Open(ShopRow):
        customer = ShopKey(Customer)
        plain = models.ForeignKey(Customer, models.PROTECT, related_name="+")
        code = models.CharField(max_length=4, unique=True)

        class Meta:
            app_label = "shop"
            indexes = [models.Index(fields=["code"], name="open_by_code")]

    words = "\n".join(faults([Loose, Open]))
    for fault in (
        "Loose is not a row of a shop",
        "Open has no unique (shop, id)",
        "Open.customer could point to another shop's row",
        "Open.customer has no index",
        "Open.plain could point",
        "('code',) is not led by shop",
    ):
        assert fault in words


def test_every_composite_key_is_in_the_database(db: None) -> None:
    from shop.constraints import Refuse, SameShop

    declared = {c.name for m in our_models() for c in m._meta.constraints if isinstance(c, SameShop)}
    refused = {c.name for m in our_models() for c in m._meta.constraints if isinstance(c, Refuse)}
    assert declared and refused
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL")
            constraints = "\n".join(row[0] for row in cursor.fetchall())
            assert [name for name in declared | refused if name not in constraints] == []
        else:
            cursor.execute("SELECT conname FROM pg_constraint UNION SELECT tgname FROM pg_trigger")
            assert declared | refused <= {row[0] for row in cursor.fetchall()}
