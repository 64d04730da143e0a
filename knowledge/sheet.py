"""One YAML file of records, read strictly: no duplicate keys, and only `true` and `false` are truth values.

The older YAML rules read `no`, `on`, `12:30` and `2026-03-14` as something other than text. Among words that bakers
say that is a trap, so here such values stay text. The YAML reader is imported only when a file has to be read.
"""

from __future__ import annotations

import os
import re
import stat
from functools import cache
from pathlib import Path
from typing import Any

LARGEST_BYTES = 2_000_000

_UNSEEN = re.compile(
    "[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f\\u061c\\u200e\\u200f\\u2028-\\u202e\\u2066-\\u2069\\ufeff\\U000e0000-\\U000e007f]"
)
"""What could steer a terminal or turn the reading direction: no name or text of the trade needs it."""


class BadSheet(Exception):
    """A file that cannot be read as records; the text says what is wrong, without the file's name."""


def read_sheet(path: Path) -> dict[str, Any]:
    """The raw records of one file by id. BadSheet when it is no mapping of records."""
    try:
        data = read_file(path)
    except OSError as trouble:
        raise BadSheet(f"cannot be read ({trouble.strerror or trouble})") from None
    return parse_sheet(data)


def read_file(path: str | Path) -> bytes:
    """The bytes of a plain file. OSError where it cannot be had; a pipe or a device, which may never end, is none."""
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(None, "not a plain file")
        return file.read()


def parse_sheet(data: bytes) -> dict[str, Any]:
    """The raw records in the bytes of one YAML file. BadSheet when they hold no mapping of records."""
    if len(data) > LARGEST_BYTES:
        raise BadSheet(f"is larger than {LARGEST_BYTES // 1_000_000} MB")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        raise BadSheet(f"is not UTF-8 text (byte {trouble.start + 1})") from None
    import yaml

    try:
        found = yaml.load(text, Loader=_reader())
    except yaml.YAMLError as trouble:
        raise BadSheet(_where(trouble)) from None
    except (RecursionError, ValueError, TypeError) as trouble:
        raise BadSheet(f"is not readable YAML ({type(trouble).__name__})") from None
    if found is None:
        return {}
    if not isinstance(found, dict):
        raise BadSheet("expected records, each as `id:` with its fields below")
    for key in found:
        if not isinstance(key, str):
            raise BadSheet(f"the id {key!r} is not text (put it in quotes)")
    return found


def _where(trouble: Any) -> str:
    mark = getattr(trouble, "problem_mark", None)
    what = getattr(trouble, "problem", None) or "cannot be understood"
    what = " ".join(str(what).split())
    return f"line {mark.line + 1}: {what}" if mark is not None else f"is not YAML: {what}"


@cache
def _reader() -> Any:
    """The YAML loader class: libyaml's when it is there, else the one in Python."""
    import yaml

    base: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    reader: Any = type("SheetReader", (base,), {"yaml_implicit_resolvers": {}})

    def mapping(loader: Any, node: Any) -> dict[Any, Any]:
        seen: dict[Any, Any] = {}
        for key_node, value_node in node.value:
            key = loader.construct_object(key_node, deep=True)
            if isinstance(key, list | dict):
                raise yaml.constructor.ConstructorError(None, None, "a key must be plain text", key_node.start_mark)
            if key in seen:
                raise yaml.constructor.ConstructorError(None, None, f"'{key}' stands here twice", key_node.start_mark)
            seen[key] = loader.construct_object(value_node, deep=True)
        return seen

    reader.add_constructor("tag:yaml.org,2002:map", mapping)
    reader.add_constructor("tag:yaml.org,2002:str", lambda loader, node: _UNSEEN.sub("", loader.construct_scalar(node)))
    digits = list("-+0123456789.")
    for tag, pattern, first in (
        ("null", r"~|null|", ["~", "n", ""]),
        ("bool", r"true|false", ["t", "f"]),
        ("int", r"[-+]?(0|[1-9][0-9]*)", digits),
        ("float", r"[-+]?([0-9]+\.[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?|[-+]?[0-9]+[eE][-+]?[0-9]+", digits),
    ):
        reader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), first)
    # "1e3" is a number to whoever writes it; the stock constructor wants a dot but float() does not.
    reader.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(loader.construct_scalar(node)))
    reader.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(loader.construct_scalar(node)))
    return reader
