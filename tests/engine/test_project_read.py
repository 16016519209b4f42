"""Reading project files: what is taken, and what each refusal says."""

import json
import time
from pathlib import Path
from typing import Any

import attrs
import pytest

from foamwright.project.codes import PROBLEM_CODES
from foamwright.project.model import FORMAT, Opening, Part, Project
from foamwright.project.notes import Problem
from foamwright.project.quote import MAX_QUOTED, quote
from foamwright.project.read import (
    _KINDS,
    MAX_BYTES,
    MAX_DEPTH,
    MAX_PROBLEMS,
    Reading,
    read_project,
)
from foamwright.project.write import write_project

DATA = Path(__file__).parents[1] / "data"


def refused(source: Any) -> Problem:
    """Read something that has one problem, and give it."""
    reading = read_project(source)
    assert reading.project is None
    (problem,) = reading.problems
    return problem


def with_part(**fields: Any) -> dict[str, Any]:
    return {"format": 1, "parts": [fields]}


def with_opening(**fields: Any) -> dict[str, Any]:
    return with_part(openings=[fields])


def told(problem: Problem) -> tuple[Any, ...]:
    return problem.path, problem.value, problem.limit, problem.code


def test_format_alone_is_the_default_project() -> None:
    assert read_project('{"format": 1}') == Reading(Project())


def test_text_bytes_and_data_read_alike() -> None:
    text = (DATA / "typical.json").read_text("utf-8")
    expected = read_project(text)
    assert expected.project is not None and not expected.problems
    assert read_project(text.encode()) == expected
    assert read_project(json.loads(text)) == expected
    assert read_project("\ufeff" + text) == expected, "a byte order mark, as some editors write it"
    assert read_project(b"\xef\xbb\xbf" + text.encode()) == expected


def test_every_field_is_read_from_its_own_key() -> None:
    data = {
        "format": 1,
        "parts": [{"thickness_m": 0.3, "at_m": [1, -2.5], "openings": [{"to": "main", "count": 3.0}]}],
        "mix": {"given": ["yield_l", "water_l"], "cement_kg": None},
    }
    project = read_project(data).project
    assert project is not None
    assert project.parts == (
        Part(thickness_m=0.3, at_m=(1.0, -2.5), openings=(Opening(to="main", count=3),)),
    )
    assert project.mix.given == ("water_l", "yield_l"), "a set is kept in one order"
    assert project.mix.cement_kg is None
    assert type(project.parts[0].at_m[0]) is float
    assert type(project.parts[0].openings[0].count) is int


