"""The command `benchside`; `python -m assistant` does the same."""

from __future__ import annotations

import gc
import sys


def main() -> int:
    """Run the command with this process's arguments and streams; the exit status comes back."""
    # Nothing made while loading is rubbish, and a single request ends before any gathers: a tenth of its time.
    gc.disable()
    try:
        from assistant.command.run import run

        status = run(sys.argv[1:])
    except KeyboardInterrupt:
        status = 130  # while all this was still loading
    gc.freeze()
    return status


if __name__ == "__main__":
    sys.exit(main())
