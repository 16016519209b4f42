"""The diary: kept, read, merged and written without loss, and what the project learns of it."""

import csv
import importlib
import io
import json
import pkgutil
import re
from pathlib import Path
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st
from properties import cases
from scipy import stats

import foamwright.diary
import test_docstrings
from foamwright.diary import notes
from foamwright.project import codes
from foamwright.diary.causes import READINGS, SYMPTOMS, Cause, search
from foamwright.diary.entries import (
    COLUMNS,
    KINDS,
    BatchMade,
    BlocksMade,
    Diary,
    Entry,
    FoamWeighed,
    Remark,
    Undo,
    add,
    as_data,
    merge,
    new_id,
    next_counter,
    read_csv,
    read_diary,
    standing,
    write_csv,
    write_diary,
)
from foamwright.diary.plan import Edit, Planned, compare, facts, forecast, propose
from foamwright.diary.weighed import points, tried
from foamwright.project.edit import set_value
from foamwright.project.model import Mix, Project
from foamwright.project.quote import UNPRINTABLE, UNPRINTABLE_IN_LINE

AT = "2026-05-01T08:00"


# --- any diary --------------------------------------------------------------------------------


def field_values(attribute: Any) -> st.SearchStrategy[Any]:
    meta = attribute.metadata
    if meta["kind"] == "choice":
        return st.sampled_from(meta["choices"])
    if meta["kind"] == "text":
        bad = UNPRINTABLE if meta["lines"] else UNPRINTABLE_IN_LINE
        marks = st.sampled_from("=+-@'\",;\n سa1.\u0967")
        letters = st.text(marks | st.characters(), max_size=min(meta["longest"], 12))
        return letters.filter(lambda value: not bad.search(value))
    if meta["whole"]:
        found: st.SearchStrategy[Any] = st.integers(int(meta["low"]), int(meta["high"]))
    else:
        found = st.floats(meta["low"], meta["high"]).map(lambda value: value + 0.0)
    return st.none() | found if meta["optional"] else found


def contents(cls: type[Any]) -> st.SearchStrategy[Any]:
    if cls is Undo:
        return st.builds(Undo, ids)
    return st.builds(cls, **{a.name: field_values(a) for a in attrs.fields(cls)})


ids = st.builds(new_id, st.sampled_from(["a", "k3f9"]), st.integers(0, 3))
times = st.sampled_from([AT, "2026-05-01T08:00:30", "2026-05-02T07:15Z", "2026-04-30T23:59+02:00"])
any_content = st.sampled_from(tuple(KINDS.values())).flatmap(contents)
any_entry = st.builds(Entry, ids, times, any_content)


def kept(entries: list[Entry]) -> Diary:
    """Give a diary as adding makes it: of one id the first alone, in order."""
    diary = Diary()
    for entry in entries:
        diary = add(diary, as_data(entry)).diary or diary
    return diary


diaries = st.lists(any_entry, max_size=5).map(kept)


@cases
@given(diaries)
def test_json_and_csv_give_the_same_diary_to_the_last_bit(diary: Diary) -> None:
    taken = read_diary(write_diary(diary))
    assert taken.problems == () and taken.diary == diary
    sheet = write_csv(diary)
    taken = read_csv(sheet)
    assert taken.problems == () and taken.diary == diary
    rows = list(csv.reader(io.StringIO(sheet, newline=""), strict=True))
    assert rows[0] == list(COLUMNS) and all(len(row) == len(COLUMNS) for row in rows)
    assert sheet.endswith("\r\n")


@cases
@given(diaries, diaries, diaries)
def test_merging_loses_and_doubles_nothing_in_any_order(a: Diary, b: Diary, c: Diary) -> None:
    both = merge(a, b)[0]
    assert both == merge(b, a)[0]
    assert merge(a, a)[0] == a
    assert merge(both, b)[0] == both
    assert merge(both, c)[0] == merge(a, merge(b, c)[0])[0]
    assert len({entry.id for entry in both.entries}) == len(both.entries)

    def told(diary: Diary) -> set[tuple[str, str]]:
        return {
            (entry.id.partition("~")[0], repr(attrs.evolve(entry, id=""))) for entry in diary.entries
        }

    assert told(both) == told(a) | told(b)
    assert len(both.entries) == len(told(both))
    taken = read_diary(write_diary(both))
    assert taken.diary == both
    assert read_csv(write_csv(both)).diary == both


