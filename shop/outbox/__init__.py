"""Messages that leave after a change: rows of the outbox, the thread that sends them, and the mail server."""
