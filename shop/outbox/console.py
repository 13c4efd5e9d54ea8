"""Writes e-mails to the server's output as a person reads them."""

from django.core.mail import EmailMessage
from django.core.mail.backends.console import EmailBackend


class ConsoleBackend(EmailBackend):
    def write_message(self, message: EmailMessage) -> None:
        """Writes the address, the subject, the text and the names of attached files.

        A paper written out would fill thirty screens, and a character that is not printed could command a terminal.
        """
        attached = [f"[attached: {part.get_filename()}]" for part in message.message().walk() if part.get_filename()]
        lines = [f"E-mail to {', '.join(message.to)}: {message.subject}", *str(message.body).splitlines(), *attached]
        for line in lines:
            self.stream.write("".join(character for character in line if character.isprintable()) + "\n")
