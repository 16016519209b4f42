"""The terminal: what it prints, how it ends, and that no traceback ever reaches a person."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import foamwright
from foamwright import __main__ as terminal
from foamwright.estimate import Outcome, as_json, estimate
from foamwright.project.link import encode
from foamwright.project.model import Part, Project
from foamwright.project.notes import Problem
from foamwright.project.read import read_project
from foamwright.project.write import write_project

DATA = Path(__file__).parents[1] / "data"
TYPICAL = DATA / "typical.json"
ENGINE = Path(foamwright.__file__).parents[1]


def project_of(path: Path) -> Project:
    project = read_project(path.read_bytes()).project
    assert project is not None
    return project


class Terminal:
    """Runs one command in this process and keeps what it said."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
        self._monkeypatch = monkeypatch
        self._capsys = capsys

    def __call__(self, *words: str, stdin: bytes = b"") -> tuple[int, str, str]:
        self._monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        code = terminal.main(list(words))
        said = self._capsys.readouterr()
        assert "Traceback" not in said.out + said.err
        return code, said.out, said.err


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Terminal:
    return Terminal(monkeypatch, capsys)


def test_estimate_as_json_is_the_estimate(run: Terminal) -> None:
    code, out, err = run("estimate", str(TYPICAL), "--json")
    assert (code, err) == (0, "")
    answer = json.loads(out)
    assert answer == json.loads(json.dumps(as_json(estimate(project_of(TYPICAL)))))
    assert list(answer) == ["format", "estimate", "problems", "notes"]
    assert answer["problems"] == [] and answer["estimate"]["blocks"]["basis"] == "courses"


def test_a_file_and_stdin_give_the_same(run: Terminal) -> None:
    assert run("estimate", "-", "--json", stdin=TYPICAL.read_bytes()) == run(
        "estimate", str(TYPICAL), "--json"
    )


def test_the_default_project_draws_no_warning(run: Terminal) -> None:
    code, out, _ = run("estimate", "-", "--json", stdin=b'{"format": 1}')
    assert code == 0
    assert [note for note in json.loads(out)["notes"] if note["severity"] == "warning"] == []


@pytest.mark.parametrize(
    ("text", "path", "problem"),
    [
        (b"", "", "not_json"),
        (b"\xff", "", "not_text"),
        (b"[" * 100_000, "", "too_deep"),
        (b" " * 9_000_000, "", "too_large"),
        (b'{"format": 9}', "format", "format_newer"),
        (b'{"format": 1, "zz": 1}', "zz", "unknown_key"),
        (b'{"format": 1, "parts": [{"thickness_m": -0.2}]}', "parts[0].thickness_m", "too_small"),
        (
            b'{"format": 1, "parts": [{"openings": [{"height_m": 9}]}]}',
            "parts[0].openings[0].height_m",
            "opening_too_high",
        ),
    ],
)
def test_problems_end_with_two_and_no_estimate(
    run: Terminal, text: bytes, path: str, problem: str
) -> None:
    code, out, err = run("estimate", "-", "--json", stdin=text)
    assert (code, err) == (2, "")
    answer = json.loads(out)
    assert answer["estimate"] is None and set(answer) == {"format", "estimate", "problems", "notes"}
    first = answer["problems"][0]
    assert (first["path"], first["code"]) == (path, problem)
    assert set(first) >= {"path", "value", "limit", "code"}


def test_both_ways_to_problems_give_the_same_shape() -> None:
    problem = Problem("name", "x", 80, "text_too_long", {"length": 81})
    assert json.loads(terminal._answer([problem])) == json.loads(
        json.dumps(as_json(Outcome(None, (problem,), ())))
    )


def test_problems_in_words_name_field_value_and_limit(run: Terminal) -> None:
    text = b'{"format": 1, "parts": [{"thickness_m": -0.2}]}'
    code, out, err = run("estimate", "-", stdin=text)
    assert (code, out) == (2, "")
    assert err.startswith("parts[0].thickness_m: ")
    assert "-20\xa0cm" in err.replace("\u2212", "-") and " 3\xa0cm" in err
    assert (
        "parts[0].openings[0].height_m: "
        in run("estimate", "-", stdin=b'{"format": 1, "parts": [{"openings": [{"height_m": 9}]}]}')[2]
    )


def test_sheets_as_text_in_every_language_and_unit(run: Terminal) -> None:
    said = set()
    for language in ("en", "es", "ar"):
        for units in ("metric", "us", "imperial"):
            code, out, err = run("estimate", str(TYPICAL), "--lang", language, "--units", units)
            assert (code, err) == (0, ""), out[:500]
            assert "Guest dome, Tavomira" in out
            said.add(out)
    assert len(said) == 9


