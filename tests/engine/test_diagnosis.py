"""The evidence model: cases from the trade's facts, laws of weighing, simulated bakes, the audit sheet."""

from __future__ import annotations

import random
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from assistant.engine.diagnosis.bake import Bake
from assistant.engine.diagnosis.blame import Suspect, diagnose
from assistant.engine.diagnosis.evidence import STRENGTH, Evidence, Figure, Tables, kin, tables
from assistant.engine.diagnosis.figures import figures_of
from assistant.engine.diagnosis.questions import (
    Outcome,
    best_questions,
    expected_bits,
    likelihoods,
    next_question,
    outcomes,
    settled,
)
from assistant.engine.diagnosis.weights import weights_of
from assistant.engine.growth import Kinetics, kinetics
from assistant.voice.evidence_sheet import evidence_sheet
from knowledge import Knowledge, load
from knowledge.records.kinetics import Kinetic

HERE = Path(__file__).parent
KB: Knowledge = load()
T: Tables = tables(KB)
K: Kinetics = kinetics(KB.all(Kinetic))

CAUSE_IDS = (
    "starter_weak starter_overripe yeast_dead under_fermented over_fermented under_proofed over_proofed "
    "dough_cold dough_warm too_wet too_dry weak_flour strong_flour under_developed over_mixed salt_missing "
    "salt_high sugar_high enzyme_high enzyme_low loose_shaping tight_shaping surface_dried "
    "too_much_bench_flour retard_too_long retard_too_short boil_long boil_short bath_weak bath_strong "
    "oven_cool oven_hot steam_low steam_high under_baked over_baked scored_wrong cut_hot crowded "
    "wholegrain_thirsty stored_badly starter_hungry starter_cold starter_contaminated tray_not_greased "
    "yeast_too_much yeast_too_little fat_high cooled_badly starter_new"
)


def table(name: str) -> list[dict[str, Any]]:
    return list(yaml.safe_load((HERE / f"diagnosis_{name}.yaml").read_text(encoding="utf-8")))


def weighed(case: Mapping[str, Any]) -> tuple[Suspect, ...]:
    """The suspects of a case as the assistant would weigh it."""
    bread = KB.breads[case["bread"]] if "bread" in case else None
    findings = list(case.get("found", ()))
    if bread is not None:
        findings.append("boiled_bread" if bread.boil_s_per_side else "unboiled_bread")
    yeasted = True if "made_with_yeast" in findings else None
    bake = Bake(case.get("said", {}), bread, yeasted, tuple(findings))
    figures = figures_of(bake, T.measures, K)
    return diagnose(Evidence(tuple(case["shows"]), tuple(case.get("absent", ())), figures, tuple(findings)), T)


def right(case: Mapping[str, Any]) -> bool:
    ranks = [n for n, s in enumerate(weighed(case), 1) if s.cause in case["first"]]
    return min(ranks) <= case.get("within", 1)


@pytest.mark.parametrize("name", ["tuned", "untuned"])
def test_cases_from_the_facts(name: str, record_property: Any) -> None:
    """Two scores: the untuned cases were written before any weight was moved, and none was moved for them."""
    cases = table(name)
    wrong = [case for case in cases if not right(case)]
    score = 100 * (1 - len(wrong) / len(cases))
    record_property(f"{name}_score_pct", score)
    print(f"{name}: {len(cases) - len(wrong)} of {len(cases)} cases right ({score:.1f} %)")
    assert len(cases) >= (80 if name == "untuned" else 30)
    assert score >= (95 if name == "untuned" else 100), wrong


def test_every_cause_and_symptom_of_the_trade_is_there() -> None:
    assert set(T.causes) == set(CAUSE_IDS.split())
    assert len(T.symptoms) == 48
    without = {
        cause for cause in T.causes if not any(c == cause and STRENGTH[s.strength] > 0 for (_, c), s in T.signs.items())
    }
    assert not without, f"never a cause of anything: {without}"


def test_every_cause_leads_some_untuned_case() -> None:
    """Each cause can be found: for all but the danger in the jar a case here names it as one that may lead."""
    named = {cause for case in (*table("untuned"), *table("tuned")) for cause in case["first"]}
    assert set(CAUSE_IDS.split()) - named <= {"starter_contaminated"}