@pytest.mark.parametrize(
    ("source", "problem"),
    [
        ("", ("", "", "JSON", "not_json")),
        ("{'format': 1}", ("", "'format': 1}", "JSON", "not_json")),
        ('{"format": 1', ("", "", "JSON", "not_json")),
        ('{"format": 1}{', ("", "{", "JSON", "not_json")),
        ('{"name": "tab\there"}', ("", '\\u0009here"}', "JSON", "not_json")),
        (b"\xff\xfe{", ("", "0xff", "UTF-8", "not_text")),
        ("[]", ("", "[]", "object", "not_object")),
        ("null", ("", None, "object", "not_object")),
        ("1e999", ("", "1e999", "object", "not_object")),
        (None, ("", None, "object", "not_object")),
        (17, ("", 17, "object", "not_object")),
        ("{}", ("format", None, FORMAT, "format_missing")),
        ({"format": True}, ("format", True, FORMAT, "format_unknown")),
        ({"format": "1"}, ("format", "1", FORMAT, "format_unknown")),
        ({"format": 1.0}, ("format", 1.0, FORMAT, "format_unknown")),
        ({"format": None}, ("format", None, FORMAT, "format_unknown")),
        ({"format": 0}, ("format", 0, FORMAT, "format_unknown")),
        ({"format": -(10**400)}, ("format", "-1e400", FORMAT, "format_unknown")),
        ({"format": 2}, ("format", 2, FORMAT, "format_newer")),
        ({"format": 10**400}, ("format", "1e400", FORMAT, "format_newer")),
        ('{"format": 1, "name": "a", "name": "b"}', ("name", "name", 1, "duplicate_key")),
        (
            '{"format": 1, "parts": [{}, {"id": "b", "stem_height_m": 0, "stem_height_m": 1}]}',
            ("parts[1].stem_height_m", "stem_height_m", 1, "duplicate_key"),
        ),
    ],
)
def test_the_file_as_a_whole(source: Any, problem: tuple[Any, ...]) -> None:
    assert told(refused(source)) == problem


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (with_part(thickness_m=-0.2), ("parts[0].thickness_m", -0.2, 0.03, "too_small")),
        (with_part(thickness_m=2), ("parts[0].thickness_m", 2, 1.5, "too_big")),
        (with_part(thickness_m="0.2"), ("parts[0].thickness_m", "0.2", "number", "wrong_kind")),
        (with_part(thickness_m=True), ("parts[0].thickness_m", True, "number", "wrong_kind")),
        (with_part(thickness_m=None), ("parts[0].thickness_m", None, "number", "missing")),
        (with_part(thickness_m=float("nan")), ("parts[0].thickness_m", "NaN", 1.5, "not_finite")),
        (with_part(thickness_m=[0.2]), ("parts[0].thickness_m", "[…]", "number", "wrong_kind")),
        (with_part(thickness_m={}), ("parts[0].thickness_m", "{}", "number", "wrong_kind")),
        (with_part(at_m=[1]), ("parts[0].at_m", 1, 2, "too_few")),
        (with_part(at_m=[1, 2, 3]), ("parts[0].at_m", 3, 2, "too_many")),
        (with_part(at_m=[1, None]), ("parts[0].at_m[1]", None, "number", "missing")),
        (with_part(at_m=[1, 9e9]), ("parts[0].at_m[1]", 9e9, 1000, "too_big")),
        (with_part(at_m="12"), ("parts[0].at_m", "12", "list", "wrong_kind")),
        (with_opening(count=1.5), ("parts[0].openings[0].count", 1.5, "whole", "not_whole")),
        (with_opening(count=0), ("parts[0].openings[0].count", 0, 1, "too_small")),
        (with_opening(form=3), ("parts[0].openings[0].form", 3, "text", "wrong_kind")),
        (
            with_opening(form="oval"),
            ("parts[0].openings[0].form", "oval", "rectangular, arched, pointed, round", "not_a_choice"),
        ),
        ({"format": 1, "name": "x" * 81}, ("name", "x" * 59 + "…", 80, "text_too_long")),
        ({"format": 1, "name": 5}, ("name", 5, "text", "wrong_kind")),
        ({"format": 1, "parts": []}, ("parts", 0, 1, "too_few")),
        ({"format": 1, "parts": [{}] * 101}, ("parts", 101, 100, "too_many")),
        ({"format": 1, "parts": {}}, ("parts", "{}", "list", "wrong_kind")),
        ({"format": 1, "parts": [7]}, ("parts[0]", 7, "object", "wrong_kind")),
        ({"format": 1, "parts": [{}, {}]}, ("parts[1].id", "main", 1, "duplicate_id")),
        ({"format": 1, "place": 7}, ("place", 7, "object", "wrong_kind")),
        ({"format": 1, "mix": {"given": "x"}}, ("mix.given", "x", "list", "wrong_kind")),
        (
            {"format": 1, "mix": {"given": ["yield_l", "yield_l"]}},
            ("mix.given[1]", "yield_l", 1, "duplicate_key"),
        ),
        ({"format": 1, "mix": {"given": ["yield_l"] * 99}}, ("mix.given", 99, 8, "too_many")),
        (
            {"format": 1, "bucket": {"foam_low_kg_m3": 96}},
            ("bucket.foam_low_kg_m3", 96.0, 95.0, "bucket_window_order"),
        ),
        (
            {"format": 1, "bucket": {"foam_high_kg_m3": 94}},
            ("bucket.foam_high_kg_m3", 94.0, 95.0, "bucket_window_order"),
        ),
        (
            {
                "format": 1,
                "batch": {
                    "drum_marks": [
                        {"volume_l": 20, "height_m": 0.1},
                        {"volume_l": 20, "height_m": 0.2},
                    ]
                },
            },
            ("batch.drum_marks[1].volume_l", 20.0, 20.0, "drum_marks_order"),
        ),
        (
            {"format": 1, "market": {"currency": "usd"}},
            ("market.currency", "usd", "ISO 4217", "currency_unknown"),
        ),
        (
            {"format": 1, "market": {"converted": {"from_currency": "€"}}},
            ("market.converted.from_currency", "€", "ISO 4217", "currency_unknown"),
        ),
        (
            {"format": 1, "market": {"converted": {"date": "2026-02-30"}}},
            ("market.converted.date", "2026-02-30", "YYYY-MM-DD", "date_unreadable"),
        ),
        (
            {"format": 1, "market": {"converted": {"date": "20260203"}}},
            ("market.converted.date", "20260203", "YYYY-MM-DD", "date_unreadable"),
        ),
    ],
)
def test_one_field(data: Any, problem: tuple[Any, ...]) -> None:
    assert told(refused(data)) == problem
    assert told(refused(json.dumps(data))) == problem


