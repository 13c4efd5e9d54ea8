"""Without a mail server an e-mail is read where the server was started."""

import io

from django.core.mail import EmailMessage

from shop.outbox.console import ConsoleBackend


def test_text_is_written_and_a_paper_is_named() -> None:
    output = io.StringIO()
    mail = EmailMessage("Your quote", "Good morning\x1b[2J,\n\nhere it is.", "a@shop.example", ["maren@mail.example"])
    mail.attach("Q-1.pdf", b"%PDF-1.7" + b"x" * 5000, "application/pdf")
    assert ConsoleBackend(stream=output).send_messages([mail]) == 1
    lines = [line for line in output.getvalue().splitlines() if not set(line) <= {"-"}]
    assert lines == [
        "E-mail to maren@mail.example: Your quote",
        "Good morning[2J,",
        "here it is.",
        "[attached: Q-1.pdf]",
    ]
