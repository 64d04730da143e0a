"""What is to be done, asked of the plan that stands in any words: on a day, in a part of it, in short; what to feed."""

from __future__ import annotations

import re

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.moments import Moment
from grammar.requests.plan_stands import PlanStands, has_hours
from grammar.shell import part_of
from grammar.spoken import fitting, spoken
from grammar.turns import END, LEAD

_ASIDE = r"(?:[a-z ]+[,.;:]+ )?"
_TELL = rf"{LEAD}{_ASIDE}{LEAD}(?:(?:<hand:tell_me>) )*"
_WHEN = r"(?:(?:<hand:job_for>) )*(?P<when>(?:<hand:when_due>)|[a-z ]+)"
_JOBS = (
    rf"{_TELL}(?:<hand:asks_jobs>) {_WHEN}{END}",
    rf"{_TELL}(?P<when>[a-z]+)s (?:<hand:job_list>){END}",
    rf"{LEAD}{_ASIDE}{LEAD}(?:(?:<hand:tell_me>) )+{_WHEN}{END}",
    rf"{_TELL}(?:when|what time|how early)(?: (?:<hand:must_i>))+ (?:<hand:get_up>) {_WHEN}{END}",
)
_SHORT = (
    rf"{_TELL}(?:(?:the|a|it|that|this|to|with|me|of) )*(?:<hand:in_short>)(?: of (?:it|that|the plan))?{END}",
)
_FED = (
    rf"{_TELL}(?:(?:and|(?:<hand:asks_feed>)) )+(?:(?:<hand:must_i>) )*(?:<hand:feed_it>)"
    rf"(?: (?:and|it|with|by|of what|(?:<hand:asks_feed>)|{_WHEN}))*{END}",
    rf"{_TELL}how much (?:<hand:jar>)(?: (?:<hand:must_i>))* (?:<hand:feed_up>)"
    rf"(?:[ ,]+(?:and )?(?:when|what time))?{END}",
    rf"{_TELL}(?:how much )?(?:flour and water|flour|water) (?:for|into|to) (?:the )?(?:<hand:jar>)(?: {_WHEN})?{END}",
)
_STEP = (
    rf"{_TELL}(?:(?:<hand:asks_hour>) )+(?:(?:the|next|my|<hand:must_i>) )*(?P<step>[a-z ]+?)"
    rf"(?: (?:<hand:of_step>))*{END}",
)
_FOLDS = (
    rf"{_TELL}(?:(?:<hand:any_fold>) )+(?:<hand:folding>)(?: (?:<hand:of_step>))*{END}",
    rf"{_TELL}(?:(?:<hand:those>) )?(?:<hand:folding>)(?: (?:<hand:of_step>))+{END}",
)
_BED = re.compile(r"bed|sleep|turn in")


def _asked(line: Line) -> Own | None:
    """What is to be done then; None where no dough has hours, or something else is asked."""
    if not has_hours(line.context) or any(sign.isdigit() for sign in line.text):
        return None
    said = spoken(line.text, line.lexicon)
    for _ in fitting(_FED, said, line.lexicon):
        return Own(PlanStands("feed_starter"), PLAINLY)
    for hit in fitting(_STEP, said, line.lexicon):
        step = _step(said.group(hit, "step"), line)
        if step is not None:
            return Own(PlanStands(step), PLAINLY)
    if "told" in line.context.standing:
        for _ in fitting(_FOLDS, said, line.lexicon):
            return Own(PlanStands("fold"), PLAINLY)
    for _ in fitting(_SHORT, said, line.lexicon):
        return Own(PlanStands(short=True), PLAINLY)
    for hit in fitting(_JOBS, said, line.lexicon):
        within = _within(said.group(hit, "when"), line)
        if within is not None:
            return Own(PlanStands(within=within), PLAINLY)
    return None


def _step(words: str, line: Line) -> str | None:
    """The one step these words name and nothing else."""
    phrases = part_of(line, words).phrases
    steps = {step for one in phrases for step in one.ids("step")}
    return steps.pop() if len(phrases) == 1 and len(steps) == 1 and phrases[0].kind == "label" else None


def _within(words: str, line: Line) -> Moment | None:
    """The day or the part of one that these words name and nothing else; before bed is tonight."""
    if _BED.search(words):
        return Moment(day="today", part="evening")
    part = part_of(line, words)
    said = [one for one in part.phrases if one.moment is not None and one.moment.minute is None]
    counted = {id(token) for one in said for token in one.tokens}
    rest = [token for token in part.tokens if id(token) not in counted and token.kind != "FILL"]
    return said[0].moment if len(said) == 1 and not rest else None


FRAME = Frame(PlanStands, "plan", never_by_slots, reads=_asked, settles=True)
