"""The thread that sends the messages of the outbox, beside the server."""

import logging
import time
from threading import Event, Thread

from django.conf import settings
from django.db import close_old_connections, connection, transaction
from django.utils import timezone

from shop.calc.mailing import Failure
from shop.models import Outbox
from shop.outbox.delivery import Deliver, deliver
from shop.services import outbox
from shop.services.forgotten import answer_next_request
from shop.services.outbox_kinds import KINDS, NotWantedError

log = logging.getLogger(__name__)
SECONDS = 5  # between two looks, for messages of other processes and for further tries
LONGEST_STOP = 60  # seconds for the message that is being sent: the mail server's longest silence, several times
STUCK = 2 * LONGEST_STOP


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


class Worker:
    """The thread of this process. `looked_at` is the second of its last look at the outbox, by a monotonic clock."""

    looked_at: int | None = None

    def __init__(self) -> None:
        self._stopped = Event()
        self._thread = Thread(target=self._work, name="outbox", daemon=True)

    def start(self) -> None:
        if self._thread.ident is None:
            self._thread.start()

    def stop(self) -> None:
        """Waits for the message that is being sent. The others stay in the outbox."""
        self._stopped.set()
        outbox.written.set()
        if self._thread.is_alive():
            self._thread.join(LONGEST_STOP)

    def is_alive(self) -> bool:
        """True if the thread runs and is not stuck in a message."""
        looked_at = self.looked_at
        return self._thread.is_alive() and looked_at is not None and time.monotonic() - looked_at < STUCK

    def _work(self) -> None:
        while not self._stopped.is_set():
            outbox.written.clear()
            close_old_connections()
            self.looked_at = int(time.monotonic())
            try:
                while not self._stopped.is_set() and work_next():
                    self.looked_at = int(time.monotonic())
            except Exception:  # the database: a person sees it in the log, and the next look tries again
                log.exception("the outbox was not worked through")
            outbox.written.wait(SECONDS)
        connection.close()


worker = Worker()
