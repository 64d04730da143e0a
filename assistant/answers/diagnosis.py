"""What went wrong with a bread, a dough or a starter: the likeliest causes, why, what to do, and the one question."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.account_kept import account_of
from assistant.answers.diagnosis_answered import settled_request
from assistant.answers.diagnosis_case import Case, case_of
from assistant.answers.diagnosis_model import model_of
from assistant.answers.diagnosis_read_as import complaint_read_as
from assistant.answers.diagnosis_stage import now_of, stage_of
from assistant.answers.in_the_bowl import notes
from assistant.engine.cautions import Scene
from assistant.engine.diagnosis.blame import Suspect, diagnose, shown
from assistant.engine.diagnosis.evidence import Tables
from assistant.engine.diagnosis.questions import next_question
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.diagnosis_page import Blamed, diagnosis_page, evidence_page, others_page, reasons_page, remedy_page
from assistant.voice.page import Page
from assistant.voice.spans import degrees_said, hours_said
from grammar.requests.diagnosis import DiagnosisRequest
from grammar.requests.diagnosis_turn import DiagnosisTurn
from knowledge.records.diagnosis_causes import Cause
from knowledge.records.diagnosis_dangers import Danger
from knowledge.records.diagnosis_eating import eating

_MOST_REASONS = 4


@answers(DiagnosisRequest)
def diagnosis(request: DiagnosisRequest, room: Room) -> Outcome:
    """Causes by their share of the blame, with reasons from this bake, and the next question."""
    request = settled_request(request, room.kb)
    if not request.symptoms and not request.dangers:
        raise Refused(
            "What went wrong with it was not said.",
            "Say what you see: the loaf is dense; the dough is slack; the crust is pale.",
        )
    return _outcome(request, room, "eat" if request.eaten else None)


@answers(DiagnosisTurn)
def turn(request: DiagnosisTurn, room: Room) -> Outcome:
    """A turn of the talk about the last complaint: other causes, reasons, remedy, bars, the next question."""
    earlier = room.earlier
    if not isinstance(earlier, DiagnosisRequest):
        raise Refused("Nothing has been asked about a fault yet.", "Say what went wrong: my loaf is dense.")
    if request.turn == "skip" and room.bench.asked:
        earlier = replace(earlier, skipped=tuple(dict.fromkeys((*earlier.skipped, *room.bench.asked))))
    return _outcome(earlier, room, request.turn)


def of_danger(danger: Danger, beside: tuple[str, ...], room: Room) -> Outcome:
    """A danger in a starter, a dough or a bread: it stands first, with no odds, and what to do is to throw it out.

    beside: symptoms told with it.
    """
    of = "starter" if danger.cause in ("starter_contaminated", "starter_hungry") else "bread"
    told = tuple(dict.fromkeys((*danger.symptoms, *beside)))
    return _outcome(DiagnosisRequest(symptoms=told, dangers=(danger.id,), subject=of), room, None)


def _outcome(request: DiagnosisRequest, room: Room, asked_for: str | None) -> Outcome:
    t = model_of(room.kb)
    case = case_of(request, room)
    odds = diagnose(case.evidence, t)
    suspects, danger = shown(odds), case.danger
    question = next_question(case.evidence, odds, t, frozenset(request.skipped)) if danger is None else None
    stage = stage_of(case, t, request.state or _told_state(room))
    blamed = tuple(_blamed(s, t, stage) for s in suspects) if danger is None else _by_danger(danger, t, stage)
    ids = [s.cause for s in suspects] if danger is None else [danger.cause] if danger.cause else []
    answer: dict[str, Any] = {
        "symptoms": list(_symptoms(request, case, t)),
        "causes": [_row(cause, one) for cause, one in zip(ids, blamed, strict=True)],
        "ask": question.ask if question is not None else None,
    }
    told, lines = notes(_scene(request, case, room), room)
    page = _page(
        blamed,
        question.ask if question else None,
        danger,
        asked_for,
        tuple(line.text for line in lines),
        _eaten(request, case, t, room) if asked_for == "eat" else None,
    )
    warned = [] if danger is None else [one for one in (danger.act, danger.harmless) if one]
    return Outcome(
        kind="diagnosis",
        answer=answer,
        read_as=complaint_read_as(request, case, t),
        page=page,
        assumed=case.assumed,
        cautions=tuple(dict.fromkeys((*warned, *told))),
        sources=_sources(suspects, case, danger, t),
        unread=_unplaced(request, room),
        focus=replace(request, bare=()),
        asked=(question.id,) if question is not None else (),
    )


def _told_state(room: Room) -> str | None:
    """Where the dough in hand stands by what was told of it: shaped, and not yet baked."""
    account = account_of(room)
    return "shaped" if account.raw and account.main[-1].step in ("shape", "retard", "warm_up") else None


def _unplaced(request: DiagnosisRequest, room: Room) -> tuple[str, ...]:
    """Amounts that answer nothing that was asked, as near to what was typed as can be told."""
    told = []
    for dim, value in request.bare:
        shown = {"time": hours_said(value), "temperature": degrees_said(value)}.get(dim, f"{value:g}")
        told.append(f"{value:g}" if f"{value:g}" in room.text else shown)
    return tuple(told)


def _page(
    blamed: tuple[Blamed, ...],
    ask: str | None,
    danger: Danger | None,
    asked_for: str | None,
    told: tuple[str, ...],
    eaten: str | None = None,
) -> Page:
    if danger is not None:
        notes_told = tuple(note for note in (danger.whom, danger.harmless) if note)
        return diagnosis_page(blamed, ask, (danger.act, danger.why), notes_told)
    pages = {"else": others_page, "why": reasons_page, "now": remedy_page, "evidence": evidence_page}
    if asked_for in pages:
        return pages[asked_for](blamed, ask)
    if eaten is not None:
        return remedy_page(blamed, ask, eaten)
    return diagnosis_page(blamed, ask, None, told)


def _eaten(request: DiagnosisRequest, case: Case, t: Tables, room: Room) -> str:
    """Whether it may still be eaten; a danger among its symptoms before all else."""
    told = _symptoms(request, case, t)
    return eating(told, t.symptoms[told[0]].of if told else request.subject or "bread", room.kb)


def _blamed(suspect: Suspect, t: Tables, stage: str) -> Blamed:
    cause = t.causes[suspect.cause]
    reasons = [w.say for w in suspect.for_it if w.fact] + [w.say for w in suspect.for_it if not w.fact]
    because = tuple(dict.fromkeys(reasons))[:_MOST_REASONS]
    if suspect.shared_with:
        kin = " and ".join(_named(t.causes[one], stage) for one in suspect.shared_with)
        because = (*because, f"it goes with {kin}")
    against = tuple(dict.fromkeys(w.say for w in suspect.against_it))[:_MOST_REASONS]
    name, now = _named(cause, stage), now_of(cause, stage)
    return Blamed(name, suspect.share, because, against, now, cause.next_time, cause.mechanism, cause.check)


def _named(cause: Cause, stage: str) -> str:
    """The cause's name; what may be of dough or jar is said of the one there is."""
    return cause.name.replace("dough (or jar)", "jar" if stage == "starter" else "dough")


