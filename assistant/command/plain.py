"""Text made harmless for a terminal: no control characters, no escape sequences, no turned reading direction."""

from __future__ import annotations

import re

_SEQUENCE = re.compile(
    r"\x1b\][^\x07\x1b]*(?:\x07|\x1b\\|$)"  # to the window: ESC ] … BEL
    r"|\x1b[PX^_][^\x1b]*(?:\x1b\\|$)"  # device strings
    r"|(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]?"  # CSI: colours, cursor moves
    r"|\x1b[ -/]*[0-~]?"
)
TURNING = r"\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\U000e0000-\U000e007f"
"""Characters of no width that end a line, turn the reading direction or carry words nobody sees (for a pattern)."""

_CONTROL = re.compile(rf"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f{TURNING}\ud800-\udfff]")


def harmless(text: str) -> str:
    """The text with line ends as \\n, tabs kept, and everything else that could steer a terminal taken out."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return _CONTROL.sub("", _SEQUENCE.sub("", lines))
