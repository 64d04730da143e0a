"""The YAML files behind the records: where they are, what bytes they hold, what can be read from them."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

from knowledge.cache import digest
from knowledge.sheet import BadSheet, read_file, read_sheet

SHIPPED = Path(__file__).parent

WHOLE = "/"
"""Stands for all families and the code together; no folder is named so."""

CODE = "code"
"""Stands for the files of this package that make records out of YAML, and for the unit definitions."""


class Files:
    """The shipped families in one folder and a baker's own in another, laid out alike."""

    __slots__ = ("_sums", "overlay", "shipped")

    def __init__(self, shipped: Path, overlay: Path | None) -> None:
        self.shipped = shipped
        self.overlay = overlay if overlay is not None and is_folder(overlay) else None
        self._sums: dict[str, str] = {}

    def own(self, folder: str) -> Path | None:
        """The baker's own files of one family; None where there are none."""
        if self.overlay is None or not is_folder(self.overlay / folder):
            return None
        return self.overlay / folder

    def key(self, folder: str) -> str:
        """What the records of one family depend on. A baker's own may refer to any other family's."""
        if self.own(folder) is None:
            return digest(self._sum(CODE).encode(), self._sum(folder).encode())
        return digest(self.whole().encode(), str(self.overlay).encode())

    def whole(self) -> str:
        """A name for exactly the bytes of all files and of the code that reads them."""
        found = self._sums.get(WHOLE)
        if found is None:
            folders = {folder for root in (self.shipped, self.overlay) if root is not None for folder in _folders(root)}
            found = self._sums[WHOLE] = digest(*(self._sum(name).encode() for name in (CODE, *sorted(folders))))
        return found

    def _sum(self, folder: str) -> str:
        found = self._sums.get(folder)
        if found is None:
            parts = [f"{sys.version_info[0]}.{sys.version_info[1]}".encode()]
            if folder == CODE:
                marked = [(b"code", _files(SHIPPED, ".py", ".txt")), (b"code", _files(SHIPPED / "records", ".py"))]
            else:
                marked = [(b"shipped", _files(self.shipped / folder, ".yaml"))]
                if self.overlay is not None:
                    marked.append((b"own", _files(self.overlay / folder, ".yaml")))
            for mark, paths in marked:
                for path in paths:
                    parts += [mark, path.rpartition(os.sep)[2].encode(), _bytes_of(path)]
            found = self._sums[folder] = digest(*parts)
        return found


def sheets(folder: Path) -> tuple[dict[str, dict[str, Any]], list[str]]:
    """The raw records of each YAML file in a folder, and the faults of files that are no such thing."""
    found: dict[str, dict[str, Any]] = {}
    faults: list[str] = []
    for path in sorted(folder.glob("*.yaml")):
        try:
            found[path.name] = read_sheet(path)
        except BadSheet as bad:
            faults.append(f"{path.name}: {bad}")
    return found, faults


def is_folder(path: Path) -> bool:
    """Whether there is a folder at that path that may be looked into."""
    try:
        return path.is_dir()
    except OSError:
        return False


def _folders(root: Path) -> set[str]:
    """The folders below `root` that hold YAML files, by their path from there."""
    found: set[str] = set()
    for folder, _, names in os.walk(root):
        if any(name.endswith(".yaml") for name in names):
            found.add(Path(folder).relative_to(root).as_posix())
    return found


def _files(folder: Path, *endings: str) -> list[str]:
    """The paths of files in one folder with such endings, in order. os and not pathlib: every start comes by here."""
    try:
        with os.scandir(folder) as entries:
            return sorted(entry.path for entry in entries if entry.name.endswith(endings))
    except OSError:
        return []


def _bytes_of(path: str) -> bytes:
    try:
        return read_file(path)
    except OSError:
        return b""