def test_a_whole_number_that_no_float_holds() -> None:
    problem = refused(with_part(thickness_m=10**5000))
    assert told(problem) == ("parts[0].thickness_m", "1e5000", 1.5, "too_big")


@pytest.mark.parametrize(
    ("literal", "problem"),
    [
        ("NaN", ("NaN", 1.5, "not_finite")),
        ("-Infinity", ("-Infinity", 1.5, "not_finite")),
        ("1e999", ("1e999", 1.5, "too_big")),
        ("-1e999", ("-1e999", 0.03, "too_small")),
        ("9" * 5000, ("9" * 59 + "…", 1.5, "too_big")),
        ("9" * 30, (1e30, 1.5, "too_big")),
    ],
)
def test_numbers_that_no_float_holds(literal: str, problem: tuple[Any, ...]) -> None:
    found = refused('{"format": 1, "parts": [{"thickness_m": %s}]}' % literal)
    assert told(found) == ("parts[0].thickness_m", *problem)


def test_limits_themselves_are_taken() -> None:
    for edge in (0.03, 1.5):
        project = read_project(with_part(thickness_m=edge)).project
        assert project is not None and project.parts[0].thickness_m == edge


def test_minus_zero_is_zero() -> None:
    project = read_project('{"format": 1, "parts": [{"stem_height_m": -0.0}]}').project
    assert project is not None
    assert str(project.parts[0].stem_height_m) == "0.0"


@pytest.mark.parametrize(
    ("text", "character"),
    [
        ("a\ud800b", "U+D800"),
        ("turn\u202eover", "U+202E"),
        ("isolate\u2066", "U+2066"),
        ("bell\x07", "U+0007"),
        ("two\nlines", "U+000A"),
        ("C1\x85", "U+0085"),
        ("line\u2028separator", "U+2028"),
        ("\ufeffmark", "U+FEFF"),
    ],
)
def test_texts_that_cannot_be_printed(text: str, character: str) -> None:
    for source in ({"format": 1, "name": text}, json.dumps({"format": 1, "name": text})):
        problem = refused(source)
        assert (problem.path, problem.code) == ("name", "text_unprintable")
        assert problem.params["character"] == character
        json.dumps(attrs.asdict(problem), ensure_ascii=False).encode("utf-8")


def test_a_lone_surrogate_standing_in_the_text_itself() -> None:
    assert refused('{"format": 1, "name": "a\ud800"}').code == "text_unprintable"
    assert refused('\ud800{"format": 1}').code == "not_json"


@pytest.mark.parametrize(
    "text",
    ["<b onclick=x>", "قبة", "नमस्ते", "می\u200cخواهم", "👩‍🌾", "a\u200eb", 'say "x" \\ y', "Ἀθῆναι"],
)
def test_texts_are_kept_as_they_are(text: str) -> None:
    project = read_project({"format": 1, "name": text}).project
    assert project is not None and project.name == text


def test_line_breaks_only_where_a_text_has_lines() -> None:
    project = read_project({"format": 1, "note": "one\r\ntwo\nthree"}).project
    assert project is not None and project.note == "one\ntwo\nthree"


def test_unknown_keys_are_told_and_the_rest_is_read() -> None:
    reading = read_project({"format": 1, "name": "A", "parts": [{"thicknes_m": 0.3}], "zz": {"a": 1}})
    assert reading.project is not None and reading.project.name == "A"
    first, second = reading.problems
    assert told(first)[:2] == ("parts[0].thicknes_m", "thicknes_m")
    assert first.code == "unknown_key" and first.params == {"nearest": "thickness_m"}
    assert str(first.limit).startswith("id, shape, profile")
    assert (second.path, second.params) == ("zz", {})
    assert read_project({"format": 1, "zz": 1, "name": 5}).project is None


@pytest.mark.parametrize("key", [7, None, "a.b[0]", "\ud800", "k" * 5000, ""])
def test_keys_of_any_kind_are_told_safely(key: Any) -> None:
    (problem,) = read_project({"format": 1, key: 1}).problems
    assert problem.code == "unknown_key" and len(problem.path) <= MAX_QUOTED
    problem.path.encode("utf-8")


