"""The command as a baker calls it: its own process, its own home, a fixed clock."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

NOW = "2026-03-15T06:30"


@dataclass(frozen=True)
class Done:
    """How one call ended."""

    status: int
    out: str
    err: str

    @property
    def replies(self) -> list[dict[str, Any]]:
        return [json.loads(line) for line in self.out.splitlines()]


@dataclass(frozen=True)
class Bakery:
    """A home folder and the command run over it, from a folder that holds nothing of ours."""

    home: Path
    elsewhere: Path

    def environment(self, **more: str) -> dict[str, str]:
        kept = {name: value for name, value in os.environ.items() if name not in ("BENCHSIDE_HOME", "NO_COLOR")}
        return {**kept, "PYTHONSAFEPATH": "1", "BENCHSIDE_HOME": str(self.home), **more}

    def command(self, *arguments: str) -> list[str]:
        return [sys.executable, "-m", "assistant", *arguments]

    def call(self, *arguments: str, lines: str | bytes = "", now: str = NOW, **environment: str) -> Done:
        sent = lines if isinstance(lines, bytes) else lines.encode()
        done = subprocess.run(
            self.command("--now", now, *arguments),
            input=sent,
            capture_output=True,
            cwd=self.elsewhere,
            env=self.environment(**environment),
            timeout=60,
        )
        return Done(done.returncode, done.stdout.decode(), done.stderr.decode())


@pytest.fixture
def bakery(tmp_path: Path) -> Bakery:
    elsewhere = tmp_path / "boathouse"
    elsewhere.mkdir()
    return Bakery(tmp_path / "home", elsewhere)

