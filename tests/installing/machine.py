"""The files of `manage.py unit` in a folder, and their commands run as systemd would run them."""

import getpass
import os
import shlex
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.core.management import call_command

from tests import database
from tests.drills.installation import free_port

ROOT = Path(settings.BASE_DIR)


@dataclass
class Machine:
    root: Path  # stands for /
    data: Path
    backups: Path
    port: int

    @property
    def units(self) -> list[Path]:
        return sorted((self.root / "etc/systemd/system").iterdir())

    @property
    def settings_file(self) -> Path:
        return self.root / "etc/kitwright/settings"

    @property
    def environment(self) -> dict[str, str]:
        """The environment that systemd gives the service: the settings, and next to nothing of the caller's."""
        lines = [line for line in self.settings_file.read_text().splitlines() if line and not line.startswith("#")]
        caller = {name: os.environ[name] for name in ("PATH", "HOME", "LANG", "TMPDIR") if name in os.environ}
        return caller | dict(line.split("=", 1) for line in lines)

    def command_of(self, unit: str) -> list[str]:
        return shlex.split(self.value(unit, "ExecStart"))

    def value(self, unit: str, name: str) -> str:
        text = (self.root / "etc/systemd/system" / unit).read_text()
        [value] = [line.partition("=")[2] for line in text.splitlines() if line.startswith(f"{name}=")]
        return value

    def run(
        self, command: list[str], environment: dict[str, str] | None = None, typed: str = ""
    ) -> subprocess.CompletedProcess[str]:
        """`typed` is the command's standard input."""
        return subprocess.run(
            command,
            cwd=ROOT,
            env=environment or self.environment,
            input=typed,
            capture_output=True,
            text=True,
            timeout=300,
        )

    def manage(self, *arguments: str, typed: str = "") -> str:
        """The output of the installed command `kitwright`."""
        command = [str(self.root / "usr/local/sbin/kitwright"), *arguments]
        done = self.run(command, dict(os.environ) | {"SECRET_KEY": ""}, typed)
        assert done.returncode == 0, f"{arguments}: {done.stdout}\n{done.stderr}"
        return done.stdout.strip()

    def make_tables(self) -> None:
        """The database as `kitwright migrate` makes it, in a tenth of the time."""
        file = self.data / "kitwright.sqlite3"
        database.copy(database.migrated(settings.VAR_DIR), file)
        file.chmod(0o600)

    @contextmanager
    def served(self) -> Iterator[subprocess.Popen[str]]:
        """The service's own command, until it listens."""
        process = subprocess.Popen(
            self.command_of("kitwright.service"),
            cwd=self.value("kitwright.service", "WorkingDirectory"),
            env=self.environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        try:
            assert process.stdout is not None
            first = process.stdout.readline()
            assert first == f"Listening on http://127.0.0.1:{self.port}\n", first + process.stdout.read()
            yield process
        finally:
            process.kill()
            process.communicate()


def make_machine(folder: Path, host: str = "shop.example", **options: object) -> Machine:
    machine = Machine(folder / "root", folder / "data", folder / "backups", free_port())
    machine.data.mkdir(mode=0o700)
    call_command(
        "unit",
        host,
        backup=machine.backups,
        keep=2,
        user=getpass.getuser(),
        data=machine.data,
        env_file=machine.settings_file,
        listen=f"127.0.0.1:{machine.port}",
        into=machine.root,
        **options,
    )
    # --env-file names the place on the machine; here all of it lies below the folder.
    below = machine.root / machine.settings_file.relative_to("/")
    machine.settings_file.parent.mkdir(parents=True)
    below.rename(machine.settings_file)
    assert sys.executable in machine.value("kitwright.service", "ExecStart")
    return machine