def _by_danger(danger: Danger, t: Tables, stage: str) -> tuple[Blamed, ...]:
    """A danger stands alone, without odds."""
    if danger.cause is None:
        return ()
    cause = t.causes[danger.cause]
    name = _named(cause, stage)
    return (Blamed(name, 1.0, (danger.why,), (), danger.act, cause.next_time, cause.mechanism, cause.check),)


def _row(cause: str, one: Blamed) -> dict[str, Any]:
    return {
        "cause": cause,
        "name": one.name,
        "share": round(one.share, 4),
        "because": [*one.because, *(f"against it: {reason}" for reason in one.against[:2])],
        "now": one.now,
        "next_time": one.next_time,
    }


def _symptoms(request: DiagnosisRequest, case: Case, t: Tables) -> tuple[str, ...]:
    shows = (shows for f in case.evidence.findings if (shows := t.findings[f].shows) is not None)
    return tuple(dict.fromkeys((*request.symptoms, *shows)))


def _scene(request: DiagnosisRequest, case: Case, room: Room) -> Scene:
    breads = frozenset({case.bread.id}) if case.bread is not None and request.breads else frozenset()
    return Scene(kind="diagnosis", line=room.text, breads=breads)


def _sources(suspects: tuple[Suspect, ...], case: Case, danger: Danger | None, t: Tables) -> tuple[str, ...]:
    if danger is not None:
        return (danger.source,)
    out = []
    for suspect in suspects[:2]:
        out.append(t.causes[suspect.cause].source)
        out += [sign.source for s in case.evidence.symptoms if (sign := t.signs.get((s, suspect.cause))) is not None]
    out += [t.measures[f.measure].source for f in case.evidence.figures]
    return tuple(dict.fromkeys(out))[:6]
