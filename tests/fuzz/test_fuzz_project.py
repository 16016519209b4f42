"""Whatever comes in as a project file, a code or an edit: never a fault, never a hang, always an answer."""

import base64
import io
import json
import math
import sys
import time
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import attrs
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from foamwright import __main__ as terminal
from foamwright.estimate import Outcome, as_json, estimate
from foamwright.project import link
from foamwright.project.codes import PROBLEM_CODES
from foamwright.project.edit import (
    add_item,
    clear_prices,
    convert_currency,
    relabel_currency,
    remove_item,
    set_value,
)
from foamwright.project.link import decode, encode
from foamwright.project.model import FORMAT, Opening, Part, Project
from foamwright.project.notes import Problem
from foamwright.project.read import Reading, read_project
from foamwright.project.write import as_data, project_hash, write_project
from projects import build, paths_of, together

#: Seconds within which any one answer must come, on a slow and busy machine.
PATIENCE = 20

any_text = st.text(st.characters(exclude_categories=()), max_size=90)
any_number = st.one_of(
    st.integers(),
    st.floats(),
    st.sampled_from([10**400, -(10**400), 1e308, 5e-324, -0.0, 2**53, 10**18, 0.1 + 0.2]),
)
any_json = st.recursive(
    st.one_of(st.none(), st.booleans(), any_number, any_text),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(any_text, inner, max_size=4)),
    max_leaves=12,
)


@contextmanager
def soon() -> Iterator[None]:
    started = time.perf_counter()
    yield
    assert time.perf_counter() - started < PATIENCE


def valid_value(draw: Callable[..., Any], path: str, attribute: Any) -> Any:
    """Draw a value that the field's own rules allow."""
    meta = attribute.metadata
    kind = meta["kind"]
    if kind == "many":
        return draw(st.integers(meta["least"], min(meta["most"], 3)))
    if kind == "choice":
        return draw(st.sampled_from(meta["choices"]))
    if kind == "names":
        chosen = draw(st.sets(st.sampled_from(meta["choices"])))
        return tuple(name for name in meta["choices"] if name in chosen)
    numbers = st.floats(meta.get("low"), meta.get("high")).map(lambda value: value + 0.0)
    if kind == "row":
        return tuple(draw(numbers) for _ in range(meta["length"]))
    if kind == "points":
        return tuple(draw(st.lists(st.tuples(numbers, numbers), max_size=6)))
    if kind == "numbers":
        return tuple(draw(st.lists(st.integers(meta["low"], meta["high"]), max_size=4, unique=True)))
    if kind == "number" and meta["whole"]:
        return draw(st.integers(meta["low"], meta["high"]))
    if kind == "number":
        rounded = numbers.map(lambda value: min(max(round(value, 2), meta["low"]), meta["high"]) + 0.0)
        either = st.one_of(rounded, numbers)
        return draw(st.one_of(st.none(), either) if meta["optional"] else either)
    if attribute.name in ("currency", "from_currency"):
        return draw(st.from_regex(r"[A-Z]{3}", fullmatch=True))
    if attribute.name == "date":
        return draw(st.one_of(st.just(""), st.dates().map(lambda day: day.isoformat())))
    letters = st.characters(
        exclude_categories=("Cs", "Cc", "Zl", "Zp"),
        exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff\ufffe\uffff",
        include_characters="\n" if meta["lines"] else "",
    )
    texts = st.text(letters, max_size=min(meta["longest"], 30))
    return draw(st.one_of(st.none(), texts) if meta["optional"] else texts)


@st.composite
def projects(draw: Callable[..., Any]) -> Project:
    only = draw(st.sets(st.sampled_from([attribute.name for attribute in attrs.fields(Project)])))
    return together(
        build(Project, lambda path, attribute: valid_value(draw, path, attribute), only=only)
    )


@st.composite
def mutated_data(draw: Callable[..., Any]) -> Any:
    """Take a valid project's data and break one to three places in it."""
    data = as_data(draw(projects()), full=draw(st.booleans()))
    for _ in range(draw(st.integers(1, 3))):
        holder: Any = data
        while True:
            keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
            if not keys:
                break
            key = draw(st.sampled_from(keys))
            inner = holder[key]
            if isinstance(inner, dict | list) and draw(st.integers(0, 4)):
                holder = inner
                continue
            how = draw(st.sampled_from(["put", "drop", "rename", "wrap"]))
            if how == "put":
                holder[key] = draw(any_json)
            elif how == "drop":
                del holder[key]
            elif how == "wrap":
                holder[key] = [inner] * draw(st.sampled_from([0, 1, 2, 70]))
            elif isinstance(holder, dict):
                holder[draw(any_text)] = holder.pop(key)
            break
    return data