OPPOSITES = [
    ("dense", {"bulk_h": 3, "bulk_c": 17, "starter_pct": 10}, {"bulk_h": 16, "bulk_c": 29, "starter_pct": 10}),
    ("flat", {"proof_h": 0.2, "proof_c": 18}, {"proof_h": 6, "proof_c": 28}),
    ("gummy", {"core_c": 84}, {"cut_after_min": 10, "core_c": 97}),
    ("pale", {"oven_c": 230, "oven_real_c": 180}, {"oven_c": 230, "oven_real_c": 230, "bulk_h": 24, "bulk_c": 26}),
    ("starter_flat", {"jar_c": 15, "starter_fed_h": 6}, {"jar_c": 25, "starter_fed_h": 300}),
    ("not_rising", {"dough_c": 16}, {"dough_c": 26, "salt_pct": 4.5}),
    ("stale_fast", {"loss_pct": 21}, {"loss_pct": 14, "hydration_pct": 48}),
]


@pytest.mark.parametrize(("symptom", "one", "other"), OPPOSITES)
def test_opposite_facts_give_opposite_leaders(symptom: str, one: dict[str, float], other: dict[str, float]) -> None:
    first, second = (weighed({"shows": [symptom], "said": said})[0].cause for said in (one, other))
    assert first != second and not kin(first, second, T)


symptoms_drawn = st.lists(st.sampled_from(sorted(T.symptoms)), min_size=1, max_size=3, unique=True)
findings_drawn = st.lists(st.sampled_from(sorted(T.findings)), max_size=4, unique=True)
figures_drawn = st.lists(
    st.builds(Figure, st.sampled_from(sorted(T.measures)), st.floats(-50, 400, allow_nan=False)),
    max_size=4,
    unique_by=lambda f: f.measure,
)


@given(symptoms_drawn, findings_drawn, figures_drawn)
def test_shares_are_shares(symptoms: list[str], findings: list[str], figures: list[Figure]) -> None:
    found = diagnose(Evidence(tuple(symptoms), (), tuple(figures), tuple(findings)), T)
    assert sum(s.share for s in found) == pytest.approx(1.0)
    assert all(0 <= s.share <= 1 for s in found)
    assert [s.share for s in found] == sorted((s.share for s in found), reverse=True)


@given(symptoms_drawn, findings_drawn, figures_drawn, st.randoms(use_true_random=False))
def test_the_order_of_evidence_does_not_matter(
    symptoms: list[str], findings: list[str], figures: list[Figure], chance: random.Random
) -> None:
    straight = diagnose(Evidence(tuple(symptoms), (), tuple(figures), tuple(findings)), T)
    for drawn in (symptoms, findings, figures):
        chance.shuffle(drawn)  # type: ignore[arg-type]
    mixed = diagnose(Evidence(tuple(symptoms), (), tuple(figures), tuple(findings)), T)
    assert [(s.cause, pytest.approx(s.share)) for s in straight] == [(s.cause, s.share) for s in mixed]


@given(symptoms_drawn, findings_drawn, figures_drawn, st.sampled_from(sorted(T.symptoms)))
def test_a_symptom_never_lowers_the_cause_it_is_typical_of(
    symptoms: list[str], findings: list[str], figures: list[Figure], more: str
) -> None:
    """Not its share among symptoms alone, nor, with facts, its odds against a cause that no fact speaks for."""
    if more in symptoms:
        return
    facts = (tuple(figures), tuple(findings))
    typical = [c for c in T.causes if (sign := T.signs.get((more, c))) is not None and sign.strength == "strong"]
    before = {s.cause: s for s in diagnose(Evidence(tuple(symptoms), (), *facts), T)}
    after = {s.cause: s for s in diagnose(Evidence((*symptoms, more), (), *facts), T)}
    shown = {c for c in T.causes if any(w.fact for w in before[c].for_it)}
    for cause in typical:
        if not shown:
            assert after[cause].share >= before[cause].share - 1e-12
        for rival in T.causes.keys() - shown:
            gained = after[cause].score - before[cause].score
            assert gained >= after[rival].score - before[rival].score - 1e-9


def test_one_hot_fact_outweighs_two_symptoms() -> None:
    """The root that was measured is named before the stage both symptoms are typical of."""
    found = weighed({"shows": ["yeasty_smell", "pale"], "said": {"dough_c": 32}})
    assert found[0].cause == "dough_warm"
    assert found[0].share > 0.5
    cold = weighed({"shows": ["dense", "pale"], "said": {"dough_c": 16}})
    assert cold[0].cause in ("dough_cold", "under_fermented")


def test_a_fact_that_accounts_for_nothing_seen_is_not_blamed() -> None:
    """A short first rise makes no dough run: what was measured must bear on what went wrong."""
    found = weighed({"shows": ["slack"], "said": {"bulk_h": 2, "bulk_c": 27}})
    assert found[0].cause != "under_fermented"


