"""The section through a dome or across a vault as SVG, in centimetres of the building, never mirrored.

Coordinates depend on the project alone; only the labels depend on the reader, so the drawing has the same
shape in every language and direction of writing.
"""

from collections.abc import Callable, Iterator
from functools import lru_cache
from html import escape
from math import cos, hypot, pi, radians, sin, sqrt
from unicodedata import category

from attrs import frozen

from foamwright.project.model import Part
from foamwright.shape.meridian import Face, Meridian, line, meridian
from foamwright.shape.openings import Cut, azimuths, cut
from foamwright.shape.vault import spots
from foamwright.sheets.hood_drawing import cut_hood

#: Height of the standing figure that gives the scale [m]: common practice in drawings, no source.
PERSON_M = 1.70
HEADROOM_M = 2.0
_STEPS = 48
#: Where on its way from springing to crown a shell of one thickness is measured.
_MARKED = 0.56


@frozen
class Labels:
    """The texts of a section drawing, already in the reader's words and units."""

    title: str
    words: str
    diameter: str
    height: str
    stem: str
    thickness: str
    headroom: str
    openings: tuple[str, ...]
    rise: str = ""
    crown_thickness: str = ""
    crown_opening: str = ""


def _cm(value: float) -> str:
    return f"{value * 100:.1f}".rstrip("0").rstrip(".")


def _path(points: list[tuple[float, float]], closed: bool = True) -> str:
    body = "L".join(f"{_cm(x)} {_cm(-z)}" for x, z in points)
    return f"M{body}{'Z' if closed else ''}"


@lru_cache(maxsize=256)
def _points(face: Face) -> tuple[tuple[float, float], ...]:
    """Points of a face that are near enough for a drawing; each stretch of it asks for them anew."""
    return face.points(_STEPS)


def between(face: Face, low: float, high: float) -> list[tuple[float, float]]:
    """Points of one face on the right of the axis from one height to another."""
    inner = [(r, z) for r, z in _points(face) if low < z < high]
    return [(face.radius(low), low), *inner, (face.radius(high), high)]


def beyond(shell: Meridian, low: float, high: float) -> list[tuple[float, float]]:
    """Points of the outside on the right of the axis, the skewback at its foot with them."""
    foot = shell.outside.foot_m
    if low >= foot:
        return between(shell.outside, low, high)
    if high <= foot:
        return [(shell.reach(low), low), (shell.reach(high), high)]
    return [(shell.reach(low), low), *between(shell.outside, foot, high)]


def _outline(section: Cut) -> list[tuple[float, float]]:
    """The edge of an opening as (sideways, height above the floor), from its sill round to it again."""
    heights = [
        section.low_m + (section.high_m - section.low_m) * (1 - cos(pi * i / _STEPS)) / 2 for i in range(_STEPS + 1)
    ]
    right = [(section.half_width(z), z) for z in heights]
    return [*right, *[(-u, z) for u, z in reversed(right)]]


def _placed(part: Part) -> Iterator[tuple[int, Cut, float]]:
    for i, opening in enumerate(part.openings):
        for azimuth in azimuths(opening):
            yield i, cut(opening), azimuth % 360


def _seen(face: Face, section: Cut, azimuth: float) -> list[tuple[float, float]]:
    """Project an opening's edge on the inside face to the plane of the section [m]."""
    a = radians(azimuth)
    points = []
    for u, z in _outline(section):
        depth = sqrt(max(face.radius(z) ** 2 - u * u, 0.0))
        points.append((depth * cos(a) - u * sin(a), z))
    return points


def _text(x: float, z: float, words: str, size: float, extra: str = "", anchor: str = "middle") -> str:
    return (
        f'<text x="{_cm(x)}" y="{_cm(-z)}" font-size="{_cm(size)}" text-anchor="{anchor}"{extra}>'
        f"{escape(words)}</text>"
    )


def _dimension(a: tuple[float, float], b: tuple[float, float], size: float) -> str:
    """A dimension line with a short stroke across each end."""
    (x0, z0), (x1, z1) = a, b
    length = hypot(x1 - x0, z1 - z0) or 1.0
    nx, nz = -(z1 - z0) / length * size / 3, (x1 - x0) / length * size / 3
    ends = "".join(
        f"M{_cm(x - nx)} {_cm(-(z - nz))}L{_cm(x + nx)} {_cm(-(z + nz))}" for x, z in (a, b)
    )
    return f'<path class="dim" d="M{_cm(x0)} {_cm(-z0)}L{_cm(x1)} {_cm(-z1)}{ends}"/>'


def _touch(path: str, label: str, body: str) -> str:
    return (
        f'<g class="touch" data-path="{escape(path)}" tabindex="0" role="button" '
        f'aria-label="{escape(label)}">{body}</g>'
    )


