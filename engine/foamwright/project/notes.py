"""What the rooms say besides figures: coded, never worded."""

from typing import Literal

from attrs import field, frozen

from foamwright.project.codes import NOTE_CODES, PROBLEM_CODES

Scalar = str | float | int | bool | None
Severity = Literal["info", "caution", "warning"]


@frozen
class Problem:
    """A value that cannot be taken: where it stands, what it was, the limit it broke."""

    path: str
    value: Scalar
    limit: Scalar
    code: str = field()
    params: dict[str, Scalar] = field(factory=dict)

    @code.validator
    def _known(self, _: object, code: str) -> None:
        if code not in PROBLEM_CODES:
            raise ValueError(f"code={code} is not listed in codes.py")


@frozen
class Note:
    """Something a reader must be told beside a figure; ``params`` hold SI floats and codes."""

    code: str = field()
    severity: Severity = "info"
    path: str = ""
    params: dict[str, Scalar] = field(factory=dict)
    source: str = ""

    @code.validator
    def _known(self, _: object, code: str) -> None:
        if code not in NOTE_CODES:
            raise ValueError(f"code={code} is not listed in codes.py")
