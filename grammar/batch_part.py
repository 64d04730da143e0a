"""A part of the batch that is to be otherwise than the rest: "half the batch without walnuts", "4 of them egg free"."""

from __future__ import annotations

from grammar.frames import Bound, amount_base, fits
from grammar.phrases import Phrase

_WHOLE = ("piece:*", "bread:*", "cue:dough", "cue:pieces", "stance:holds", "cue:total")
"""What the part is of."""
_HALVED = ("act:halve",)
_OF = ("of", "half", "third", "quarter")
"""Words by which what is counted is taken out of the batch rather than making a new one."""


def batch_part(bound: Bound) -> float | None:
    """The part, a share below 1 or so many pieces; None where the line is about the whole dough.

    Something has to be kept out of it, a dough has to be in hand, and the part is told of the batch, never of a thing.
    """
    phrases = bound.phrases
    kept_out = any(p.ids("diet") or (p.negated and p.ids("ingredient")) for p in phrases)
    if not bound.context.has_bake or not kept_out:
        return None
    for place, phrase in enumerate(phrases):
        if fits(phrase, _HALVED) and " " in phrase.text.strip():
            return 0.5  # "half the batch": one word to others, who would make the dough smaller
        value = amount_base(phrase) if phrase.kind == "amount" and phrase.dim in ("share", "num") else None
        if value is not None and _of_the_batch(phrases[place + 1 :], phrase.dim == "share"):
            return value
    return None


def put_in_part(bound: Bound) -> bool:
    """Whether something is put into a part of the batch only, and the rest has none: "in a third of them"."""
    pairs = zip(bound.phrases, bound.phrases[1:], strict=False)
    parts = (n for n, (link, share) in enumerate(pairs, 2) if "in" in link.ids("link") and share.dim == "share")
    return bound.context.has_bake and any(_of_the_batch(bound.phrases[n:], False) for n in parts)


def _of_the_batch(behind: tuple[Phrase, ...], share: bool) -> bool:
    """Whether what stands behind an amount is the batch: "of them", "of the rolls"; behind a share the diet will do."""
    if not behind:
        return False
    first = behind[1] if len(behind) > 1 and "of" in behind[0].ids("link") else behind[0]
    linked = first is not behind[0] or behind[0].text.lower().split()[0] in _OF
    if share and (first.ids("diet") or first.negated):
        return True
    return fits(first, _WHOLE) and not first.negated and (share or linked)
