"""The command around any conversation: statuses, JSON lines, faults of ours, a closed pipe."""

import io
import json
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from assistant.command.options import Call
from assistant.command.run import run


class Said:
    def __init__(self, kind: str, text: str) -> None:
        self.kind, self.text = kind, text

    def as_json(self) -> dict[str, Any]:
        return {"request": "as the conversation got it", "kind": self.kind, "text": self.text}

    def render(self, width: int | None, more: bool = False) -> str:
        return self.text


class Parrot:
    """Answers each line with itself; some words make it do otherwise."""

    def __init__(self, call: Call, home: Path) -> None:
        self.call = call

    def reply(self, text: str) -> Said:
        if "explode" in text:
            raise ValueError("flour dust")
        return Said("refused" if "lye in the water" in text else "unread" if "slipway" in text else "formula", text)

    def close(self) -> None:
        pass


Piped = Callable[[bytes], None]


@pytest.fixture
def piped(monkeypatch: pytest.MonkeyPatch) -> Piped:
    def fill(text: bytes) -> None:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text), encoding="ascii"))

    return fill


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BENCHSIDE_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def test_one_request_leaves_standard_input_alone(piped: Piped, capsys: pytest.CaptureFixture[str]) -> None:
    piped(b"never read\n")
    assert run(["18 rolls"], Parrot) == 0
    assert capsys.readouterr().out == "18 rolls\n"
    assert sys.stdin.read() == "never read\n"


@pytest.mark.parametrize(("request_", "status"), [("18 rolls", 0), ("slipway", 2), ("lye in the water", 2)])
def test_the_status_says_whether_it_was_answered(request_: str, status: int) -> None:
    assert run([request_], Parrot) == status


def test_every_piped_line_gets_its_reply(piped: Piped, capsys: pytest.CaptureFixture[str], home: Path) -> None:
    piped("18 rolls\n# remark\n\nexplode\nslipway\nbröd\n<<<\n1 g flour\n\n1 g water\n>>>\n".encode())
    assert run(["--json"], Parrot) == 1
    replies = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [reply["request"] for reply in replies] == [
        "18 rolls",
        "explode",
        "slipway",
        "bröd",
        "1 g flour\n\n1 g water",
    ]
    assert [reply["kind"] for reply in replies] == ["formula", "refused", "unread", "formula", "formula"]


@pytest.mark.parametrize(("lines", "status"), [(b"a\nb\n", 0), (b"a\nslipway\nb\n", 2), (b"", 0)])
def test_a_piped_run_ends_0_when_all_was_answered(piped: Piped, lines: bytes, status: int) -> None:
    piped(lines)
    assert run([], Parrot) == status


def test_replies_in_words_stand_apart(piped: Piped, capsys: pytest.CaptureFixture[str]) -> None:
    piped(b"a\nb\n")
    run([], Parrot)
    assert capsys.readouterr().out == "a\n\nb\n"


def test_lines_may_come_from_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("a\nb\n")
    assert run(["--file", str(lines)], Parrot) == 0
    assert capsys.readouterr().out == "a\n\nb\n"
    assert run(["--file", str(tmp_path / "none.txt")], Parrot) == 1
    assert "none.txt cannot be read" in capsys.readouterr().err


def test_a_fault_of_ours_is_one_line_and_a_private_log(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explode now"], Parrot) == 1
    shown = capsys.readouterr()
    log = home / "faults.log"
    assert shown.out.count("\n") == 1 and str(log) in shown.out and "Traceback" not in shown.out + shown.err
    assert "flour dust" in log.read_text() and "explode now" in log.read_text()
    assert stat.S_IMODE(log.stat().st_mode) == 0o600


def test_the_log_rotates_and_stays_private(home: Path) -> None:
    run(["explode"], Parrot)
    (home / "faults.log").write_text("x" * 256_000)
    run(["explode"], Parrot)
    assert (home / "faults.log.1").exists()
    assert {stat.S_IMODE(path.stat().st_mode) for path in home.glob("faults.log*")} == {0o600}


def test_a_fault_before_the_first_line_is_one_line_too(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def broken(call: Call, home: Path) -> Parrot:
        raise RuntimeError("no shelf")

    assert run(["18 rolls"], broken) == 1
    shown = capsys.readouterr()
    assert shown.out == "" and shown.err.count("\n") == 1 and "Traceback" not in shown.err


def test_a_request_beyond_bounds_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--json", "roll " * 4000], Parrot) == 2
    reply = json.loads(capsys.readouterr().out)
    assert reply["kind"] == "refused" and "10,000" in reply["answer"]["why"] and reply["request"] == "roll " * 4000


def test_escape_sequences_reach_neither_reader_nor_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    run(["18 rolls \x1b[2J\x9b31m"], Parrot)
    assert capsys.readouterr().out == "18 rolls \n"
    run(["--json", "18 rolls \x1b[2J\x9b31m"], Parrot)
    line = capsys.readouterr().out
    assert "\x1b" not in line and "\x9b" not in line
    assert json.loads(line)["request"] == "18 rolls \x1b[2J\x9b31m"


def test_options_that_make_no_sense_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--jsn"], Parrot) == 2
    shown = capsys.readouterr()
    assert shown.out == "" and "--jsn" in shown.err and shown.err.count("\n") == 1


def test_help_names_every_option(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--help"], Parrot) == 0
    shown = capsys.readouterr().out
    for option in ("--file", "--json", "--now", "--home", "--fresh", "--version", "--help", "BENCHSIDE_HOME"):
        assert option in shown
