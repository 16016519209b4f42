"""Courses beside the joints of parts: blocks that stand where another part or its room is are left out, as at an opening."""

import math
from functools import lru_cache
from typing import Final

from attrs import evolve

from foamwright.project.model import Part
from foamwright.shape.courses import SLIVER, Course
from foamwright.shape.joined import kept, passages
from foamwright.shape.measure import Shape

#: A joint that takes less of a course than this many blocks is closed with mortar [-].
_LEAST: Final = SLIVER


def beside_joints(parts: tuple[Part, ...], shape: Shape, place: int, courses: tuple[Course, ...]) -> tuple[Course, ...]:
    """Leave out of the courses of a part what its joints take.

    Source: arithmetic. The share of a course that goes is seen at the middle of its height, and taken as one gap in it whose ends cut two
    blocks alike.

    Parameters
    ----------
    parts : tuple of Part
        All parts of the project [-]
    shape : Shape
        The same, measured [-]
    place : int
        Place of the part in the project [-]
    courses : tuple of Course
        Its courses without joints [-]

    Returns
    -------
    tuple of Course
        Its courses [-]

    Examples
    --------
    >>> from foamwright.project.model import Block, Opening
    >>> from foamwright.shape.courses import lay
    >>> from foamwright.shape.measure import measure
    >>> pair = (Part(openings=(Opening(to="b"),)), Part(id="b", at_m=(6.2, 0.0)))
    >>> whole = lay(pair[1], Block())
    >>> laid = beside_joints(pair, measure(pair)[0], 1, whole)
    >>> whole[0].count, laid[0].count, laid[0].left_out, laid[0].cut
    (66, 63, 3, 2)
    """
    number = shape.places.index(place)
    if shape.parts[number].joints_volume_m3 <= 0:
        return courses
    own = parts[place].id
    mates = {name for joint in shape.joints for name in (joint.part, joint.to) if own in (joint.part, joint.to)}
    there = tuple(parts[at] for at in shape.places if parts[at].id in mates)
    led = {opening.to for part in there for opening in part.openings if opening.to}
    return _beside(there, own, tuple(sorted(led - mates)), courses)


@lru_cache(maxsize=256)
def _beside(parts: tuple[Part, ...], own: str, elsewhere: tuple[str, ...], courses: tuple[Course, ...]) -> tuple[Course, ...]:
    """The same, told by the part and those that it is joined to alone: an edit of another leaves it as it is."""
    number = next(k for k, part in enumerate(parts) if part.id == own)
    at = kept(parts, number, passages(parts, None, elsewhere)[0])
    return tuple(_gapped(course, 1 - _left(course, at(_middle(course)))) for course in courses)


def _middle(course: Course) -> float:
    low, high = course.height_m, course.top_height_m
    return (low + high + course.outside_height_m + course.outside_top_height_m) / 4


def _left(course: Course, left: dict[str, float]) -> float:
    return left.get(course.element, 1.0 if course.element.startswith("end") else left["shell"])


def _gapped(course: Course, gone: float) -> Course:
    """A course with a gap in it of this share of what is laid."""
    laid = course.whole + sum(course.cut_shares)
    wide = gone * laid
    if wide < _LEAST:
        return course
    out = min(course.whole, math.floor(wide + 1e-9))
    rest = min(wide - out, 1.0)
    whole, shares = course.whole - out, course.cut_shares
    if rest / 2 >= _LEAST and whole >= 2:
        whole, shares = whole - 2, (*shares, *(round(1 - rest / 2, 9),) * 2)
    if gone > 1 - 1e-6:
        whole, out, shares = 0, out + whole + len(shares), ()
    return evolve(
        course, whole=whole, cut_shares=shares, cut=len(shares), count=whole + len(shares), left_out=course.left_out + out,
    )  # fmt: skip
