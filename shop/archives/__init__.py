"""Archives: a whole shop as one ZIP file, which another installation reads back, on either kind of database.

contents.py says which tables and columns belong to it, and in which order. cells.py writes a value as text and reads
it. manifest.py describes the file and checks it. taking.py writes an archive, reading.py puts it into a database.
moving.py takes all shops to PostgreSQL.

Rows keep their ids. Frozen texts, histories, count events and phones name rows by id, and an id is a UUID, so that two
installations never give the same one. No password, sign-in, or secret of a link leaves: a customer's link is stored as
a hash, and links by which people come in stay behind.
"""
