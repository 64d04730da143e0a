"""What an amount of a mistake is, from the words beside it: meant, poured, over, under, in the bowl, and of what."""

from __future__ import annotations

from grammar.frames import Bound, fits
from grammar.mishap_words import MEANT, STOPS, THING


def nearest(bound: Bound, things: list[int], words: tuple[str, ...]) -> int | None:
    place = next((i for i, p in enumerate(bound.phrases) if fits(p, words)), None)
    if place is None or not things:
        return None
    return min(things, key=lambda i: abs(i - place) + (0.5 if i > place else 0.0))


def role_of(bound: Bound, place: int) -> str | None:
    """What an amount is, from the words beside it: meant, poured, over, under, bowl."""
    phrases = bound.phrases
    for i in range(place - 1, -1, -1):
        phrase = phrases[i]
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in STOPS):
            break
        if fits(phrase, ("link:instead_of",)):
            return "meant"
        if fits(phrase, ("mistake:only_in",)):
            return "poured"
        if fits(phrase, ("cue:greater",)) and bound.said("mistake:poured"):
            return "over"  # "i added an extra 100 g"
        if fits(phrase, ("mistake:in_bowl",)) and all(p.kind == "link" for p in phrases[i + 1 : place]):
            return _after(bound, place) or "poured"  # "recipe 100 g, in the bowl 150 g"
        if fits(phrase, ("cue:formula",)) and i == place - 1 and "recipe" in phrase.text.lower():
            return "meant"
        for role in ("meant", "over", "under", "poured"):
            if not phrase.negated and fits(phrase, MEANT if role == "meant" else (f"mistake:{role}",)):
                behind = _after(bound, place)
                near = all(p.kind == "link" for p in phrases[i + 1 : place])
                role = "over" if fits(phrase, ("mistake:spilt",)) else role  # what is spilt in was never meant
                return role if near and role == "meant" and behind == "poured" else behind or role
    return _after(bound, place)


def _after(bound: Bound, place: int) -> str | None:
    """The role said behind an amount: "50 g too much", "700 went in", "650 g planned", "1100 g flour in the bowl"."""
    phrases = bound.phrases
    for i in range(place + 1, len(phrases)):
        phrase = phrases[i]
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in STOPS):
            break
        if fits(phrase, ("cue:greater", "link:over", "mistake:over")):
            return "over"
        if fits(phrase, ("mistake:under", "cue:fewer", "link:under")):
            return "under"
        if fits(phrase, ("mistake:in_bowl",)):
            return "bowl"
        if fits(phrase, ("link:instead_of",)):
            return "poured"
        if fits(phrase, ("mistake:poured",)) and not _leads_on(bound, i):
            return "poured"
        if fits(phrase, MEANT):  # "30, should have been 20" against "650 planned"
            return "poured" if i + 1 < len(phrases) and phrases[i + 1].kind == "amount" else "meant"
    return None


def _leads_on(bound: Bound, i: int) -> bool:
    """Whether the word belongs to the amount behind it: "put 21 g in" against "went into 800 g flour"."""
    for phrase in bound.phrases[i + 1 :]:
        if phrase.kind == "amount":
            return True
        if phrase.kind != "link" or "into" in phrase.ids("link"):
            return False
    return False


def thing_beside(bound: Bound, place: int) -> int | None:
    """The word an amount weighs: right behind it ("80 g of salt"), else right before it."""
    phrases = bound.phrases
    for i in range(place + 1, min(place + 4, len(phrases))):
        if phrases[i].kind == "amount" or (phrases[i].kind == "sep" and phrases[i].text.strip() in STOPS):
            break
        if fits(phrases[i], THING):
            return i
    for i in range(place - 1, max(place - 4, -1), -1):
        if phrases[i].kind == "amount" or (phrases[i].kind == "sep" and phrases[i].text.strip() in STOPS):
            break
        if fits(phrases[i], THING):
            weighed = i > 0 and phrases[i - 1].kind == "amount"  # "800 g flour but want 2 percent"
            return None if weighed and any(fits(p, MEANT) for p in phrases[i + 1 : place]) else i
    return None