@cases
@given(diaries)
def test_what_stands_is_told_in_any_diary(diary: Diary) -> None:
    """Undos in chains, in circles and of nothing at all."""
    entries, _ = standing(diary)
    assert set(entries) <= set(diary.entries)
    targets = {e.what.target for e in diary.entries if isinstance(e.what, Undo)}
    for entry in diary.entries:
        if entry.id not in targets and not isinstance(entry.what, Undo):
            assert entry in entries


# --- reading ----------------------------------------------------------------------------------

GOOD = {"id": "k3-0", "at": AT, "kind": "foam", "gross_g": 595, "empty_g": 500}


def why(data: dict[str, Any]) -> tuple[str, str]:
    taken = read_diary({"format": 1, "entries": [data]})
    assert taken.diary is None
    return taken.problems[0].path, taken.problems[0].code


@pytest.mark.parametrize(
    ("change", "path", "code"),
    [
        ({"id": "K3-0"}, "id", "entry_id_unreadable"),
        ({"id": None}, "id", "missing"),
        ({"id": 7}, "id", "entry_id_unreadable"),
        ({"at": "2026-02-30T08:00"}, "at", "date_unreadable"),
        ({"at": "01/05/2026 08:00"}, "at", "date_unreadable"),
        ({"at": "2026-05-01"}, "at", "date_unreadable"),
        ({"kind": "cake"}, "kind", "not_a_choice"),
        ({"kind": ["foam"]}, "kind", "not_a_choice"),
        ({"gross_g": -1}, "gross_g", "too_small"),
        ({"gross_g": "595"}, "gross_g", "wrong_kind"),
        ({"gross_g": float("nan")}, "gross_g", "not_finite"),
        ({"gross_g": True}, "gross_g", "wrong_kind"),
        ({"grossg": 1}, "grossg", "unknown_key"),
        ({"agent": "a\nb"}, "agent", "text_unprintable"),
        ({"agent": "a" * 41}, "agent", "text_too_long"),
    ],
)
def test_entries_are_read_strictly(change: dict[str, Any], path: str, code: str) -> None:
    assert why(GOOD | change) == (f"entries[0].{path}", code)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "not_json"),
        ("[]", "not_object"),
        ("{}", "format_missing"),
        ('{"format": 2, "entries": []}', "format_newer"),
        ('{"format": "1", "entries": []}', "format_unknown"),
        ('{"format": 0, "entries": []}', "format_unknown"),
        ('{"format": 1, "entries": {}}', "wrong_kind"),
        ('{"format": 1, "entries": [1]}', "wrong_kind"),
        ('{"format": 1, "entry": []}', "unknown_key"),
        ('{"format": 1, "format": 1, "entries": []}', "duplicate_key"),
        ("[" * 100, "too_deep"),
    ],
)
def test_files_are_read_strictly(text: str, code: str) -> None:
    taken = read_diary(text)
    assert taken.diary is None and taken.problems[0].code == code


def test_an_id_stands_once() -> None:
    assert read_diary({"format": 1, "entries": [GOOD, GOOD]}).problems[0].code == "duplicate_id"
    diary = add(Diary(), GOOD).diary
    assert diary is not None
    assert add(diary, GOOD).problems[0].code == "duplicate_id"


def test_older_formats_are_brought_up() -> None:
    """A pretend format 0 that called the kind ``what`` is migrated by a step."""

    def step(data: dict[str, Any]) -> dict[str, Any]:
        return data | {
            "entries": [{("kind" if k == "what" else k): v for k, v in e.items()} for e in data["entries"]]
        }

    old = {"format": 0, "entries": [{"id": "k3-0", "at": AT, "what": "note", "text": "dry"}]}
    assert read_diary(old, steps={0: step}).diary == Diary((Entry("k3-0", AT, Remark("dry")),))
    broken = read_diary({"format": 0}, steps={0: step})
    assert broken.diary is None and broken.problems[0].code == "format_unknown"


HEAD = "format,id,at,kind,gross_g,empty_g,volume_l,volume_standard_l,resolution_g,label\n"


