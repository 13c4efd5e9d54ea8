"""Backups: a dated folder with the database, the media and a manifest, and how to restore it.

manifest.py reads, writes and checks the folder. sqlite_part.py and postgres_part.py handle their databases.
new_epoch.py has the changes to a restored database. take.py and restore.py make and restore a backup.
"""
