"""Imports of files, completely or not at all. `engine` reads a file; `kinds` lists this app's kinds of file.

The contract of a kind: `tables` and `title` describe the content of a file, `plan(file) -> ImportPreview` is pure,
`check(actor, plan) -> ImportPreview` compares with the shop and writes nothing, `write(actor, plan, day)` writes
inside the caller's transaction. Only the kinds use Django.
"""
