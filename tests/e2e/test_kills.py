"""A hundred kills at any moment: nothing that was acknowledged is lost, and the notebook opens after each."""

import json
import os
import random
import signal
import sys
import threading
from datetime import datetime
from pathlib import Path

from assistant.command.options import Call
from assistant.command.run import run
from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import load

KILLS = 100
KB = load()  # once, so that each child spends its life writing rather than loading


def opened(call: Call, home: Path) -> Conversation:
    return Conversation(KB, Notebook.open(home), now=lambda: datetime(2026, 3, 15, 6, 30))


def piped_run(home: Path) -> tuple[int, int, int]:
    """The command in a child with everything loaded; (its process, where its lines go, where its replies come)."""
    their_lines, lines = os.pipe()
    replies, their_replies = os.pipe()
    child = os.fork()
    if child:
        os.close(their_lines)
        os.close(their_replies)
        return child, lines, replies
    try:
        os.dup2(their_lines, 0)
        os.dup2(their_replies, 1)
        for end in (lines, replies, their_lines, their_replies):
            os.close(end)
        sys.stdin = os.fdopen(0, encoding="utf-8")
        sys.stdout = os.fdopen(1, "w", encoding="utf-8")
        run(["--json", "--home", str(home)], opened)
    finally:
        os._exit(0)


def grams(number: int) -> str:
    """Another weight a piece may have for each number below 25,000."""
    return f"{100 + number / 10:.1f}"


def acknowledged(home: Path, numbers: range, killed_after_s: float) -> list[int]:
    """What one run acknowledged before it was killed, `killed_after_s` seconds after its first reply."""
    child, lines, replies = piped_run(home)
    heard: list[int] = []
    killer = threading.Timer(killed_after_s, os.kill, (child, signal.SIGKILL))
    with os.fdopen(lines, "wb", buffering=0) as to_child, os.fdopen(replies, "rb") as from_child:
        try:
            for number in numbers:
                to_child.write(f"set piece to {grams(number)} g\n".encode())
                reply = from_child.readline()
                if not reply.endswith(b"\n"):
                    break
                assert json.loads(reply)["kind"] == "setting", reply
                heard.append(number)
                if len(heard) == 1:
                    killer.start()
        except BrokenPipeError:
            pass
    killer.join()
    os.waitpid(child, 0)
    return heard


def test_nothing_acknowledged_is_lost_in_a_hundred_kills(tmp_path: Path) -> None:
    run(["--home", str(tmp_path / "before"), "set piece to 80 g"], opened)  # the reader is loaded then, too
    home = tmp_path / "home"
    moments = random.Random(815)
    said: list[int] = []
    for turn in range(KILLS):
        numbers = range(turn * 250, (turn + 1) * 250)
        heard = acknowledged(home, numbers, moments.uniform(0, 0.03))
        assert heard
        notebook = Notebook.open(home)
        assert notebook.trouble is None
        kept = [
            round(10 * float(entry.text.split()[3]) - 1000) for entry in reversed(notebook.entries("setting"))
        ]  # fmt: skip
        standing = notebook.tail().state["settings"]["piece_g"]
        notebook.close()
        assert kept[: len(said)] == said, "earlier runs are as they were"
        of_this_run = kept[len(said) :]
        assert of_this_run[: len(heard)] == heard, "every acknowledged line is there"
        assert len(of_this_run) <= len(heard) + 1, "at most the line under way is there beside them"
        assert f"{standing:.1f}" == grams(kept[-1])
        said = kept
