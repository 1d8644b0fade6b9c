"""`coach serve`: who may open the screens in a browser, and what is said where nobody can."""

from __future__ import annotations

import importlib.util
import re
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from coach.cli import main
from coach.cli.in_browser import may_open, reached_at
from tests.browser.__main__ import free_port


@pytest.mark.parametrize(
    ("host", "origin"),
    [
        ("127.0.0.1:8000", None),
        ("localhost:8000", "http://localhost:8000"),
        ("[::1]:8000", None),
        ("127.0.0.2:8000", None),
    ],
)
def test_this_machine_opens_its_own_without_a_token(host: str, origin: str | None) -> None:
    assert may_open(token="", given="", host=host, origin=origin, own_machine=True) == ""


@pytest.mark.parametrize(
    ("host", "origin"),
    [
        ("127.0.0.1:8000", "http://elsewhere.example"),  # a page that stands open beside it
        ("elsewhere.example:8000", None),  # a name that was made to point here
        ("elsewhere.example:8000", "http://elsewhere.example:8000"),
        ("127.0.0.1:8000", "null"),
    ],
)
def test_another_page_in_the_same_browser_does_not(host: str, origin: str | None) -> None:
    assert "Another page" in may_open(token="", given="", host=host, origin=origin, own_machine=True)


@pytest.mark.parametrize("host", ["0.0.0.0", "::"])
def test_every_address_of_the_machine_is_told_as_one_that_a_tablet_can_open(host: str) -> None:
    told = reached_at(host)
    assert told not in ("0.0.0.0", "::", "")
    assert not any(one.isspace() for one in told)


def test_where_there_is_no_network_the_machine_s_name_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise OSError("Network is unreachable")

    monkeypatch.setattr(socket.socket, "connect", none)
    assert reached_at("0.0.0.0") == socket.gethostname()


def test_elsewhere_the_token_is_asked_for() -> None:
    def why(given: str) -> str:
        return may_open(token="right", given=given, host="192.168.1.5:8000", origin=None, own_machine=False)

    assert why("right") == ""
    assert "token" in why("")
    assert "token" in why("wröng")


def test_where_the_server_is_not_installed_it_says_what_adds_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    found = importlib.util.find_spec
    monkeypatch.setattr(
        importlib.util,
        "find_spec",
        lambda name, *more: None if name == "textual_serve" else found(name, *more),
    )
    assert main(["serve", "--shop", str(tmp_path / "shop.db")]) != 0
    assert "pip install 'between-heats[browser]'" in " ".join(capsys.readouterr().err.split())


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (["--port", "0"], "'0' is no port"),
        (["--port", "http"], "'http' is no port"),
        (["--host", "my tablet"], "'my tablet' is no address"),
        (["--host", "203.0.113.7"], "Nothing is served at 203.0.113.7"),  # RFC 5737: nobody's own
        (["--json"], "A screen cannot answer in JSON"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    typed: list[str], told: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert main(["serve", *typed, "--shop", str(tmp_path / "shop.db")]) != 0
    said = capsys.readouterr()
    assert told in " ".join((said.err + said.out).split())


def test_an_address_that_another_has_is_not_told_to_be_opened(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        assert main(["serve", "--port", str(port), "--shop", str(tmp_path / "shop.db")]) != 0
    said = capsys.readouterr()
    assert said.out == ""
    assert f"Nothing is served at 127.0.0.1, port {port}" in " ".join(said.err.split())


def test_a_served_shop_lets_in_who_has_the_token_and_keeps_it_out_of_the_address(tmp_path: Path) -> None:
    port = free_port()
    typed = ["serve", "--host", "0.0.0.0", "--port", str(port), "--shop", str(tmp_path / "shop.db")]
    serving = [sys.executable, "-m", "coach", *typed]
    with subprocess.Popen(serving, stdout=subprocess.PIPE, text=True) as served, ended(served):
        assert served.stdout is not None
        told = served.stdout.readline()
        found = re.search(r"http://[^/ ]+:\d+/\?token=(\S+)", told)
        assert found, told
        here = f"http://127.0.0.1:{port}/"
        _until_it_answers(here)
        with pytest.raises(urllib.error.HTTPError, match="403") as refused:
            urllib.request.urlopen(f"{here}?token=wrong")
        refused.value.close()
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
        with opener.open(f"{here}?token={found[1]}") as answer:
            assert answer.url == here
            assert f"ws://127.0.0.1:{port}/ws" in answer.read().decode()
        with opener.open(f"{here}static/js/textual.js") as answer:
            assert answer.status == 200


def test_what_asks_for_the_screens_without_a_socket_is_told_so_and_nothing_runs_over_the_terminal(
    tmp_path: Path,
) -> None:
    port = free_port()
    serving = [
        sys.executable,
        "-m",
        "coach",
        "serve",
        "--port",
        str(port),
        "--shop",
        str(tmp_path / "shop.db"),
    ]
    with subprocess.Popen(serving, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as served:
        assert served.stdout is not None
        with ended(served):
            here = f"http://127.0.0.1:{port}/"
            while here not in served.stdout.readline():
                pass
            for path in ("ws", "static/no-such-file", "download/none", "ws/../ws"):
                with pytest.raises(urllib.error.HTTPError, match=r"40[04]") as refused:
                    urllib.request.urlopen(f"{here}{path}")
                refused.value.close()
            with socket.create_connection(("127.0.0.1", port)) as line:
                line.sendall(b"no request at all\r\n\r\n")
                line.recv(100)
        told = served.stdout.read()
    assert "Traceback" not in told
    assert "Error" not in told


@contextmanager
def ended(served: subprocess.Popen[str]) -> Iterator[None]:
    """Once all is looked at, the server is ended as Ctrl+C ends it."""
    try:
        yield
    finally:
        served.terminate()
        served.wait(20)


def _until_it_answers(here: str) -> None:
    """Ask until somebody listens there, who refuses what has no token."""
    while True:
        try:
            urllib.request.urlopen(here)
        except urllib.error.HTTPError as refused:
            refused.close()
            return
        except urllib.error.URLError:
            continue