def _letters(words: str) -> int:
    """How many letters take room; marks that only steer the direction take none."""
    return sum(category(letter) != "Cf" for letter in words)


def _label(x: float, z: float, words: str, size: float) -> str:
    """A label on a plate of the paper's colour, wide enough for a finger."""
    w = max(_letters(words) * size * 0.56, size * 2.4) + size * 0.5
    h = size * 1.5
    plate = (
        f'<rect class="plate" x="{_cm(x - w / 2)}" y="{_cm(-(z + h / 2))}" width="{_cm(w)}" '
        f'height="{_cm(h)}" rx="{_cm(size / 4)}"/>'
    )
    return plate + _text(x, z - size * 0.34, words, size)


def _person(x: float) -> str:
    """A standing figure of our own, so that the eye has a measure."""
    head, h = 0.115, PERSON_M
    body = [
        (-0.20, 1.40), (0.20, 1.40), (0.23, 0.80), (0.13, 0.80), (0.12, 0.0),
        (0.02, 0.0), (0.0, 0.72), (-0.02, 0.0), (-0.12, 0.0), (-0.13, 0.80), (-0.23, 0.80),
    ]  # fmt: skip
    shape = _path([(x + dx, z) for dx, z in body])
    return (
        f'<g class="person"><circle cx="{_cm(x)}" cy="{_cm(-(h - head))}" r="{_cm(head)}"/>'
        f'<path d="{shape}"/></g>'
    )


def _jamb(radius: Callable[[float], float], section: Cut, flat: bool) -> list[tuple[float, float]]:
    """Where the far side of an opening that is cut through meets a face, seen square to the section [m]."""
    right = _outline(section)[: _STEPS + 1]
    return [(radius(z) if flat else sqrt(max(radius(z) ** 2 - u * u, 0.0)), z) for u, z in right]


@frozen
class Holes:
    """The openings as the section meets them.

    ``through`` holds, for each side of the axis (1 is right), those that it cuts: lowest and highest
    point and index. ``seen`` holds those beyond it: index and edge.
    """

    through: dict[int, list[tuple[float, float, int]]]
    seen: list[tuple[int, list[tuple[float, float]]]]


def _round_about(part: Part, face: Face) -> Holes:
    """Find how the openings of a dome stand to a section along azimuth 0."""
    holes = Holes({}, [])
    for i, section_cut, azimuth in _placed(part):
        for side, at in ((1, 0.0), (-1, 180.0)):
            if abs((azimuth - at + 180) % 360 - 180) < 0.5:
                holes.through.setdefault(side, []).append((section_cut.low_m, section_cut.high_m, i))
        if 0.5 < azimuth < 179.5:
            holes.seen.append((i, _seen(face, section_cut, azimuth)))
    return holes


def looks_to(part: Part) -> str:
    """Return the end of a vault that its cross-section looks to: end b, unless only end a has openings.

    Source: the drawing's own choice.

    Parameters
    ----------
    part : Part
        The vault [-]

    Returns
    -------
    str
        ``end_a`` or ``end_b`` [-]

    Examples
    --------
    >>> looks_to(Part(shape="vault"))
    'end_b'
    """
    walls = {spot.wall for opening in part.openings for spot in spots(part, opening)}
    return "end_a" if "end_a" in walls and "end_b" not in walls else "end_b"


def holes(part: Part) -> Holes:
    """Find how the openings of a dome or a vault stand to its section."""
    return _across(part) if part.shape == "vault" else _round_about(part, meridian(part).inside)


def jamb(part: Part, shell: Meridian, section_cut: Cut) -> list[tuple[float, float]]:
    """Return the edge of an opening that the section cuts, on the right of the axis: its way through the shell [m]."""
    flat = part.shape == "vault"
    return [*_jamb(shell.inside.radius, section_cut, flat), *reversed(_jamb(shell.reach, section_cut, flat))]


def _across(part: Part) -> Holes:
    """Find the openings of a vault in its cross-section: all in its sides are cut, those in the far end seen."""
    holes = Holes({}, [])
    end = looks_to(part)
    left = 1 if end == "end_b" else -1
    for i, opening in enumerate(part.openings):
        section_cut = cut(opening)
        for spot in spots(part, opening):
            if spot.wall.startswith("side"):
                side = -left if spot.wall == "side_a" else left
                mark = (section_cut.low_m, section_cut.high_m, i)
                row = holes.through.setdefault(side, [])
                if mark not in row:
                    row.append(mark)
            elif spot.wall == end:
                middle = left * (spot.along_m - part.inside_span_m / 2)
                holes.seen.append((i, [(middle + u, z) for u, z in _outline(section_cut)]))
    return holes


