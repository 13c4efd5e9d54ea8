"""Run as a module: `put N URL` makes a webhook and that many trial messages, `later` lets the time of a try pass.

Each prints the state of every message.
"""

import json
import sys

import tests.environment  # noqa: F401  (before Django's settings)


def main(act: str, number: str = "0", url: str = "") -> None:
    import django

    django.setup()
    from django.utils import timezone

    from shop.access import Actor
    from shop.models import Member, WebhookMessage
    from shop.services.webhooks import make_webhook, send_trial

    if act == "put":
        member = Member.objects.select_related("shop").get(role="manager", shop__slug="saltmarsh")
        actor = Actor(shop=member.shop, member=member)
        webhook, _ = make_webhook(actor=actor, title="Screen", url=url, events=["quote.sent"], now=timezone.now())
        for _ in range(int(number)):
            send_trial(actor=actor, webhook=webhook, now=timezone.now())
    if act == "later":
        WebhookMessage.objects.filter(state="begun").update(due_at=timezone.now())
    print(json.dumps({f"msg_{id}": state for id, state in WebhookMessage.objects.values_list("pk", "state")}))


if __name__ == "__main__":
    import os

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shop.settings")
    main(*sys.argv[1:])
