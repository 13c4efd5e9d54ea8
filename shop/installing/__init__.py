"""The files of an installed server, filled in for one machine: services and timers, settings, and the proxy in front.

`files/` holds them as they are read, with @NAMES@ for what differs. site.py checks what differs and fills it in.
"""
