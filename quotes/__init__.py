"""Quotes, their frozen revisions, customer links and answers. May import kitting and shop; nothing imports it."""
