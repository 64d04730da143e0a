"""One request in a process of its own, against bare Python and against loading the libraries: run as a script.

The three take turns, so that whatever else the machine does falls on all of them; what counts is the ratios.
    python tests/bench/cold.py [rounds]
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping
from statistics import median

REQUEST = "24 ring rolls of 85 g at 58 %, 18 % starter"
COMMANDS = {
    "python -c pass": ["-c", "pass"],
    "import lark, pint, yaml": ["-c", "import lark, pint, yaml"],
    "one request": ["-m", "assistant", REQUEST],
}


def spent(command: list[str], environment: Mapping[str, str]) -> tuple[float, float]:
    """(wall, processor) time of one process in ms."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True, env=environment)
    after, end = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    processor = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return 1000 * (end - start), 1000 * processor


def main(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as home:
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        environment = {**kept, "HOME": home, "XDG_CACHE_HOME": home + "/cache", "BENCHSIDE_HOME": home + "/home"}
        for command in COMMANDS.values():  # what an installed program finds: compiled modules and kept tables
            spent([sys.executable, *command], environment)
        times: dict[str, list[tuple[float, float]]] = {name: [] for name in COMMANDS}
        for _ in range(rounds):
            for name, command in COMMANDS.items():
                times[name].append(spent([sys.executable, *command], environment))
    for name, measured in times.items():
        walls, processors = zip(*measured, strict=True)
        print(f"{name:24} wall p50 {median(walls):4.0f} ms, least {min(walls):4.0f} ms; "
              f"processor p50 {median(processors):4.0f} ms, least {min(processors):4.0f} ms")  # fmt: skip
    one, bare, libraries = (times[name] for name in ("one request", "python -c pass", "import lark, pint, yaml"))
    for against, others in (("bare Python", bare), ("the libraries", libraries)):
        ratios = sorted(mine[1] / its[1] for mine, its in zip(one, others, strict=True))
        print(f"one request / {against}: {median(ratios):.2f} ({ratios[0]:.2f} to {ratios[-1]:.2f}) of processor time")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
