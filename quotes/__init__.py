"""Quotes, their frozen issues, customer links and answers. May import kitting and shop; nothing imports it."""
