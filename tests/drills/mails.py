"""Run as a module: `put N` asks for that many e-mails of the sent quote, `states` prints what became of each."""

import json
import sys

import tests.environment  # noqa: F401  (before Django's settings)


def main(act: str, number: int = 0) -> None:
    import django

    django.setup()
    from django.utils import timezone

    from quotes.access import newest_sent
    from quotes.models import Quote
    from quotes.services.mails import send_link
    from shop.access import Actor
    from shop.models import Outbox

    if act == "put":
        quote = Quote.objects.select_related("shop", "customer").get()
        newest, actor = newest_sent(quote), Actor(shop=quote.shop, member=quote.advisor)
        assert newest is not None
        for n in range(number):
            facts = {"recipient": "Maren", "digest": newest.digest, "site": "http://workshop.example"}
            send_link(actor=actor, quote=quote, to=f"maren-{n}@mail.example", now=timezone.now(), **facts)
    rows = Outbox.objects.order_by("asked_at", "id").values_list("id", "body__to", "state")
    print(json.dumps([[str(id), to, state] for id, to, state in rows]))


if __name__ == "__main__":
    import os

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
    main(sys.argv[1], *map(int, sys.argv[2:]))
