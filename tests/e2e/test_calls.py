"""Whole calls of the command: statuses, streams, restart, undo, and two calls over one notebook."""

from __future__ import annotations

import os
import sqlite3
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from conftest import Bakery

FIELDS = {
    "request": str,
    "read_as": str,
    "kind": str,
    "answer": dict,
    "assumed": list,
    "cautions": list,
    "sources": list,
    "unread": list,
    "text": str,
}
KINDS = {
    "formula", "conversion", "timing", "feed", "water", "plan", "loads", "swap", "mend", "bath", "topping", "diagnosis",
    "explanation", "cost", "nutrition", "setting", "record", "recall", "progress", "card", "help", "unread", "refused",
}  # fmt: skip
FORMULA = {
    "pieces", "piece_g", "loss_pct", "dough_g", "bread", "flour_g", "water_g", "hydration_pct", "salt_pct",
    "salt_total_pct", "starter_pct", "prefermented_pct", "mix", "starter",
}  # fmt: skip


def test_the_fields_of_a_reply_are_pinned(bakery: Bakery) -> None:
    lines = "18 rolls of 90 g at 65 %\nhelp\nundo\nslipway tholepin\nset salt to 2.2 %\n18 rolls of 0 g\n"
    done = bakery.call("--json", lines=lines)
    assert len(done.replies) == 6 and done.err == ""
    for reply, line in zip(done.replies, lines.splitlines(), strict=True):
        assert list(reply)[: len(FIELDS)] == list(FIELDS)
        assert all(isinstance(reply[name], kind) for name, kind in FIELDS.items())
        listed = [*reply["assumed"], *reply["cautions"], *reply["sources"], *reply["unread"]]
        assert all(isinstance(said, str) for said in listed)
        assert reply["kind"] in KINDS and reply["request"] == line


def test_the_fields_of_a_formula_are_pinned(bakery: Bakery) -> None:
    answer = bakery.call("--json", "24 ring rolls of 85 g at 58 %, 18 % starter").replies[0]["answer"]
    assert set(answer) >= FORMULA
    assert all(set(row) >= {"item", "name", "g", "pct"} for row in answer["mix"])
    assert set(answer["starter"]) >= {"g", "hydration_pct", "flour_g", "water_g"}
    assert sum(row["g"] for row in answer["mix"]) == pytest.approx(answer["dough_g"], abs=0.5)


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["18 rolls of 90 g at 65 %"], 0),
        (["-18 rolls of 90 g"], 2),
        (["--", "-18 rolls of 90 g"], 2),
        (["slipway tholepin"], 2),
        (["--jsn"], 2),
        (["--file", "there is no such file"], 1),
        (["--home", "~nosuchbaker/bench", "help"], 1),
        (["--file", "-"], 0),
        (["--help"], 0),
        (["--version"], 0),
    ],
)
def test_statuses(bakery: Bakery, arguments: list[str], status: int) -> None:
    done = bakery.call(*arguments)
    assert done.status == status and "Traceback" not in done.out + done.err


def test_what_was_said_is_there_after_a_restart_and_can_be_taken_back(bakery: Bakery) -> None:
    assert bakery.call("18 rolls of 90 g at 65 %").status == 0
    (changed,) = bakery.call("--json", "and at 68 %?").replies
    assert changed["answer"]["pieces"] == 18 and changed["answer"]["hydration_pct"] == pytest.approx(68, abs=0.1)
    assert bakery.call("help").status == 0
    (undone,) = bakery.call("--json", "undo").replies
    assert undone["kind"] == "formula" and undone["answer"]["hydration_pct"] == pytest.approx(65, abs=0.1)


def test_a_call_that_ended_leaves_one_file(bakery: Bakery) -> None:
    for arguments, lines in ((["18 rolls of 90 g"], ""), ([], "and for 40?\n"), (["--file", "-"], "make it 68\n")):
        assert bakery.call(*arguments, lines=lines).status == 0
        assert [path.name for path in bakery.home.iterdir()] == ["notebook.sqlite3"]
    assert bakery.call("--json", "show again").replies[0]["answer"]["pieces"] == 40


def test_a_locked_notebook_answers_a_question_and_says_it_was_not_kept(bakery: Bakery) -> None:
    bakery.call("18 rolls of 90 g at 65 %")
    hand = sqlite3.connect(bakery.home / "notebook.sqlite3", isolation_level=None)
    hand.execute("BEGIN IMMEDIATE")
    done = bakery.call("how long is bulk at 22")
    hand.execute("ROLLBACK")
    assert done.status == 0 and "Not kept: another program is writing in the notebook." in done.out


