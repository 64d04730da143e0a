"""Where the baker's own things live: the home folder, and a private cache that may be thrown away at any time."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path

_NAME = "benchside"


class NoHome(Exception):
    """No folder can be worked out; the message is one line for the baker."""


def home_folder(asked: Path | None, environment: Mapping[str, str] = os.environ) -> Path:
    """The home folder: as asked, else BENCHSIDE_HOME, else the platform's folder for user data. Raises: NoHome."""
    named = asked or (Path(environment["BENCHSIDE_HOME"]) if environment.get("BENCHSIDE_HOME") else None)
    try:
        if named is not None:
            return named.expanduser()
        return _platform_folder(
            environment, "XDG_DATA_HOME", ".local/share", "Library/Application Support", "LOCALAPPDATA"
        )
    except RuntimeError:
        where = f"The home folder {named}" if named is not None else "A home folder for the notebook"
        raise NoHome(f"{where} cannot be worked out; name one with --home DIR.") from None


def cache_folder(environment: Mapping[str, str] = os.environ) -> Path | None:
    """The folder for tables that can be made anew; None where there is none to be had."""
    try:
        folder = _platform_folder(environment, "XDG_CACHE_HOME", ".cache", "Library/Caches", "LOCALAPPDATA")
    except RuntimeError:
        return None
    return folder / "cache" if sys.platform == "win32" else folder


def _platform_folder(environment: Mapping[str, str], free: str, elsewhere: str, mac: str, windows: str) -> Path:
    if sys.platform == "win32":
        return Path(environment.get(windows) or Path.home() / "AppData/Local") / _NAME
    if sys.platform == "darwin":
        return Path.home() / mac / _NAME
    asked = environment.get(free, "")
    return (Path(asked) if Path(asked).is_absolute() else Path.home() / elsewhere) / _NAME
