"""A request loads the answers of its own topic, not those of every other."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from assistant import answers


def test_every_kind_of_request_is_answered_by_the_module_it_names() -> None:
    answers.answered_kinds()
    for kind, answerer in answers._ANSWERERS.items():
        assert answers.namesake(kind) == answerer.__module__.rpartition(".")[2], kind


def test_a_dough_is_answered_without_what_plans_need(tmp_path: Path) -> None:
    script = (
        "import sys, runpy\n"
        "sys.argv = ['benchside', '--home', sys.argv[1], '24 rolls of 80 g']\n"
        "try: runpy.run_module('assistant', run_name='__main__')\n"
        "except SystemExit: pass\n"
        "print([name for name in sys.modules if name.startswith('assistant.engine.plan')])\n"
    )
    done = subprocess.run([sys.executable, "-c", script, str(tmp_path)], capture_output=True, text=True, check=True)
    assert done.stdout.rstrip().endswith("[]"), done.stdout
