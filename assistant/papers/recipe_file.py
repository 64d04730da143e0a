"""Opens a saved page or a text with a recipe in it, by the path a baker typed."""

from __future__ import annotations

from pathlib import Path

from assistant.command.plain import harmless
from assistant.engine.refusal import Refused

LARGEST_BYTES = 5_000_000


def recipe_text(said: str) -> str:
    """The text of the file at a path ("~" allowed). Refused, in the baker's words, where it cannot be had."""
    try:
        path = Path(said.strip()).expanduser()
        if not path.is_file():
            raise Refused(f"there is no file {said}", "the path of a saved page, or paste the recipe itself")
        if path.stat().st_size > LARGEST_BYTES:
            raise Refused(f"{said} is larger than any recipe page", "paste the recipe's lines themselves")
        return harmless(path.read_bytes().decode("utf-8", "replace"))
    except (OSError, ValueError, RuntimeError) as trouble:
        reason = getattr(trouble, "strerror", None) or "it is no path"
        raise Refused(f"{said} cannot be read: {reason.lower()}", "paste the recipe itself") from None
