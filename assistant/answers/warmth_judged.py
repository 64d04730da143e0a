"""Whether a warmth is right for a leaven or a dough: the verdict first, then the figures it stands between."""

from __future__ import annotations

from assistant.answers import answers
from assistant.answers.fermentation_models import models
from assistant.engine.hot_water import STARTER_DEAD_C, STARTER_STOPS_C, YEAST_DEAD_C, YEAST_SAFE_C
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said
from grammar.requests.warmth_judged import WarmthJudgedRequest
from knowledge.records.explanations import Explanation

_BEST_C = 28.0
"""The yeast of a dough does best at 27 to 28 °C."""


@answers(WarmthJudgedRequest)
def answer(request: WarmthJudgedRequest, room: Room) -> Outcome:
    """The verdict on a place, or on water for starter, yeast or a dough."""
    of = "a place" if request.place else "water"
    verdict, said = _of_a_place(request) if request.place else _of_water(request, models(room.kb).heat.starter_most_c)
    about = room.kb.get(Explanation, "why_sourdough" if request.place else "water_for_yeast")
    lines = (said, *about.text.strip().split("\n"))
    return Outcome(
        "explanation", {"topic": about.title, "verdict": verdict, "text": "\n".join(lines)},
        f"whether {of} of {degrees_said(request.warm_c)} is right",
        Page((Line(said, role="head"), *(Line(one) for one in lines[1:]))),
        sources=(about.source,),
    )  # fmt: skip


def _of_water(request: WarmthJudgedRequest, starter_most_c: float) -> tuple[str, str]:
    """Water for yeast alone may be warmer than where a starter is dissolved in it."""
    only_yeast = request.yeast and not request.starter
    most_c, dead_c = (YEAST_SAFE_C, YEAST_DEAD_C) if only_yeast else (starter_most_c, STARTER_DEAD_C)
    what = "yeast" if only_yeast else "a starter"
    warm = degrees_said(request.warm_c)
    if request.warm_c >= dead_c:
        return "too hot", f"{warm} is too hot: it kills {what}. At most {degrees_said(most_c)}."
    if request.warm_c > most_c:
        return "too hot", f"{warm} is too hot: it harms {what}. At most {degrees_said(most_c)}."
    return "right", f"Water of {warm} harms nothing: {what} bears {degrees_said(most_c)}."


def _of_a_place(request: WarmthJudgedRequest) -> tuple[str, str]:
    """A place above what the yeast does best at only hurries a dough; from where it stops on it spoils it."""
    warm, best, stops = degrees_said(request.warm_c), degrees_said(_BEST_C), degrees_said(STARTER_STOPS_C)
    if request.warm_c >= STARTER_STOPS_C:
        return "too hot", f"{warm} is too hot: yeast stops at about {stops}."
    if request.warm_c > _BEST_C:
        return "warm", f"{warm} is warm, not deadly: it goes fast and turns sour. Best is up to {best}; watch it early."
    return "right", f"{warm} is not too warm: best is up to {best}."
