"""The base app's kinds of file, imported completely or not at all. `shop.tables` reads the files.

The contract of a kind: `tables` and `title` describe the content of a file, `plan(file) -> ImportPreview` is pure,
`check(actor, plan) -> ImportPreview` compares with the shop and writes nothing, `write(actor, plan, day)` writes
inside the caller's transaction.
"""