def test_a_fresh_start_has_no_bake_in_hand_but_keeps_the_settings(bakery: Bakery) -> None:
    bakery.call(lines="set salt to 2.4 %\n18 rolls of 90 g at 65 %\n")
    (reply,) = bakery.call("--json", "--fresh", "12 rolls of 80 g").replies
    assert reply["answer"]["salt_pct"] == pytest.approx(2.4, abs=0.05)
    (again,) = bakery.call("--json", "show again").replies
    assert again["answer"]["pieces"] == 12


def test_a_chat_and_a_single_call_share_one_notebook(bakery: Bakery) -> None:
    chat = subprocess.Popen(
        bakery.command("--json"),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=bakery.elsewhere,
        env=bakery.environment(),
        text=True,
    )
    assert chat.stdin is not None and chat.stdout is not None
    chat.stdin.write("18 rolls of 90 g at 65 %\n")
    chat.stdin.flush()
    assert '"pieces":18' in chat.stdout.readline(), "the reply comes before the next line is sent"
    bakery.call("and for 40?")
    chat.stdin.write("show again\n")
    chat.stdin.flush()
    assert '"pieces":40' in chat.stdout.readline()
    chat.stdin.close()
    assert chat.wait(30) == 0
    chat.stdout.close()


LOCALES = [{"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, {"LC_ALL": "C.UTF-8"}]


@pytest.mark.parametrize("locale", LOCALES)
def test_utf8_goes_in_and_comes_out_whatever_the_locale(bakery: Bakery, locale: dict[str, str]) -> None:
    line = "18 brötchen of 90 g at 65 %, kitchen 20 °C"
    assert bakery.call("--json", lines=line + "\n", **locale).replies[0]["request"] == line
    assert bakery.call("--json", line, **locale).replies[0]["request"] == line


def test_a_closed_pipe_ends_quietly(bakery: Bakery) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    call = subprocess.Popen(
        bakery.command(),
        stdin=subprocess.PIPE,
        stdout=writing,
        stderr=subprocess.PIPE,
        cwd=bakery.elsewhere,
        env=bakery.environment(),
    )
    os.close(writing)
    _, told = call.communicate(b"help\n" * 50, timeout=60)
    assert told == b""


def test_an_output_that_takes_nothing_is_one_line(bakery: Bakery) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            bakery.command("help"), stdout=full, stderr=subprocess.PIPE, cwd=bakery.elsewhere, env=bakery.environment()
        )
    assert done.returncode == 1
    assert done.stderr.count(b"\n") == 1 and b"could not be written" in done.stderr


def test_no_output_and_no_input_are_no_fault(bakery: Bakery) -> None:
    call = " ".join(bakery.command("help")) + " >&-"
    done = subprocess.run(["sh", "-c", call], stderr=subprocess.PIPE, cwd=bakery.elsewhere, env=bakery.environment())
    assert (done.returncode, done.stderr) == (0, b"")
    call = " ".join(bakery.command()) + " <&-"
    done = subprocess.run(["sh", "-c", call], stderr=subprocess.PIPE, cwd=bakery.elsewhere, env=bakery.environment())
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_damaged_notebook_is_one_line_and_the_answer_still_comes(bakery: Bakery) -> None:
    bakery.call("18 rolls of 90 g at 65 %")
    notebook = bakery.home / "notebook.sqlite3"
    notebook.write_bytes(b"flour and water " * 400)
    done = bakery.call("--json", "18 rolls of 90 g at 65 %")
    assert done.status == 0 and done.replies[0]["kind"] == "formula"
    assert done.err.count("\n") == 1 and str(notebook) in done.err
    kept = bakery.call("--json", "set salt to 2.2 %")
    assert kept.status == 2 and "the notebook cannot be used" in kept.replies[0]["answer"]["why"]
    assert notebook.read_bytes() == b"flour and water " * 400


def test_a_bad_file_of_the_bakers_own_is_named_and_the_rest_works(bakery: Bakery) -> None:
    own = bakery.home / "knowledge" / "ingredients"
    own.mkdir(parents=True)
    (own / "mine.yaml").write_text("club_mix: {name: Club mix, sweetness: very}\n")
    done = bakery.call("--json", "18 rolls of 90 g at 65 %")
    assert done.status == 0 and done.replies[0]["kind"] == "formula"
    assert "mine.yaml" in done.err and "Traceback" not in done.err


def test_versions_are_told(bakery: Bakery) -> None:
    told = bakery.call("--version").out
    assert told.startswith("benchside ") and "contract 1, notebook 2, knowledge " in told
