"""The command `benchside`; `python -m assistant` does the same."""

from __future__ import annotations

import sys


def main() -> int:
    """Run the command with this process's arguments and streams; the exit status comes back."""
    from assistant.command import run

    return run(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
