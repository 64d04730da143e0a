"""The folder of cards: files a baker hands on, written whole, never over another and never outside the folder."""

from __future__ import annotations

import contextlib
import os
import re
from pathlib import Path

from assistant.engine.refusal import Refused

LONGEST_NAME = 60
MOST_ALIKE = 999
_RESERVED = frozenset({"con", "prn", "aux", "nul", *(f"{p}{n}" for p in ("com", "lpt") for n in range(1, 10))})


def safe_name(said: str) -> str:
    """A file name out of any words: letters, figures, dots, dashes; no folder, no leading dot; else "card"."""
    last = re.split(r"[/\\]", said)[-1]
    name = re.sub(r"[^\w.-]+", "-", last, flags=re.UNICODE).strip("-._")
    stem, dot, ending = name.rpartition(".")
    stem, ending = (stem, dot + ending) if dot else (name, "")
    stem = re.sub(r"[.-]{2,}", "-", stem)[:LONGEST_NAME].strip("-._") or "card"
    return ("card-" + stem if stem.lower() in _RESERVED else stem) + ending[:12]


class Cards:
    """Cards in one folder, made when the first is written."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def write(self, name: str, text: str) -> Path:
        """The path of a card of that name (made safe) that holds the text.

        One that is there with other words is left alone and the new one numbered. Raises Refused where the disk will
        not have it.
        """
        safe = Path(safe_name(name))
        content = text.encode("utf-8")
        try:
            self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            for number in range(1, MOST_ALIKE + 1):
                path = self.folder / (safe.name if number == 1 else f"{safe.stem}-{number}{safe.suffix}")
                if path.is_symlink():
                    continue
                if path.exists():
                    if path.is_file() and path.read_bytes() == content:
                        return path
                    continue
                _written(path, content)
                return path
        except OSError as trouble:
            raise Refused(
                f"The card could not be written into {self.folder} ({trouble.strerror or trouble}).",
                "free the folder or the disk, then ask again",
            ) from None
        raise Refused(f"There are {MOST_ALIKE} cards of that name.", "another name: write the card to club.txt")

    def take_back(self, name: str, text: str) -> bool:
        """Whether a card was removed: only one that still holds what was written."""
        path = self.folder / safe_name(name)
        try:
            if path.is_symlink() or not path.is_file() or path.read_bytes() != text.encode("utf-8"):
                return False
            path.unlink()
        except OSError:
            return False
        return True


def _written(path: Path, content: bytes) -> None:
    """The file whole or not at all."""
    aside = path.with_name(f".{path.name}.new-{os.getpid()}")
    try:
        with aside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        aside.replace(path)
    finally:
        with contextlib.suppress(OSError):
            aside.unlink(missing_ok=True)
