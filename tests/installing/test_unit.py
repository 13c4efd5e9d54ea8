"""`manage.py unit` writes files that systemd accepts, and their commands serve, back up and purge."""

import signal
import subprocess
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from tests.installing.machine import Machine, make_machine


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    return make_machine(tmp_path)


def verified(units: list[Path]) -> str:
    """The remarks of systemd about units. Fails where systemd-analyze is missing: .make/setup.sh test installs it."""
    done = subprocess.run(["systemd-analyze", "verify", "--man=no", *units], capture_output=True, text=True)
    return f"{done.stdout}{done.stderr}{'' if done.returncode == 0 else f'ended with {done.returncode}'}"


def test_systemd_has_nothing_to_say_about_the_units(machine: Machine) -> None:
    assert [unit.name for unit in machine.units] == [
        "kitwright-backup.service",
        "kitwright-backup.timer",
        "kitwright-purge.service",
        "kitwright-purge.timer",
        "kitwright.service",
    ]
    assert verified(machine.units) == ""


@pytest.mark.parametrize(
    ("text", "broken"),
    [
        ("ProtectSystem=strict", "ProtectsSystem=strict"),
        ("OnCalendar=*-*-* 02:30", "OnCalendar=*-*-* 25:30"),
        ("/python", "/no-python"),
    ],
)
def test_systemd_would_say_what_is_wrong(machine: Machine, text: str, broken: str) -> None:
    for unit in machine.units:
        unit.write_text(unit.read_text().replace(text, broken))
    assert verified(machine.units)


def test_the_server_cannot_write_what_is_not_its_own(machine: Machine) -> None:
    unit = machine.root / "etc/systemd/system/kitwright.service"
    done = subprocess.run(["systemd-analyze", "security", "--offline=true", unit], capture_output=True, text=True)
    exposure = float(done.stdout.partition("exposure level for kitwright.service: ")[2].split()[0])
    assert exposure < 3, done.stdout
    assert machine.value("kitwright.service", "ReadWritePaths") == str(machine.data)
    assert machine.value("kitwright-backup.service", "ReadWritePaths") == f"{machine.data} {machine.backups}"


@pytest.mark.drill
def test_its_commands_serve_back_up_and_purge(machine: Machine) -> None:
    machine.make_tables()
    with machine.served() as server:
        assert status(machine, "elsewhere.example") == 400
        assert status(machine, "shop.example", "https") == 200
        assert status(machine, "shop.example", "http") == 301
        for expected in (1, 2, 2):
            done = machine.run(machine.command_of("kitwright-backup.service"))
            assert done.returncode == 0, done.stderr
            assert Path(done.stdout.splitlines()[0]).parent == machine.backups
            assert len(list(machine.backups.iterdir())) == expected
        assert "old answers dropped" in machine.run(machine.command_of("kitwright-purge.service")).stdout
        server.send_signal(signal.SIGTERM)
        assert server.wait(60) == 0, "systemd would start it again"


def status(machine: Machine, host: str, scheme: str = "https") -> int:
    request = urllib.request.Request(
        f"http://127.0.0.1:{machine.port}/", headers={"Host": host, "X-Forwarded-Proto": scheme}
    )
    opener = urllib.request.build_opener(_Stays)
    try:
        with opener.open(request, timeout=60) as response:
            return int(response.status)
    except urllib.error.HTTPError as refusal:
        return refusal.code


class _Stays(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *args: object) -> None:
        return None


def test_a_check_for_production_has_nothing_to_say(machine: Machine) -> None:
    assert machine.environment.get("SECRET_KEY") is None, "the server keeps a key of its own"
    done = machine.run([*machine.command_of("kitwright-purge.service")[:2], "check", "--deploy", "--fail-level=INFO"])
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "System check identified no issues (2 silenced).\n"
    without = machine.environment | {"HTTPS_ONLY": "false"}
    done = machine.run([*machine.command_of("kitwright-purge.service")[:2], "check", "--deploy"], without)
    assert "security.W008" in done.stderr


def test_without_a_folder_for_backups_there_is_no_timer_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    call_command("unit", "shop.example")
    printed = capsys.readouterr().out
    assert "# /etc/systemd/system/kitwright.service\n[Unit]" in printed and "kitwright-backup" not in printed


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({"data": Path("/srv/my data")}, "without spaces"),
        ({"backup": Path("backups")}, "a path from /"),
        ({"env_file": Path("/etc/a%b")}, "letters, digits"),
        ({"user": "Kit wright"}, "name of a user"),
        ({"listen": "0.0.0.0:8000"}, "a port of this machine"),
        ({"listen": "127.0.0.1:70000"}, "a port of this machine"),
        ({"backup": Path("/b"), "keep": 0}, "at least 1"),
    ],
)
def test_what_cannot_stand_in_a_unit_is_refused(options: dict[str, object], message: str) -> None:
    with pytest.raises(CommandError, match=message):
        call_command("unit", "shop.example", **options)


@pytest.mark.parametrize("host", ["https://shop.example", "shop_example", "shop.example;", "x-.example", ""])
def test_what_is_no_host_is_refused(host: str) -> None:
    with pytest.raises(CommandError, match="not a host name"):
        call_command("unit", host)


def test_a_folder_that_is_there_is_left_alone(tmp_path: Path) -> None:
    with pytest.raises(CommandError, match="File exists"):
        call_command("unit", "shop.example", into=tmp_path)