@given(symptoms_drawn, st.sampled_from(sorted(T.symptoms)))
def test_denying_a_symptom_never_raises_the_cause_it_is_typical_of(symptoms: list[str], denied: str) -> None:
    if denied in symptoms:
        return
    before = {s.cause: s.share for s in diagnose(Evidence(tuple(symptoms)), T)}
    after = {s.cause: s.share for s in diagnose(Evidence(tuple(symptoms), (denied,)), T)}
    for cause in T.causes:
        if (sign := T.signs.get((denied, cause))) is not None and sign.strength == "strong":
            assert after[cause] <= before[cause] + 1e-12


def test_a_fact_past_its_threshold_beats_a_symptom() -> None:
    """One clear fact turns a symptom round: a dense loaf whose dent stayed is not short of proof."""
    assert weighed({"shows": ["dense"]})[0].cause in ("under_fermented", "under_proofed", "starter_weak")
    found = {s.cause: n for n, s in enumerate(weighed({"shows": ["dense"], "found": ["dent_stayed"]}), 1)}
    assert found["over_proofed"] < found["under_proofed"]


def test_a_root_known_by_its_fact_is_named_with_its_stage_not_against_it() -> None:
    cold = {s.cause: s.share for s in weighed({"shows": ["dense"], "said": {"dough_c": 17}})}
    plain = {s.cause: s.share for s in weighed({"shows": ["dense"]})}
    assert cold["dough_cold"] > plain["dough_cold"]
    odds = cold["under_fermented"] / cold["yeast_dead"]
    assert odds > plain["under_fermented"] / plain["yeast_dead"]


def test_dependent_facts_count_less_than_their_sum() -> None:
    """A cold dough, a cold kitchen and a cold first rise are nearly one fact."""
    one = weights_of("dough_cold", Evidence(("dense",), (), (Figure("dough_c", 17),)), T)
    three = Evidence(("dense",), (), (Figure("dough_c", 17), Figure("room_c", 15), Figure("bulk_c", 15)))
    lone = {s.cause: s.score for s in diagnose(Evidence(("dense",), (), (Figure("dough_c", 17),)), T)}
    all_of_them = {s.cause: s.score for s in diagnose(three, T)}
    summed = sum(w.value for w in weights_of("dough_cold", three, T) if w.fact)
    alone = sum(w.value for w in one if w.fact)
    assert 0 < all_of_them["dough_cold"] - lone["dough_cold"] < summed - alone


def test_reasons_are_sentences_with_figures() -> None:
    leader = weighed({"shows": ["dense"], "said": {"bulk_h": 2, "bulk_c": 19, "starter_pct": 10}})[0]
    assert "2 h" in leader.for_it[0].say and "19 °C" in leader.for_it[0].say and "10 % starter" in leader.for_it[0].say


def test_a_breads_own_limits_come_first() -> None:
    """Core 90 is raw in a hearth loaf and done in a brioche."""
    loaf = weighed({"shows": ["gummy"], "said": {"core_c": 90}, "bread": "hearth_loaf"})
    rich = weighed({"shows": ["gummy"], "said": {"core_c": 90}, "bread": "brioche"})
    assert loaf[0].cause == "under_baked"
    assert rich[0].cause != "under_baked"


def test_a_question_answered_is_not_asked_again() -> None:
    evidence = Evidence(("dense",), (), (), ("dent_slow",))
    asked = {a.question.id for a in best_questions(evidence, diagnose(evidence, T), T)}
    assert "dent_question" not in asked


@given(symptoms_drawn)
def test_no_question_is_expected_to_tell_less_than_nothing(symptoms: list[str]) -> None:
    evidence = Evidence(tuple(symptoms))
    found = diagnose(evidence, T)
    shares = {s.cause: s.share for s in found}
    for question in T.questions.values():
        assert expected_bits(question, evidence, shares, T) >= 0


@given(st.sampled_from(sorted(T.questions)), st.sampled_from(sorted(T.causes)))
def test_the_answers_to_a_question_are_all_there_are(question: str, cause: str) -> None:
    for asked in T.questions[question].asks:
        assert sum(likelihoods(outcomes(asked, T), cause)) == pytest.approx(1.0)


def test_asking_stops_when_one_mishap_leads_clearly() -> None:
    evidence = Evidence(("slack", "bland"), (), (), ("salt_forgotten",))
    found = diagnose(evidence, T)
    assert settled(found, T) and next_question(evidence, found, T) is None


