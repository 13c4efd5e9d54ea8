"""One installed server, and its files with the place that each of them has on the machine."""

import re
from dataclasses import dataclass
from pathlib import Path

FILES: Path = Path(__file__).parent / "files"
SYSTEM = Path("/etc/systemd/system")
PURE_PATH = re.compile(r"/[A-Za-z0-9._+/-]*")  # needs no quotes in a unit, a shell or the proxy's configuration
USER = re.compile(r"[a-z_][a-z0-9_-]{0,31}")
HOST = re.compile(r"(?=.{1,253}$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*")
LISTEN = re.compile(r"(127\.0\.0\.1|\[::1\]):[1-9][0-9]{0,4}")
NAMED = re.compile(r"@([A-Z]+)@")


class SiteError(Exception):
    """Raised for a fact that cannot stand in the files. The message is for the person at the command line."""


@dataclass(frozen=True, slots=True)
class Site:
    """The facts in which one installation differs from another."""

    host: str  # the name in the customers' links
    checkout: Path
    python: Path
    user: str
    data: Path
    settings: Path
    listen: str
    certificate: Path
    key: Path
    backups: Path | None
    keep: int

    def __post_init__(self) -> None:
        if not HOST.fullmatch(self.host):
            raise SiteError(f"{self.host!r} is not a host name in small letters, such as shop.example.")
        for name in ("checkout", "python", "data", "settings", "certificate", "key", "backups"):
            path = getattr(self, name)
            if path is not None and not PURE_PATH.fullmatch(str(path)):
                raise SiteError(
                    f"{name}: {str(path)!r} is not a path from / of letters, digits and . _ + - without spaces."
                )
        if not USER.fullmatch(self.user):
            raise SiteError(f"--user: {self.user!r} is not the name of a user.")
        if not LISTEN.fullmatch(self.listen) or int(self.listen.rpartition(":")[2]) > 65535:
            raise SiteError(f"--listen: {self.listen!r} is not a port of this machine, such as 127.0.0.1:8000.")
        if self.keep < 1:
            raise SiteError("--keep: at least 1 backup is kept.")


def files(site: Site) -> dict[Path, str]:
    """{place on the machine: content}. Without a folder for backups there is no backup service and no timer of it."""
    places = {
        "kitwright.service": SYSTEM / "kitwright.service",
        "kitwright-purge.service": SYSTEM / "kitwright-purge.service",
        "kitwright-purge.timer": SYSTEM / "kitwright-purge.timer",
        "kitwright-backup.service": SYSTEM / "kitwright-backup.service",
        "kitwright-backup.timer": SYSTEM / "kitwright-backup.timer",
        "settings": site.settings,
        "kitwright": Path("/usr/local/sbin/kitwright"),
        "nginx.conf": Path("/etc/nginx/conf.d/kitwright.conf"),
    }
    if site.backups is None:
        places = {name: place for name, place in places.items() if "backup" not in name}
    return {place: _filled((FILES / name).read_text("utf-8"), site) for name, place in places.items()}


def _filled(text: str, site: Site) -> str:
    facts = {
        "HOST": site.host,
        "CHECKOUT": site.checkout,
        "PYTHON": site.python,
        "USER": site.user,
        "DATA": site.data,
        "SETTINGS": site.settings,
        "LISTEN": site.listen,
        "PROXY": "::1" if site.listen.startswith("[") else "127.0.0.1",
        "CERTIFICATE": site.certificate,
        "KEY": site.key,
        "BACKUPS": site.backups,
        "KEEP": site.keep,
    }
    return NAMED.sub(lambda match: str(facts[match[1]]), text)