def sound_problem(problem: Problem) -> None:
    assert problem.code in PROBLEM_CODES
    assert problem.limit is not None, problem
    assert len(problem.path) < 300
    assert not isinstance(problem.value, str) or len(problem.value) <= 60, problem
    # It goes to a person and through JSON, so it must print.
    json.dumps(attrs.asdict(problem), allow_nan=False, ensure_ascii=False).encode("utf-8")
    whole = ("not_", "too_", "code_", "format_", "more_")
    assert problem.path or problem.code.startswith((*whole, "unknown_key", "duplicate_key")), problem


def sound(reading: Reading) -> None:
    assert len(reading.problems) <= 51
    for problem in reading.problems:
        sound_problem(problem)
    fatal = [
        problem for problem in reading.problems if problem.code not in ("unknown_key", "more_problems")
    ]
    if reading.project is None:
        assert reading.problems
    else:
        assert not fatal
        # What is taken keeps to the rules of every field.
        again = read_project(write_project(reading.project, full=True))
        assert again == Reading(reading.project)


# --- files ------------------------------------------------------------------------------------


@given(any_json)
def test_any_json_is_answered(data: Any) -> None:
    with soon():
        sound(read_project(data))
        sound(read_project(json.dumps(data)))


@given(
    st.dictionaries(
        st.one_of(st.sampled_from([f.name for f in attrs.fields(Project)]), any_text), any_json
    )
)
def test_any_object_with_our_keys_is_answered(data: dict[str, Any]) -> None:
    with soon():
        sound(read_project({"format": FORMAT, **data}))


@given(st.one_of(st.text(st.characters(exclude_categories=())), st.binary()))
@example("[" * 999_999)
@example('{"a":' * 166_666)
@example(b"\xef\xbb\xbf")
def test_any_text_is_answered(source: str | bytes) -> None:
    with soon():
        sound(read_project(source))


@given(mutated_data())
def test_a_mutated_project_is_answered(data: Any) -> None:
    with soon():
        reading = read_project(data)
        sound(reading)
        text = read_project(json.dumps(data))
        assert (text.project, [p.path for p in text.problems]) == (
            reading.project,
            [p.path for p in reading.problems],
        )


@given(projects(), st.data())
def test_a_mutated_text_is_answered(project: Project, data: st.DataObject) -> None:
    text = bytearray(write_project(project, full=data.draw(st.booleans())).encode())
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(text)))
        until = data.draw(st.integers(at, min(at + 20, len(text))))
        text[at:until] = data.draw(
            st.one_of(st.binary(max_size=6), st.sampled_from([b'"', b"{", b"1e999", b"NaN,", b"\\u"]))
        )
    with soon():
        sound(read_project(bytes(text)))
        sound(read_project(text.decode("utf-8", "replace")))


@given(projects())
def test_a_valid_project_is_taken_written_and_read_again(project: Project) -> None:
    assert read_project(as_data(project)) == Reading(project)
    for full in (False, True):
        again = read_project(write_project(project, full=full))
        assert again == Reading(project)
        assert again.project is not None and project_hash(again.project) == project_hash(project)


# --- codes ------------------------------------------------------------------------------------


@given(projects())
def test_a_project_comes_back_from_its_code_to_the_last_bit(project: Project) -> None:
    code = encode(project)
    assert code.isascii() and code.isalnum()
    found = decode(code)
    assert found == Reading(project)
    assert found.project is not None and repr(found.project) == repr(project)


@given(st.text(st.characters(exclude_categories=())))
def test_any_text_as_a_code_is_answered(text: str) -> None:
    for code in (text, "fw1" + text, "fw10009" + text):
        with soon():
            sound(decode(code))


@given(projects(), st.data())
def test_a_mutated_code_is_noticed(project: Project, data: st.DataObject) -> None:
    code = encode(project)
    at = data.draw(st.integers(0, len(code) - 1))
    until = data.draw(st.integers(at, min(at + 5, len(code))))
    put = data.draw(st.text("0123456789ABCDEFXYZabcxyz", max_size=5))
    broken = code[:at] + put + code[until:]
    assume(broken != code and code not in broken)
    with soon():
        reading = decode(broken)
    sound(reading)
    assert reading.project is None
    assert reading.problems[0].code in ("code_damaged", "code_foreign", "code_newer")


