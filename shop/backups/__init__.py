"""Backups: a dated folder with the database, the media and a manifest, and how it is put back.

manifest.py reads, writes and checks the folder; sqlite_part.py and postgres_part.py know their database; new_epoch.py
says what changes in a database that was put back; take.py and restore.py are the two ways through them.
"""
