"""The thread that sends the messages of the outbox, beside the server."""

import logging

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from shop.calc.mailing import Failure
from shop.models import Outbox
from shop.outbox.delivery import Deliver, deliver
from shop.services import outbox
from shop.services.forgotten import answer_next_request
from shop.services.outbox_kinds import KINDS, NotWantedError
from shop.worker import Worker

log = logging.getLogger(__name__)


def send_next(deliver: Deliver = deliver) -> bool:
    """Sends the message that is due longest; False where none is due."""
    row = outbox.begin_next(timezone.now())
    if row is None:
        return False
    try:
        with transaction.atomic():
            message = KINDS[row.kind].write(row, timezone.now())
        message.message()  # raises what a header cannot hold, before anything is begun with the server
    except NotWantedError as error:
        outbox.drop(row, now=timezone.now(), reason=error.reason)
        return True
    except Exception:
        log.exception("message %s cannot be written", row.pk)
        outbox.fail(row, Failure("not_written", lasting=True), now=timezone.now())
        return True
    failure = deliver(message)
    if failure is None:
        outbox.finish(row, now=timezone.now(), reason="" if settings.MAIL_IS_SENT else "console")
    else:
        _failed(row, failure)
    return True


def _failed(row: Outbox, failure: Failure) -> None:
    log.warning("message %s was not sent: %s", row.pk, failure.code)  # no address and no words of the server
    outbox.fail(row, failure, now=timezone.now())


def work_next() -> bool:
    """Answers the next request for a password, else sends the next message; False where there is nothing to do."""
    return answer_next_request(now=timezone.now()) or send_next()


worker = Worker("outbox", work_next, outbox.written)