@given(projects(), st.data())
def test_spaces_and_words_around_a_code_are_passed_over(project: Project, data: st.DataObject) -> None:
    code = encode(project)
    spaces = st.sampled_from([" ", "\n", "\r\n> ", "\t", "\u200b", "\u00a0", "=\n", "\u00ad", "-"])
    for _ in range(data.draw(st.integers(0, 6))):
        at = data.draw(st.integers(0, len(code)))
        code = code[:at] + data.draw(spaces) + code[at:]
    before = data.draw(st.sampled_from(["", "https://example.org/a.html#", "Look: ", "fw1", "قبة "]))
    assert (
        decode(before + code + data.draw(st.sampled_from(["", ".", " bye", "&x=1", "fw1"]))).project
        == project
    )


@given(st.binary(), st.integers(0, 61))
def test_any_bytes_with_a_true_checksum_are_answered(body: bytes, version: int) -> None:
    with soon():
        sound(decode(link._seal(body, version)))
        sound(decode(link._seal(bytes([FORMAT * 2]) + body)))
        packer = zlib.compressobj(9, zlib.DEFLATED, -15)
        sound(decode(link._seal(bytes([FORMAT * 2 + 1]) + packer.compress(body) + packer.flush())))


@given(projects(), st.data())
def test_a_packed_project_with_a_changed_byte_and_a_true_checksum_is_answered(
    project: Project, data: st.DataObject
) -> None:
    found = link._unseal(encode(project))
    assert not isinstance(found, Problem)
    body = bytearray(found[1])
    for _ in range(data.draw(st.integers(1, 3))):
        body[data.draw(st.integers(0, len(body) - 1))] = data.draw(st.integers(0, 255))
    with soon():
        sound(decode(link._seal(bytes(body))))


# --- edits ------------------------------------------------------------------------------------

PATHS = [path for path, _ in paths_of(Project())]
LISTS = ["parts", "parts[0].openings", "market.prices", "batch.drum_marks"]
any_path = st.one_of(
    st.sampled_from(PATHS + LISTS + [f"{path}[0]" for path in LISTS]),
    any_text,
    st.from_regex(r"([a-z_]{1,8}|\[[0-9]{1,3}\])(\.[a-z_]{1,8}|\[[0-9]{1,3}\]){0,4}", fullmatch=True),
)


def sound_edit(reading: Reading) -> None:
    sound(reading)
    assert (reading.project is None) == bool(reading.problems)


@given(projects(), any_path, any_json)
def test_any_edit_is_answered(project: Project, path: str, value: Any) -> None:
    before = write_project(project, full=True)
    with soon():
        sound_edit(set_value(project, path, value))
        sound_edit(add_item(project, path))
        sound_edit(remove_item(project, path))
        if isinstance(value, dict):
            sound_edit(add_item(project, path, value))
    assert write_project(project, full=True) == before


@given(projects(), any_json, any_json, any_json)
def test_any_change_of_currency_is_answered(
    project: Project, currency: Any, rate: Any, date: Any
) -> None:
    with soon():
        sound_edit(relabel_currency(project, currency))
        sound_edit(clear_prices(project, currency))
        sound_edit(convert_currency(project, currency, rate, date))
        sound_edit(convert_currency(project, "XTS", rate, "2026-03-31"))


# --- the whole road ---------------------------------------------------------------------------


def sound_outcome(outcome: Outcome) -> None:
    for problem in outcome.problems:
        sound_problem(problem)
    assert outcome.problems or outcome.estimate is not None
    assert bool(outcome.left_out) == bool(outcome.problems and outcome.estimate)
    json.dumps(as_json(outcome), allow_nan=False)


@given(projects())
def test_any_valid_project_is_estimated_or_told_why_not(project: Project) -> None:
    with soon():
        sound_outcome(estimate(project))


def run(words: list[str], source: bytes) -> tuple[int, str, str]:
    out, err = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(source)))
        patch.setattr(sys, "stdout", out)
        patch.setattr(sys, "stderr", err)
        code = terminal.main(words)
    said = out.getvalue() + err.getvalue()
    assert code in (0, 2) and said.strip()
    assert "Traceback" not in said and "engine_fault" not in said, said
    said.encode("utf-8")
    return code, out.getvalue(), err.getvalue()