@pytest.mark.parametrize(
    ("row", "path", "code"),
    [
        (f'1,k3-0,{AT},foam,"595,5",500,1,0,1,', "rows[0].gross_g", "number_ambiguous"),
        (f'1,k3-0,{AT},foam,"1.234,5",500,1,0,1,', "rows[0].gross_g", "number_ambiguous"),
        (f"1,k3-0,{AT},foam,1 234,500,1,0,1,", "rows[0].gross_g", "number_ambiguous"),
        (f"1,k3-0,{AT},foam,1'234,500,1,0,1,", "rows[0].gross_g", "number_ambiguous"),
        (f"1,k3-0,{AT},foam,595 g,500,1,0,1,", "rows[0].gross_g", "number_unreadable"),
        (f"1,k3-0,{AT},foam,,500,1,0,1,", "rows[0].gross_g", "number_empty"),
        (f"1,k3-0,{AT},foam,1e999,500,1,0,1,", "rows[0].gross_g", "too_big"),
        ("1,k3-0,01.05.2026,foam,595,500,1,0,1,", "rows[0].at", "date_unreadable"),
        (f"1,k3-0,{AT},foam,595,500,1,0,1,x", "rows[0].label", "unknown_key"),
        (f"1,k3-0,{AT},foam,595,500", "rows[0]", "csv_damaged"),
        (f"2,k3-0,{AT},foam,595,500,1,0,1,", "rows[0].format", "format_newer"),
        (f'1,k3-0,{AT},foam,"595,500', "", "csv_damaged"),
    ],
)
def test_csv_is_not_guessed_at(row: str, path: str, code: str) -> None:
    taken = read_csv(HEAD + row + "\n")
    assert taken.diary is None
    assert (taken.problems[0].path, taken.problems[0].code) == (path, code)


def test_csv_headers() -> None:
    assert read_csv("").problems[0].code == "missing"
    assert read_csv("format;id;at;kind\n").problems[0].code == "csv_separator"
    assert read_csv("format,id,at,kind,cake\n").problems[0].code == "unknown_key"
    assert read_csv("format,id,at,kind,at\n").problems[0].code == "duplicate_key"
    assert read_csv("\ufeff" + HEAD).diary == Diary()
    assert read_csv("kind,at,id,format,text\nnote," + AT + ",k3-0,1,dry\n").diary == Diary(
        (Entry("k3-0", AT, Remark("dry")),)
    )


def test_a_spreadsheet_meets_no_formula() -> None:
    sheet = write_csv(Diary((Entry("k3-0", AT, Remark("=1+1")),)))
    assert ",'=1+1" in sheet and ",=1+1" not in sheet


@cases
@given(st.text(max_size=300) | st.text('{}[]":,0123456789eE.-formatentriesidk3', max_size=200))
def test_wild_text_never_raises(text: str) -> None:
    for taken in (read_diary(text), read_csv(text), read_csv(HEAD + text)):
        assert (taken.diary is None) == bool(taken.problems)


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.text(max_size=5) | st.integers(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=5,
)


@cases
@given(st.dictionaries(st.sampled_from((*COLUMNS, "x")), json_values, max_size=8), st.sampled_from([*KINDS]))
def test_wild_entries_never_raise(data: dict[str, Any], kind: str) -> None:
    for each in (data, GOOD | data, GOOD | data | {"kind": kind, "id": "k3-0", "at": AT}):
        taken = add(Diary(), each)
        assert (taken.diary is None) == bool(taken.problems)


# --- undo, merge, ids -------------------------------------------------------------------------


def test_an_undo_strikes_and_an_undo_of_it_brings_back() -> None:
    made = [Entry("a-0", AT, BlocksMade(9)), Entry("a-1", AT, Undo("a-0"))]
    assert standing(Diary(tuple(made)))[0] == ()
    assert len(Diary(tuple(made)).entries) == 2
    made.append(Entry("b-0", AT, Undo("a-1")))
    assert [entry.id for entry in standing(Diary(tuple(made)))[0]] == ["a-0"]
    made.append(Entry("a-2", AT, Undo("b-0")))
    assert standing(Diary(tuple(made)))[0] == ()


def test_undos_that_lead_nowhere_are_told() -> None:
    _, remarks = standing(Diary((Entry("a-0", AT, Undo("a-9")),)))
    assert [remark.code for remark in remarks] == ["undo_without_target"]
    _, remarks = standing(Diary((Entry("a-0", AT, Undo("a-1")), Entry("a-1", AT, Undo("a-0")))))
    assert [remark.code for remark in remarks] == ["undo_in_circle"] * 2