# Bakes simulated from the model


def answered(asked: str, cause: str, chance: random.Random) -> Outcome:
    """The true answer in a bake with this one fault: past the threshold where the fault shows, in order elsewhere."""
    answers = outcomes(asked, T)
    own = [o for o in answers if o.moves.get(cause, 0) >= 1.2] or [o for o in answers if o.moves.get(cause, 0) >= 0.6]
    if own:
        return chance.choices(own, [o.usual for o in own])[0]
    sound = [o for o in answers if all(m <= 0.3 for m in o.moves.values()) and o.moves.get(cause, 0) > -0.5]
    sound = sound or [o for o in answers if o.moves.get(cause, 0) > -0.5] or list(answers)
    return chance.choices(sound, [o.usual for o in sound])[0]


def simulated(chance: random.Random, questions: int) -> bool:
    """Whether the true cause, or one it is root or stage of, leads after at most so many questions.

    A bake has one fault, drawn by the priors; it shows in two of the symptoms it is strongly or usually behind; a baker
    answers a question as often as bakers can, and truly.
    """
    causes = [c for c in T.causes if c != "starter_contaminated"]
    cause = chance.choices(causes, [2.718 ** T.causes[c].prior for c in causes])[0]
    likely = {
        s: 2.718 ** T.strength(s, cause)
        for s in T.symptoms
        if (sign := T.signs.get((s, cause))) is not None and STRENGTH[sign.strength] >= 0.9
    }
    first = chance.choices(list(likely), list(likely.values()))[0]
    others = {s: w for s, w in likely.items() if s != first and T.symptoms[s].of == T.symptoms[first].of}
    shows = [first, *(chance.choices(list(others), list(others.values())) if others else [])]
    boiled = cause.startswith(("boil", "bath")) or {"sinks_in_bath", "hole_closed"} & set(shows)
    leaven = "made_with_yeast" if cause.startswith("yeast") else "made_with_starter"
    if not cause.startswith(("yeast", "starter")):
        leaven = chance.choice(["made_with_yeast", "made_with_starter"])
    findings = ["boiled_bread" if boiled else "unboiled_bread", leaven]
    figures: list[Figure] = []
    skipped: set[str] = set()
    for _ in range(questions):
        evidence = Evidence(tuple(shows), (), tuple(figures), tuple(findings))
        question = next_question(evidence, diagnose(evidence, T), T, frozenset(skipped))
        if question is None:
            break
        skipped.add(question.id)
        if chance.random() > question.known:
            continue
        for asked in question.asks:
            if asked not in evidence.known(T):
                outcome = answered(asked, cause, chance)
                if outcome.finding is not None:
                    findings.append(outcome.finding)
                elif outcome.value is not None:
                    figures.append(Figure(asked, outcome.value))
    leader = diagnose(Evidence(tuple(shows), (), tuple(figures), tuple(findings)), T)[0].cause
    return leader == cause or kin(leader, cause, T)


def test_three_questions_find_the_cause_of_simulated_bakes(record_property: Any) -> None:
    chance = random.Random(20260314)
    bakes = 800  # fewer, and the luck of the draw moves the score by two points either way
    found = sum(simulated(chance, 3) for _ in range(bakes))
    record_property("simulated_score_pct", 100 * found / bakes)
    print(f"simulated bakes: true cause leads after at most 3 questions in {100 * found / bakes:.1f} %")
    assert found >= 0.85 * bakes


def test_questions_tell_something() -> None:
    """The same bakes without a question are found far less often."""
    asked, unasked = random.Random(7), random.Random(7)
    assert sum(simulated(asked, 3) for _ in range(200)) > sum(simulated(unasked, 0) for _ in range(200)) + 40


def test_the_whole_table_can_be_read_by_the_trade(tmp_path: Path) -> None:
    sheet = evidence_sheet(T)
    path = tmp_path / "evidence.txt"
    path.write_text(sheet, encoding="utf-8")
    lines = path.read_text(encoding="utf-8").splitlines()
    for (symptom, cause), sign in T.signs.items():
        at = next(n for n, line in enumerate(lines) if line.startswith(f"  {symptom} ("))
        cell = f"    {sign.strength:<8} {cause}: {sign.tells_apart} ["
        assert any(line.startswith(cell) for line in lines[at : at + 40]), f"{symptom} and {cause} are not on the sheet"
    assert all(f"  {name}, " in sheet for name in T.measures)
    assert all(f"  {name} (about " in sheet for name in T.findings)
    assert "[]" not in sheet  # every line names its source