@given(st.one_of(mutated_data().map(lambda data: json.dumps(data).encode()), st.binary()))
def test_the_terminal_answers_any_file(source: bytes) -> None:
    with soon():
        code, out, _ = run(["estimate", "-", "--json"], source)
        answer = json.loads(out)
        assert (code == 2) == bool(answer["problems"])
        assert (answer["estimate"] is None) == (code == 2 and not answer.get("left_out"))
        partly = bool(answer.get("left_out"))
        for command in ("estimate", "link", "open"):
            code, out, err = run([command, "-"], source)
            assert (code == 2) == bool(err), "sentences go beside the output"
            assert bool(out) == (code == 0 or (partly and command == "estimate"))


@given(
    projects(),
    st.sampled_from(["en", "es", "ar"]),
    st.sampled_from(["metric", "us", "imperial"]),
)
def test_the_terminal_writes_sheets_for_any_project(
    project: Project, language: str, units: str
) -> None:
    source = write_project(project).encode()
    with soon():
        code, out, err = run(["estimate", "-", "--lang", language, "--units", units], source)
        assert (code == 2) == bool(err)
        assert bool(out) == (code == 0 or bool(estimate(project).left_out))


# --- cases with a name ------------------------------------------------------------------------


def codes(outcome: Outcome | Reading) -> set[tuple[str, str]]:
    return {(problem.path, problem.code) for problem in outcome.problems}


def test_a_ten_megabyte_link() -> None:
    with soon():
        assert codes(decode("https://example.org/#fw1" + "A" * 10_000_000)) == {("", "too_large")}


def test_a_zip_bomb() -> None:
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = packer.compress(bytes(100_000_000)) + packer.flush()
    with soon():
        assert codes(decode(link._seal(bytes([FORMAT * 2 + 1]) + packed))) == {("", "too_large")}


def test_markup_in_a_name_is_a_text_like_any_other() -> None:
    name = "<script>alert(1)</script> & \"'</style><!--"
    project = read_project({"format": 1, "name": name}).project
    assert project is not None and project.name == name
    assert decode(encode(project)).project == project
    assert json.loads(write_project(project))["name"] == name


def test_a_negative_thickness() -> None:
    (problem,) = read_project({"format": 1, "parts": [{"thickness_m": -0.2}]}).problems
    assert attrs.astuple(problem)[:4] == ("parts[0].thickness_m", -0.2, 0.03, "too_small")


def test_a_door_taller_than_the_dome() -> None:
    project = Project(parts=(Part(openings=(Opening(form="arched", height_m=9.0),)),))
    outcome = estimate(project)
    sound_outcome(outcome)
    assert codes(outcome) == {("parts[0].openings[0].height_m", "opening_too_high")}
    (problem,) = outcome.problems
    # The dome is 3.5 m high inside, and a door 0.9 m wide ends where the shell closes in on it.
    assert problem.value == 9.0 and isinstance(problem.limit, float) and 3.0 < problem.limit < 3.5


def test_two_openings_that_overlap() -> None:
    openings = (Opening(), Opening(azimuth_deg=5.0))
    outcome = estimate(Project(parts=(Part(openings=openings),)))
    sound_outcome(outcome)
    assert {problem.code for problem in outcome.problems} == {"openings_overlap"}
    assert outcome.problems[0].path.startswith("parts[0].openings[1]")


def test_a_lone_surrogate() -> None:
    for source in ('{"format": 1, "name": "\\ud800"}', '{"format": 1, "name": "\ud800"}'):
        assert codes(read_project(source)) == {("name", "text_unprintable")}
    assert codes(read_project(b'{"format": 1, "name": "\xed\xa0\x80"}')) == {("", "not_text")}
    assert codes(decode(encode(Project(name="\ud800")))) == {("name", "text_unprintable")}


def test_a_number_of_a_million_digits() -> None:
    text = '{"format": 1, "parts": [{"thickness_m": ' + "9" * 900_000 + "}]}"
    with soon():
        assert codes(read_project(text)) == {("parts[0].thickness_m", "too_big")}


def test_a_code_of_another_kind() -> None:
    other = base64.urlsafe_b64encode(zlib.compress(b'{"v": 1}')).decode()
    assert codes(decode(other)) <= {("", "code_foreign"), ("", "code_damaged")}


def test_every_sound_float_of_an_estimate_is_a_number() -> None:
    def visit(value: Any) -> None:
        if isinstance(value, dict):
            for inner in value.values():
                visit(inner)
        elif isinstance(value, list):
            for inner in value:
                visit(inner)
        elif isinstance(value, float):
            assert math.isfinite(value)

    visit(as_json(estimate(Project())))
