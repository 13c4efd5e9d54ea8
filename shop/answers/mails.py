from django.db.models import TextChoices


class MailState(TextChoices):
    """The state of an e-mail. `unsure`: it may have been sent or not, and a person decides."""

    WAITING = "waiting"
    BEGUN = "begun"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"
    UNSURE = "unsure"
