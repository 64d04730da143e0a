"""Requests as plain JSON and back, so that the notebook can keep what a follow-up continues."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from grammar.requests import frames


def kept(request: Any) -> dict[str, Any]:
    """A request as plain JSON with the name of its class; unsaid fields are left out."""
    return {"request": type(request).__name__, **_plain_fields(request)}


def recalled(saved: Mapping[str, Any] | None) -> Any:
    """The request that was kept; None where there is none or its kind is no longer known."""
    if not saved:
        return None
    kind = _kinds().get(str(saved.get("request")))
    if kind is None:
        return None
    try:
        return _built(kind, {key: value for key, value in saved.items() if key != "request"})
    except (TypeError, ValueError, KeyError):
        return None


@cache
def _kinds() -> Mapping[str, type]:
    return {frame.request.__name__: frame.request for frame in frames()}


def _plain_fields(value: Any) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for one in fields(value):
        said = getattr(value, one.name)
        if said is None or said == ():
            continue
        out[one.name] = _plain(said)
    return out


def _plain(value: Any) -> Any:
    if is_dataclass(value) and not isinstance(value, type):
        return _plain_fields(value)
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return value


def _built(kind: type, saved: Mapping[str, Any]) -> Any:
    hints = _hints(kind)
    return kind(**{name: _value(hints[name], value) for name, value in saved.items() if name in hints})


@cache
def _hints(kind: type) -> Mapping[str, Any]:
    """The type of each field; worked out once a kind, since it costs more than the reading of a line."""
    hints = typing.get_type_hints(kind)
    return {one.name: hints[one.name] for one in fields(kind)}


def _value(hint: Any, value: Any) -> Any:
    if value is None:
        return None
    origin = typing.get_origin(hint)
    if origin in (typing.Union, types.UnionType):
        choices = [one for one in typing.get_args(hint) if one is not type(None)]
        if len(choices) == 1:
            return _value(choices[0], value)
        for one in choices:
            if isinstance(value, dict) and is_dataclass(one):
                return _value(one, value)
        return tuple(value) if isinstance(value, list) else value
    if origin is tuple:
        args = typing.get_args(hint)
        if len(args) == 2 and args[1] is Ellipsis:
            return tuple(_value(args[0], one) for one in value)
        return tuple(_value(arg, one) for arg, one in zip(args, value, strict=True))
    if is_dataclass(hint) and isinstance(value, Mapping):
        return _built(typing.cast(type, hint), value)
    return value