@lru_cache(maxsize=256)
def section(part: Part, path: str, labels: Labels) -> str:
    """Draw the section through the axis of a dome, cut along azimuth 0, or across a vault.

    Source: the profile of the shape room; openings as the project file defines them.

    Parameters
    ----------
    part : Part
        The part; lengths inside it are in metres [m]
    path : str
        The part's path in the project, for the fields that a touch leads to [-]
    labels : Labels
        The texts [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    shell, vaulted = meridian(part), part.shape == "vault"
    face, outer = shell.inside, shell.outside
    r, stem, crown = face.radius(0.0), part.stem_height_m, face.crown_m
    ro = outer.radius(outer.foot_m)
    size = max(2 * ro * 0.062, 0.06)
    found = _across(part) if vaulted else _round_about(part, face)
    hoods = (cut_hood(part, part.openings[i]) for gaps in found.through.values() for _, _, i in gaps)
    # What is measured beside the shell stands clear of its hoods.
    ro = max((ro, *(hood[2] for hood in hoods if hood is not None)))
    left, right = -ro - size * 5.3, ro + size * (7.0 if labels.rise and stem > 0 else 3.4)
    above = size * 2.4 if labels.crown_opening or labels.crown_thickness else 0.0
    marked = line(part).at(_MARKED)
    label = stem + marked.height_m + (part.thickness_m + size * 1.1) * marked.normal_z + size * 1.3
    top, bottom = max(outer.crown_m + size * 0.9 + above, label), -size * 3.4
    width = f"{path}.inside_span_m" if vaulted else f"{path}.inside_diameter_m"

    ground = (
        f'<path class="ground" d="M{_cm(left)} 0L{_cm(right)} 0"/>'
        f'<rect class="soil" x="{_cm(left)}" y="0" width="{_cm(right - left)}" height="{_cm(size * 0.45)}"/>'
    )
    inner = between(face, 0.0, crown)
    room = _path([*inner, *[(-x, z) for x, z in reversed(inner)]])

    walls, tops = [], []
    for side in (1, -1):
        spans, low = [], 0.0
        for a, b, _ in sorted(found.through.get(side, [])):
            if a > low:
                spans.append((low, a))
            low = max(low, b)
        for a, b in spans:
            ring = [*beyond(shell, a, b), *reversed(between(face, a, b))]
            walls.append(_path([(side * x, z) for x, z in ring]))
        tops.append([(side * x, z) for x, z in beyond(shell, low, outer.crown_m)])
        tops.append([(side * x, z) for x, z in between(face, low, crown)])
    if shell.opening_m > 0:
        crown_pieces = [[*tops[0], *reversed(tops[1])], [*tops[2], *reversed(tops[3])]]
    else:
        crown_pieces = [[*tops[0], *reversed(tops[2]), *tops[3], *reversed(tops[1])]]
    shells = "".join(f'<path class="shell" d="{d}"/>' for d in [*walls, *map(_path, crown_pieces)])

    holes = "".join(
        _touch(f"{path}.openings[{i}].form", labels.openings[i], f'<path class="hole" d="{_path(edge)}"/>')
        for i, edge in found.seen
    )
    cuts, sections = "", [cut(opening) for opening in part.openings]
    for side, gaps in found.through.items():
        for _, _, i in gaps:
            hood = cut_hood(part, part.openings[i])
            if hood is not None:
                solid, seen, out = hood
                for kind, stretches in (("jamb", seen), ("shell", solid)):
                    for a, b in stretches:
                        ring = [*beyond(shell, a, b), (out, b), (out, a)]
                        body = f'<path class="{kind}" d="{_path([(side * x, z) for x, z in ring])}"/>'
                        cuts += _touch(f"{path}.openings[{i}].hood_projection_m", labels.openings[i], body)
            quad = [*_jamb(face.radius, sections[i], vaulted), *reversed(_jamb(shell.reach, sections[i], vaulted))]
            body = f'<path class="jamb" d="{_path([(side * x, z) for x, z in quad])}"/>'
            cuts += _touch(f"{path}.openings[{i}].form", labels.openings[i], body)

    head = ""
    if crown > HEADROOM_M:
        x = face.radius(HEADROOM_M)
        # Above its line where the shell leaves room there, else below it, beside whoever stands on the left.
        above = face.radius(HEADROOM_M + size * 1.2) > x * 0.52 + size * 1.8
        at = (-x * 0.52, HEADROOM_M + size * 0.3) if above else (x * 0.52, HEADROOM_M - size * 1.1)
        head = (
            f'<path class="headroom" d="M{_cm(-x)} {_cm(-HEADROOM_M)}L{_cm(x)} {_cm(-HEADROOM_M)}"/>'
            + _text(*at, labels.headroom, size * 0.82, ' class="faint"')
        )
    stands = crown > PERSON_M + 0.1 and face.radius(PERSON_M) > r * 0.45 + 0.1
    person = _person(-r * 0.45) if stands else ""

    z = -size * 1.9
    dims = _touch(
        width,
        labels.diameter,
        _dimension((-r, z), (r, z), size) + _label(0.0, z, labels.diameter, size),
    )
    dims += _touch(
        f"{path}.rise_m" if labels.rise else width,
        labels.height,
        _dimension((0.0, 0.0), (0.0, crown), size)
        + _label(0.0, crown * 0.42, labels.height, size),
    )
    if stem > 0:
        x = -ro - size * 1.5
        springing = (
            f'<path class="springing" d="M{_cm(-ro - size * 2)} {_cm(-stem)}L{_cm(-r)} {_cm(-stem)}"/>'
        )
        dims += _touch(
            f"{path}.stem_height_m",
            labels.stem,
            springing + _dimension((x, 0.0), (x, stem), size)
            + _label(-ro - size * 2.7, stem + size * 1.1, labels.stem, size),
        )
        if labels.rise:
            dims += _rise(part, path, labels.rise, ro, size)
    dims += _thicknesses(part, path, labels, size)
    if labels.crown_opening:
        dims += _crown_opening(shell, part, path, labels.crown_opening, size)

    box = f"{_cm(left)} {_cm(-top)} {_cm(right - left)} {_cm(top - bottom)}"
    return (
        f'<svg class="section" viewBox="{box}" role="group" aria-label="{escape(labels.title)}">'
        f"<desc>{escape(labels.words)}</desc>"
        f'<path class="room" d="{room}"/>{ground}{holes}{shells}{cuts}{head}{person}{dims}</svg>'
    )


def _rise(part: Part, path: str, words: str, ro: float, size: float) -> str:
    """The rise beside the shell, from its springing to the height of the inside crown."""
    x, stem = ro + size * 4.4, part.stem_height_m
    high = stem + line(part).rise_m
    lead = (
        f'<path class="springing" d="M{_cm(ro)} {_cm(-stem)}L{_cm(x + size * 0.5)} {_cm(-stem)}'
        f'M0 {_cm(-high)}L{_cm(x + size * 0.5)} {_cm(-high)}"/>'
    )
    body = lead + _dimension((x, stem), (x, high), size) + _label(x, (stem + high) / 2, words, size)
    return _touch(f"{path}.rise_m", words, body)


def _thicknesses(part: Part, path: str, labels: Labels, size: float) -> str:
    """The thickness, measured along the normal of the inside face; of a tapering shell at springing and crown."""
    inner, tapers = line(part), bool(labels.crown_thickness)

    def measure(share: float, thick: float, words: str, name: str, dx: float, dz: float) -> str:
        place = inner.at(share)
        run, rise = place.normal_r, place.normal_z
        near = (place.radius_m, part.stem_height_m + place.height_m)
        far = (near[0] + thick * run, near[1] + thick * rise)
        out = (far[0] + run * size * 1.1, far[1] + rise * size * 1.1)
        body = (
            _dimension(near, far, size)
            + f'<path class="dim" d="M{_cm(far[0])} {_cm(-far[1])}L{_cm(out[0])} {_cm(-out[1])}"/>'
            + _label(out[0] + size * dx, out[1] + size * dz, words, size)
        )
        return _touch(f"{path}.{name}", words, body)

    # A hand's breadth above the springing, so that the line is not lost in the edge of a skewback.
    drawn = measure(0.06 if tapers else _MARKED, part.thickness_m, labels.thickness, "thickness_m", 1.1, 0.4)
    if tapers and part.crown_thickness_m is not None and not labels.crown_opening:
        drawn += measure(1.0, part.crown_thickness_m, labels.crown_thickness, "crown_thickness_m", 0.0, 0.8)
    return drawn


def _crown_opening(shell: Meridian, part: Part, path: str, words: str, size: float) -> str:
    """The opening at the crown with its width above it, and its glass where it has one."""
    rim, low, high = shell.opening_m, shell.inside.crown_m, shell.outside.crown_m
    glass = ""
    if part.crown_closed_by == "glazed":
        pane = _path([(-rim, low), (rim, low), (rim, high), (-rim, high)])
        glass = f'<path class="hole" d="{pane}"/>'
    z = high + size * 0.9
    body = glass + _dimension((-rim, z), (rim, z), size) + _label(0.0, z + size * 1.1, words, size)
    return _touch(f"{path}.crown_opening_m", words, body)