def test_all_problems_are_told_at_once_up_to_a_limit() -> None:
    reading = read_project({"format": 1, "name": 1, "note": 2, "foam": {"agent_dilution": 0}})
    assert [problem.path for problem in reading.problems] == ["name", "note", "foam.agent_dilution"]
    many = read_project({"format": 1, **{f"key{index}": 1 for index in range(70)}}).problems
    assert len(many) == MAX_PROBLEMS + 1
    assert told(many[-1]) == ("", 20, MAX_PROBLEMS, "more_problems")


def test_depth() -> None:
    def nested(depth: int) -> str:
        return '{"format": 1, "zz": ' + "[" * (depth - 1) + "]" * (depth - 1) + "}"

    assert read_project(nested(MAX_DEPTH)).problems[0].code == "unknown_key"
    assert told(refused(nested(MAX_DEPTH + 1))) == ("", MAX_DEPTH + 1, MAX_DEPTH, "too_deep")
    assert refused("[" * 900_000).code == "too_deep"
    assert refused('{"a":' * 150_000).code == "too_deep"
    brackets_in_text = json.dumps({"format": 1, "name": '[[[[[[[[[[["\\[[[[[[[[[[[['})
    assert read_project(brackets_in_text).project is not None


def test_data_that_contains_itself() -> None:
    data: dict[str, Any] = {"format": 1}
    data["parts"] = [data]
    assert {problem.code for problem in read_project(data).problems} == {"unknown_key"}


def test_size() -> None:
    head = '{"format": 1, "name": "'
    fits = head + "é" * ((MAX_BYTES - len(head) - 2) // 2) + '"}'
    assert MAX_BYTES - 1 <= len(fits.encode()) <= MAX_BYTES
    assert refused(fits).code == "text_too_long"
    assert refused(fits + " " * 10).code == "too_large"
    assert refused((fits + " " * 10).encode()).code == "too_large"
    assert told(refused("x" * 10_000_000)) == ("", 10_000_000, MAX_BYTES, "too_large")


@pytest.mark.parametrize(
    "text",
    [
        '"' * 999_999,
        '"a\\' * 333_333,
        '\\"' * 499_999,
        "9" * 1_000_000,
        "0." + "1" * 999_990,
        '{"format": 1, "name": "' + "\\u0041" * 166_000 + '"}',
        '{"format": 1, ' + ",".join(f'"k{index}": {index}' for index in range(60_000)) + "}",
        '{"format": 1, "parts": [' + ",".join(["{}"] * 300_000) + "]}",
        '{"format": 1, "zz": [' + ",".join(['{"a":1,"a":2}'] * 60_000) + "]}",
    ],
    ids=["quotes", "escapes", "escaped", "digits", "decimals", "unicode", "keys", "parts", "twice"],
)
def test_no_text_takes_long(text: str) -> None:
    started = time.perf_counter()
    reading = read_project(text)
    assert reading.project is None or reading.problems
    # Generous, for a slow and busy machine; a quadratic scan of a megabyte would take many minutes.
    assert time.perf_counter() - started < 10


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, None),
        (True, True),
        (0.25, 0.25),
        (-float("inf"), "-Infinity"),
        (10**17, 10**17),
        ("short", "short"),
        ("x" * 60, "x" * 60),
        ("x" * 61, "x" * 59 + "…"),
        ("\ud800", "\\ud800"),
        ("\x00" * 50, "\\u0000" * 9 + "\\u000" + "…"),
        (object(), "object"),
    ],
)
def test_quote(value: object, shown: object) -> None:
    assert quote(value) == shown
    assert type(quote(value)) is type(shown)


def test_every_kind_of_field_in_the_model_can_be_read() -> None:
    kinds: set[str] = set()

    def visit(cls: Any) -> None:
        for attribute in attrs.fields(cls):
            kinds.add(attribute.metadata["kind"])
            if "cls" in attribute.metadata:
                visit(attribute.metadata["cls"])

    visit(Project)
    assert kinds == set(_KINDS)


def test_the_defaults_keep_their_own_limits() -> None:
    assert read_project(write_project(Project(), full=True)) == Reading(Project())


def test_codes_are_plain_words() -> None:
    assert all(code.isascii() and code.replace("_", "a").islower() for code in PROBLEM_CODES)
