"""The files of an installed server, filled in for one machine: services and timers, settings, and the proxy in front.

`files/` holds them with @NAMES@ in place of the values that differ. site.py checks these values and fills them in.
"""
