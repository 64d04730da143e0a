"""Verbs and the little word behind their thing in one piece: "leave the seeds out", "put the seeds back in"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.tokens import Token

PARTED = frozenset({"leave", "take", "keep", "miss", "strip", "cut", "pull", "edit"})
_PARTING = frozenset({"out", "off", "back out", "out again", "clean out", "completely out", "entirely out"})
"""Verbs that leave a thing out, and the little words behind the thing that say so: "leave the seeds out"."""
_RETURNED, _RETURNING = frozenset({"put", "add", "bring", "have", "stick"}), frozenset({"back", "back in"})
"""Verbs that put a thing in again, and the words behind the thing: "put the seeds back in"; the words do alone."""
_PUT_BACK = (("act", "put_back"),)
_FORGOTTEN, _HELD = (("mistake", "forgot"),), (("cue", "held"),)
_PARTED_PAST = {
    "left": ("out", _FORGOTTEN), "missed": ("out", _FORGOTTEN), "kept": ("back", _HELD), "held": ("back", _HELD),
    "keep": ("back", _HELD), "hold": ("back", _HELD),
}  # fmt: skip
"""Verbs and the little word behind their thing, which together say that it was forgotten, or held back for later."""


def _left_out(tokens: Sequence[Token]) -> list[Token]:
    """ "left a third of the flour out", "kept 30 g of the water back": verb and little word in one."""
    out = list(tokens)
    for i, token in enumerate(out):
        little, terms = _PARTED_PAST.get(token.text.lower(), ("", ()))
        if not little:
            continue
        behind = out[i + 1 : i + 6]
        at = next((n for n, one in enumerate(behind) if one.text.lower() == little), None)
        between = behind[:at] if at is not None else []
        amount = any(one.quantity is not None and one.quantity.dim in ("num", "mass", "volume") for one in between)
        if amount and between[-1].kind == "TERM" and (between[-1].ids("ingredient") or between[-1].ids("cue")):
            out[i] = replace(token, kind="TERM", terms=terms, idle=False)
            del out[i + 1 + (at or 0)]
            break
    return out


def put_together(kept: Sequence[Token]) -> list[Token]:
    """The tokens with a parted verb in one piece before the thing it leaves out or puts in again."""
    out = _left_out(kept)
    kept = list(out)
    for i, token in enumerate(kept[:-1]):
        if i and kept[i - 1].ids("clock"):
            break  # a deed somebody is to be called to
        verb, thing = token.text.lower().removesuffix(" the"), kept[i + 1]
        said, many = _little_words(kept, i + 2)
        if verb in PARTED and thing.kind == "TERM" and said in _PARTING:
            if thing.ids("piece") or thing.ids("bread"):
                continue  # bread out of the oven
            at = out.index(token)
            out[at : at + 2 + many] = [replace(token, kind="NEG", terms=(), idle=False), thing]
        elif verb in _RETURNED and thing.ids("ingredient") and said in _RETURNING:
            at = out.index(token)
            out[at : at + 2 + many] = [replace(token, kind="TERM", terms=_PUT_BACK, idle=False), thing]
    said, many = _little_words(kept, 1)
    ends = kept[1 + many :] == [] or kept[1 + many].kind == "MARK"
    if said == "out" and kept[0].ids("ingredient") and ends:
        out[: 1 + many] = [replace(kept[1], kind="NEG", terms=(), idle=False), kept[0]]  # "caraway out"
    if said == "back in" and kept[0].ids("ingredient"):
        out[: 1 + many] = [replace(kept[1], kind="TERM", terms=_PUT_BACK, idle=False), kept[0]]
    return out


def _little_words(kept: Sequence[Token], start: int) -> tuple[str, int]:
    """ "back out", "back in" as they stand behind a thing, in one token or two: the words, and how many tokens."""
    texts = [one.text.lower() for one in kept[start : start + 2]]
    if len(texts) == 2 and " ".join(texts) in (*_PARTING, *_RETURNING):
        return " ".join(texts), 2
    return (texts[0], 1) if texts else ("", 0)