def test_a_conflict_keeps_both_and_strikes_neither_by_mistake() -> None:
    one = Diary((Entry("a-0", AT, BlocksMade(9)), Entry("a-1", AT, Undo("a-0"))))
    other = Diary((Entry("a-0", AT, BlocksMade(8)),))
    both, remarks = merge(one, other)
    assert [remark.code for remark in remarks] == ["diary_conflict"]
    entries, said = standing(both)
    assert sorted(e.what.made for e in entries if isinstance(e.what, BlocksMade)) == [8, 9]
    assert [remark.code for remark in said] == ["undo_without_target"]
    assert next_counter(both, "a") == 2
    # A part of it that travels alone keeps its mark, so that no undo of the plain id strikes it later.
    alone = Diary(tuple(entry for entry in both.entries if "~" in entry.id)[:1])
    assert merge(alone, Diary())[0] == alone


# --- weighed ----------------------------------------------------------------------------------


def foam(number: int, **fields: Any) -> Entry:
    return Entry(f"a-{number}", f"2026-05-01T08:{number:02}", FoamWeighed(595.0, 500.0, **fields))


def test_settings_are_those_since_the_last_change() -> None:
    diary = Diary((foam(0, agent="x", air=1.0), foam(1, agent="y", air=2.0), foam(2, agent="y"), foam(3, agent="y", air=3.0)))
    assert [(each.air, each.liquid) for each in tried(diary)] == [(2.0, 0.0), (3.0, 0.0)]
    assert [point.density_kg_m3 for point in points(diary)] == [95.0] * 4


# --- plan against fact ------------------------------------------------------------------------


