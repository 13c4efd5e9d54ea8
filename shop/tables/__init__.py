"""Reads a table from a file: XLSX, CSV and pasted text to typed rows and findings, without Django's models.

`engine` reads a file for a kind: it finds the header, maps its columns and reads each cell. What it cannot read is a
`Finding` with its row and column; `wording` puts findings into sentences. `registry` lists the kinds of all apps.
"""