def test_link_and_open_are_each_other_turned_round(run: Terminal) -> None:
    code, out, err = run("link", str(TYPICAL))
    assert (code, err) == (0, "")
    assert out == encode(project_of(TYPICAL)) + "\n"
    opened = (0, write_project(project_of(TYPICAL)), "")
    assert run("open", out.strip()) == opened
    assert run("open", "-", stdin=out.encode()) == opened
    assert run("open", "-", stdin="رابط القبة: ".encode() + out.encode()) == opened


@pytest.mark.parametrize(
    "words",
    [
        ("link", "-"),
        ("open", "fw1000900ckI2Z3d"),
        ("open", "fw1"),
        ("open", "hello"),
        ("open", ""),
        ("open", "\ud800"),
        ("open", encode(Project(parts=(Part(thickness_m=-0.2),)))),
        ("link", "/no/such/file"),
        ("link", str(DATA)),
        ("link", "nul\0byte"),
        ("estimate", "/no/such/file"),
    ],
)
def test_what_cannot_be_taken_ends_with_two_and_a_sentence(
    run: Terminal, words: tuple[str, ...]
) -> None:
    code, out, err = run(*words, stdin=b'{"format": 1, "zz": 2}')
    assert (code, out) == (2, "")
    assert len(err.strip()) > 10


def test_a_file_that_is_not_there_is_named(run: Terminal) -> None:
    (problem,) = json.loads(run("estimate", "/no/such/file", "--json")[1])["problems"]
    assert (problem["value"], problem["code"]) == ("/no/such/file", "file_unreadable")
    assert problem["limit"]
    assert "/no/such/file" in run("estimate", "/no/such/file")[2]


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("estimate",),
        ("guess", "x"),
        ("estimate", "a", "b"),
        ("estimate", "x", "--units", "cubits"),
        ("estimate", "x", "--lang"),
        ("estimate", "x", "--lang", "!!"),
        ("link",),
        ("open",),
        ("open", "x", "--json"),
    ],
)
def test_misuse_ends_with_sixty_four(run: Terminal, words: tuple[str, ...]) -> None:
    code, out, err = run(*words)
    assert (code, out) == (64, "")
    assert err


def test_help_ends_well(run: Terminal) -> None:
    code, out, _ = run("--help")
    assert code == 0 and "estimate" in out


def test_a_fault_of_our_own_is_told_without_a_traceback(
    run: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: Any) -> Any:
        raise ZeroDivisionError("a fault made for this test")

    monkeypatch.setattr("foamwright.estimate.estimate", fail)
    code, out, _ = run("estimate", str(TYPICAL), "--json")
    (problem,) = json.loads(out)["problems"]
    assert code == 2 and problem["code"] == "engine_fault"
    assert problem["value"].startswith("ZeroDivisionError: a fault made")


def test_a_figure_that_is_no_number_is_never_printed(
    run: Terminal, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("foamwright.estimate.as_json", lambda _: {"estimate": float("nan")})
    code, out, _ = run("estimate", str(TYPICAL), "--json")
    assert code == 2 and json.loads(out)["problems"][0]["code"] == "engine_fault"


# --- as a process of its own ------------------------------------------------------------------


def process(*words: str, stdin: bytes = b"", **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "foamwright", *words],
        input=stdin,
        capture_output=True,
        timeout=120,
        env={**os.environ, "PYTHONPATH": str(ENGINE), **environment},
    )


def test_it_runs_as_a_module() -> None:
    done = process("estimate", "-", "--json", stdin=TYPICAL.read_bytes())
    assert done.returncode == 0 and done.stderr == b""
    assert json.loads(done.stdout)["format"] == 1
    assert process().returncode == 64


def test_a_terminal_that_is_not_unicode_still_prints_arabic() -> None:
    arabic = (DATA / "twelve_openings_arabic.json").read_bytes()
    code = process("link", "-", stdin=arabic).stdout
    done = process("open", "-", stdin=code, PYTHONIOENCODING="ascii", LC_ALL="C", PYTHONUTF8="0")
    assert done.returncode == 0 and "قبة".encode() in done.stdout
    done = process("open", "\udcff\udcfe", PYTHONIOENCODING="ascii", LC_ALL="C", PYTHONUTF8="0")
    assert done.returncode == 2 and b"Traceback" not in done.stderr


def test_a_reader_that_goes_away_is_no_fault() -> None:
    done = subprocess.run(
        f"{sys.executable} -m foamwright estimate {TYPICAL} --json | true",
        shell=True,
        capture_output=True,
        timeout=120,
        env={**os.environ, "PYTHONPATH": str(ENGINE)},
    )
    assert b"Traceback" not in done.stderr and b"BrokenPipe" not in done.stderr