def season(lost: int = 1, poured: int = 9, made: int = 90, broken: int = 6) -> Diary:
    entries = []
    outcomes = ["calibration"] * 2 + ["lost"] * lost + ["poured"] * poured
    for place, outcome in enumerate(outcomes):
        what = BatchMade(outcome, bags=1.0, cement_kg=42.6, yield_l=150.0 + place, foam_l=120.0)
        entries.append(Entry(f"a-{place}", f"2026-05-{1 + place // 4:02}T08:00", what))
    for place in range(3):
        what_made = BlocksMade(made // 3, broken // 3)
        entries.append(Entry(f"b-{place}", f"2026-05-{2 + place:02}T09:00", what_made))
    return Diary(tuple(entries))


PLANNED = Planned(94.0, 1.0, 159.0, 123.0, 900.0, 30.0)


def test_plan_beside_fact() -> None:
    lines = {line.code: line for line in compare(PLANNED, facts(season()))}
    assert lines["yield_l"].planned == 159.0 and lines["yield_l"].fact == pytest.approx(157.0)
    assert lines["bags"].fact == 12.0 and lines["batches"].fact == 12.0
    assert lines["blocks"].fact == 84.0 and lines["broken"].fact == 6.0
    assert lines["days"].fact == 4.0 and lines["days"].planned == 30.0


def test_what_is_ahead_has_a_range_around_it() -> None:
    ahead, remarks = forecast(PLANNED, facts(season()))
    found = {each.code: each for each in ahead}
    assert set(found) == {"blocks", "batches", "bags", "days"} and remarks == ()
    for each in ahead:
        assert 0 <= each.low < each.likely < each.high or each.code == "days"
    assert found["blocks"].likely == pytest.approx((900 - 84) / (84 / 90))
    assert found["batches"].likely == pytest.approx(found["blocks"].likely * 9 / 90 / 0.9)
    done = forecast(Planned(94.0, 1.0, 159.0, 123.0, 50.0), facts(season()))[0]
    assert all(each.likely == 0 for each in done)


def test_too_little_is_not_learnt_from() -> None:
    few = facts(season(lost=0, poured=2, made=9, broken=0))
    ahead, remarks = forecast(PLANNED, few)
    assert ahead == () and {remark.code for remark in remarks} == {"plan_too_few"}
    edits, remarks = propose(Project(), few)
    assert edits == () and {remark.code for remark in remarks} == {"plan_too_few"}


def test_what_was_measured_is_proposed_and_can_be_taken() -> None:
    project = Project()
    diary = Diary((*season().entries, *(foam(n + 20, dilution=35.0) for n in range(6))))
    edits, _ = propose(project, facts(diary))
    assert all(isinstance(edit, Edit) for edit in edits)
    by_path = {edit.path: edit for edit in edits}
    # The foam weighs what the project says: nothing to change there.
    assert set(by_path) == {
        "waste.lost_batches_fraction",
        "waste.breakage_fraction",
        "waste.calibration_batches",
        "mix.yield_l",
        "foam.agent_dilution",
    }
    assert by_path["waste.lost_batches_fraction"].new == pytest.approx(0.1)
    assert by_path["waste.breakage_fraction"].new == pytest.approx(6 / 90)
    assert by_path["waste.breakage_fraction"].readings == 90
    assert by_path["mix.yield_l"].new == pytest.approx(157.0 / 42.6 * 94 * 0.45359237)
    assert by_path["foam.agent_dilution"].new == 35.0
    for edit in edits:
        assert edit.low <= edit.new <= edit.high
        taken = set_value(project, edit.path, edit.new)
        assert taken.project is not None
        project = taken.project
    assert propose(project, facts(diary))[0] == ()


def test_wilson_against_scipy() -> None:
    """The range of a share against scipy's Wilson interval at the same coverage."""
    level = stats.norm.cdf(2) - stats.norm.cdf(-2)
    edits, _ = propose(Project(), facts(season()))
    edit = next(edit for edit in edits if edit.path == "waste.breakage_fraction")
    oracle = stats.binomtest(6, 90).proportion_ci(level, "wilson")
    assert (edit.low, edit.high) == pytest.approx((oracle.low, oracle.high), abs=1e-9)


def test_a_yield_that_was_solved_is_not_typed_over() -> None:
    mix = Mix(given=("cement_kg", "water_l", "foam_density_kg_m3", "wet_density_kg_m3"), wet_density_kg_m3=480.0)
    edits, remarks = propose(Project(mix=mix), facts(season()))
    assert "mix.yield_l" not in {edit.path for edit in edits}
    assert "plan_yield_not_given" in {remark.code for remark in remarks}


def test_beyond_a_limit_is_told_and_not_proposed() -> None:
    edits, remarks = propose(Project(), facts(season(lost=30, poured=3)))
    assert "waste.lost_batches_fraction" not in {edit.path for edit in edits}
    assert "plan_beyond_limit" in {remark.code for remark in remarks}


@cases
@given(diaries)
def test_any_diary_can_be_learnt_from(diary: Diary) -> None:
    found = facts(diary)
    compare(PLANNED, found)
    forecast(PLANNED, found)
    propose(Project(), found)


# --- causes -----------------------------------------------------------------------------------

CASES = json.loads((Path(__file__).parents[1] / "data" / "cases.json").read_text("utf-8"))["cases"]


def found_in(case: dict[str, Any], without: str = "") -> tuple[Cause, ...]:
    readings = {name: value for name, value in case["readings"].items() if name != without}
    return search(tuple(case["symptoms"]), readings)[0].causes


def test_there_are_twenty_cases_of_every_symptom() -> None:
    assert len({case["id"] for case in CASES}) == 20
    assert {symptom for case in CASES for symptom in case["symptoms"]} == set(SYMPTOMS)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_the_expected_cause_is_among_the_first_two_with_its_evidence(case: dict[str, Any]) -> None:
    first = found_in(case)[:2]
    cause = next(cause for cause in first if cause.code == case["expected"])
    assert set(case["evidence"]) <= {sign.sign for sign in cause.speaks_for}
    assert all(sign.basis and sign.source for sign in (*cause.speaks_for, *cause.speaks_against))
    assert cause.score == sum(sign.weight for sign in (*cause.speaks_for, *cause.speaks_against))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_a_reading_taken_away_changes_the_ranking_or_the_certainty(case: dict[str, Any]) -> None:
    def told(causes: tuple[Cause, ...]) -> list[tuple[str, str]]:
        return [(cause.code, cause.certainty) for cause in causes[:2]]

    assert told(found_in(case)) != told(found_in(case, without=case["decisive"]))


def test_every_cause_can_be_found_and_every_reading_counts() -> None:
    causes = {cause.code for cause in search((), {})[0].causes}
    assert {case["expected"] for case in CASES} == causes
    abouts = {cause.about for cause in search((), {})[0].causes}
    assert {"quality", "quantity"} <= abouts
    tested = {cause.next_reading for cause in search((), {})[0].causes}
    assert tested <= set(READINGS) and "" not in tested


def test_quality_is_not_taken_for_quantity() -> None:
    """Foam of the right weight and a batch of the wrong one speak of quantity alone, and the other way."""
    causes = search(("weak_core",), {"foam_density_ratio": 1.0, "wet_density_ratio": 0.9})[0].causes
    assert causes[0].about == "quantity"
    assert {c.code: c.certainty for c in causes}["foam_too_wet"] == "against"
    causes = search(("weak_core",), {"foam_density_ratio": 1.2, "wet_density_ratio": 1.0})[0].causes
    assert causes[0].about == "quality"
    assert {c.code: c.certainty for c in causes}["too_much_foam"] == "against"


def test_quality_and_quantity_are_told_apart_by_the_time_of_the_foam() -> None:
    found, _ = search(("weak_core",), {"wet_density_ratio": 0.9, "foam_density_ratio": 1.2})
    assert {cause.code for cause in found.causes[:2]} == {"foam_too_wet", "too_much_foam"}
    assert found.tell_apart == "time_output"


def test_two_close_causes_are_told_apart_by_a_named_test() -> None:
    found, remarks = search(("sinks", "wet_foam"), {"drain_quarter_minutes": 3.0, "water_hardness_mg_l": 150.0})
    assert {found.causes[0].code, found.causes[1].code} == {"hard_water", "agent_bad"}
    assert found.tell_apart == "drain_with_soft_water"
    assert "cause_close" in {remark.code for remark in remarks}
    assert search((), {})[1][0].code == "cause_nothing_recorded"
    assert search(("sinks",), {})[1][0].code == "cause_no_reading"
    assert all(cause.certainty != "strong" for cause in search(("sinks",), {})[0].causes)


@cases
@given(
    st.lists(st.sampled_from((*SYMPTOMS, "other"))),
    st.dictionaries(st.sampled_from((*READINGS, "other")), st.floats(allow_nan=True)),
)
def test_wild_signs_never_raise(symptoms: list[str], readings: dict[str, float]) -> None:
    found, _ = search(tuple(symptoms), readings)
    scores = [cause.score for cause in found.causes]
    assert scores == sorted(scores, reverse=True)


# --- words and codes --------------------------------------------------------------------------

MODULES = [
    importlib.import_module(f"foamwright.diary.{found.name}")
    for found in pkgutil.iter_modules(foamwright.diary.__path__)
]


def test_the_diary_says_what_the_other_rooms_say(monkeypatch: pytest.MonkeyPatch) -> None:
    """Docstrings, units, sources and examples by the tests of the other rooms."""
    monkeypatch.setattr(test_docstrings, "MODULES", MODULES)
    functions = dict(test_docstrings._functions())
    records = {
        name: thing
        for module in MODULES
        for name, thing in test_docstrings._own(module)
        if attrs.has(thing)
    }
    assert len(functions) > 25 and len(records) > 25
    monkeypatch.setattr(test_docstrings, "FUNCTIONS", functions)
    monkeypatch.setattr(test_docstrings, "RECORDS", records)
    for name in functions:
        test_docstrings.test_functions(name)
    for name in records:
        test_docstrings.test_records(name)
    for module in MODULES:
        test_docstrings.test_examples(module)


def test_codes_are_listed_and_used() -> None:
    text = "".join(Path(module.__file__ or "").read_text("utf-8") for module in MODULES)
    listed = Path(codes.__file__ or "").read_text("utf-8")
    own = [code for part in listed.split("# diary\n")[1:] for code in re.findall(r'"(\w+)"', part.split("}")[0])]
    assert len(own) == 34
    for code in own:
        uses = text.count(f'"{code}"') + text.count('f"foam_{reading.verdict}_window"') * code.endswith("_window")
        assert uses > 0, code
    with pytest.raises(ValueError, match="not listed"):
        notes.note("made_up")
    with pytest.raises(ValueError, match="not listed"):
        notes.problem("", 1, 2, "made_up")
