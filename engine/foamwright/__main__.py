"""The same engine in a terminal: ``python -m foamwright estimate FILE``."""

import argparse
import json
import os
import sys
from collections.abc import Iterable
from typing import Any, Final, NoReturn

from foamwright.project.link import MAX_CODE, decode, encode
from foamwright.project.model import FORMAT, Project
from foamwright.project.notes import Problem
from foamwright.project.quote import quote
from foamwright.project.read import MAX_BYTES, Reading, read_project
from foamwright.project.write import write_project

DONE: Final = 0
PROBLEMS: Final = 2
#: EX_USAGE of sysexits.h: the command was used in a wrong way.
MISUSE: Final = 64


def main(arguments: list[str] | None = None) -> int:
    """Run one command.

    Source: exit codes from sysexits.h (EX_USAGE).

    Parameters
    ----------
    arguments : list of str, optional
        The words after the command's name; left out, those of this process [-]

    Returns
    -------
    int
        0 when it is done, 2 when there are problems, 64 when the command was used in a wrong way [-]

    Notes
    -----
    Valid for any words. Raises nothing.

    Examples
    --------
    >>> main(["open", "fw1000900ckI2Z3c"])
    {
      "format": 1
    }
    0
    """
    try:
        chosen = _parser().parse_args(arguments)
    except SystemExit as end:
        return int(end.code or DONE)
    try:
        return int(chosen.run(chosen))
    except BrokenPipeError:
        # Whoever read our output has gone; leave nothing for the interpreter to flush at its end.
        sys.stdout = open(os.devnull, "w", encoding="utf-8")
        return DONE
    except KeyboardInterrupt:
        return 130
    except Exception as fault:
        # Without words, since it may be the words that failed.
        where = f"{type(fault).__name__}: {fault}"
        _say(sys.stdout, _answer([Problem("", quote(where), None, "engine_fault")]))
        return PROBLEMS


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(MISUSE, f"{self.prog}: {message}\n")


def _parser() -> _Parser:
    reader = _Parser(add_help=False)
    reader.add_argument("--lang", default="en", metavar="xx")
    reader.add_argument("--units", choices=("metric", "us", "imperial"), default="metric")
    parser = _Parser(prog="foamwright")
    commands = parser.add_subparsers(required=True)
    estimate = commands.add_parser("estimate", parents=[reader])
    estimate.add_argument("file", metavar="FILE")
    estimate.add_argument("--json", action="store_true")
    estimate.set_defaults(run=_estimate)
    link = commands.add_parser("link", parents=[reader])
    link.add_argument("file", metavar="FILE")
    link.set_defaults(run=_link)
    opened = commands.add_parser("open", parents=[reader])
    opened.add_argument("code", metavar="CODE")
    opened.set_defaults(run=_open)
    return parser


def _estimate(chosen: argparse.Namespace) -> int:
    # Units and languages are loaded where they are needed: `link` and `open` start without them.
    from foamwright.estimate import as_json, estimate
    from foamwright.reader import read_reader

    reader, unfit = read_reader({"language": chosen.lang, "units": chosen.units})
    if unfit:
        _tell(chosen, unfit)
        return MISUSE
    reading = _read_file(chosen.file)
    if reading.project is None or reading.problems:
        if chosen.json:
            _say(sys.stdout, _answer(reading.problems))
        else:
            _tell(chosen, reading.problems)
        return PROBLEMS
    outcome = estimate(reading.project)
    if chosen.json:
        _say(sys.stdout, json.dumps(as_json(outcome), ensure_ascii=False, indent=2, allow_nan=False))
    else:
        if outcome.problems:
            _tell(chosen, outcome.problems, reading.project)
        if outcome.estimate is None:
            return PROBLEMS
        from foamwright.sheets.text import render

        _say(sys.stdout, render(reading.project, reader).rstrip("\n"))
    return PROBLEMS if outcome.problems else DONE


def _link(chosen: argparse.Namespace) -> int:
    reading = _read_file(chosen.file)
    if reading.project is None or reading.problems:
        _tell(chosen, reading.problems)
        return PROBLEMS
    _say(sys.stdout, encode(reading.project))
    return DONE


def _open(chosen: argparse.Namespace) -> int:
    code = chosen.code
    if code == "-":
        # A code is ASCII; whatever else stands around it is passed over.
        code = sys.stdin.buffer.read(MAX_CODE + 1).decode("ascii", "replace")
    reading = decode(code)
    if reading.project is None or reading.problems:
        _tell(chosen, reading.problems)
        return PROBLEMS
    _say(sys.stdout, write_project(reading.project).rstrip("\n"))
    return DONE


def _tell(
    chosen: argparse.Namespace, problems: Iterable[Problem], project: Project | None = None
) -> None:
    """Say problems in words, beside the output and not in it."""
    from foamwright.estimate import Outcome
    from foamwright.reader import read_reader, speaker
    from foamwright.sheets.desk import Desk
    from foamwright.sheets.problems import problem_text

    reader, _ = read_reader({"language": chosen.lang, "units": chosen.units})
    desk = Desk(project or Project(), Outcome(None, tuple(problems), ()), speaker(reader))
    for problem in problems:
        where = f"{problem.path}: " if problem.path else ""
        _say(sys.stderr, where + problem_text(desk, problem))


def _read_file(name: str) -> Reading:
    try:
        if name == "-":
            return read_project(sys.stdin.buffer.read(MAX_BYTES + 1))
        with open(name, "rb") as file:
            return read_project(file.read(MAX_BYTES + 1))
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or type(fault).__name__
        return Reading(None, (Problem("", quote(name), reason, "file_unreadable"),))


def _answer(problems: Iterable[Problem]) -> str:
    said = [
        {"path": p.path, "value": p.value, "limit": p.limit, "code": p.code, "params": dict(p.params)}
        for p in problems
    ]
    answer: dict[str, Any] = {"format": FORMAT, "estimate": None, "problems": said, "notes": []}
    return json.dumps(answer, ensure_ascii=False, indent=2, allow_nan=False)


def _say(stream: Any, text: str) -> None:
    # A terminal that is not set to Unicode must not stop an Arabic project.
    if hasattr(stream, "reconfigure"):
        stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    print(text, file=stream, flush=True)


if __name__ == "__main__":
    sys.exit(main())
