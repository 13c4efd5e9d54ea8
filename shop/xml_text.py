"""Text for XML 1.0, which cannot hold every character that a database can (section 2.2)."""

import re

NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def xml_text(text: str) -> str:
    """The text, with U+FFFD for each character that XML cannot hold."""
    return NOT_IN_XML.sub("\ufffd", text)
