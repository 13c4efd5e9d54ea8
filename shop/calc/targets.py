"""The addresses that a webhook may go to: a name or number on the public Internet, over HTTPS.

Prevents server-side request forgery: by an address of its choice a person could make the server call itself, its own
network or a cloud's metadata service.
"""

import ipaddress
import re
from dataclasses import dataclass
from urllib.parse import urlsplit

LONGEST = 500
PORTS = {"https": 443, "http": 80}
PRINTED = re.compile(r"[!-~]+")
# Special-purpose networks (IANA) beside those that `is_global` refuses, in whatever release of Python.
REFUSED_V4 = [
    ipaddress.ip_network(network)
    for network in ("0.0.0.0/8", "100.64.0.0/10", "192.0.0.0/24", "192.88.99.0/24", "198.18.0.0/15", "240.0.0.0/4")
]
# Global unicast, but for documentation and what wraps an IPv4 address: Teredo (in 2001::/23) and 6to4. NAT64
# (64:ff9b::/96) and IPv4-mapped addresses lie outside global unicast.
GLOBAL_V6 = ipaddress.ip_network("2000::/3")
REFUSED_V6 = [ipaddress.ip_network(network) for network in ("2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20")]


class TargetError(Exception):
    """The address cannot be used. `code` says why: address, https, unknown_host or private."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True, slots=True)
class Target:
    """A parsed address. `path` has the query, `host` is in lower case and without brackets."""

    secure: bool
    host: str
    port: int
    path: str


def read_target(url: str, *, http_allowed: bool) -> Target:
    """The parsed address. TargetError for one that is malformed, has a person or a fragment, or is not HTTPS."""
    if len(url) > LONGEST or not PRINTED.fullmatch(url):
        raise TargetError("address")
    try:
        parts = urlsplit(url)
        host, port = parts.hostname, parts.port
    except ValueError:
        raise TargetError("address") from None
    if parts.scheme not in PORTS or not host or port == 0 or "@" in parts.netloc or "#" in url or "\\" in url:
        raise TargetError("address")
    if parts.scheme == "http" and not http_allowed:
        raise TargetError("https")
    path = (parts.path or "/") + (f"?{parts.query}" if parts.query else "")
    return Target(parts.scheme == "https", host, port or PORTS[parts.scheme], path)


def is_public(address: str) -> bool:
    """Whether an IP address is one of the public Internet; False for one that cannot be read."""
    try:
        ip = ipaddress.ip_address(address)
    except ValueError:
        return False
    if not ip.is_global or ip.is_multicast or ip.is_reserved:
        return False
    if isinstance(ip, ipaddress.IPv6Address):
        return ip.scope_id is None and ip in GLOBAL_V6 and not any(ip in network for network in REFUSED_V6)
    return not any(ip in network for network in REFUSED_V4)
