"""The section through a dome as SVG, in centimetres of the building, never mirrored.

Coordinates depend on the project alone; only the labels depend on the reader, so the drawing has the same
shape in every language and direction of writing.
"""

from collections.abc import Iterator
from html import escape
from math import asin, cos, hypot, pi, radians, sin, sqrt

from attrs import frozen

from foamwright.project.model import Opening, Part

#: Height of the standing figure that gives the scale [m]: common practice in drawings, no source.
PERSON_M = 1.70
HEADROOM_M = 2.0
_STEPS = 48


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


@frozen
class _Dome:
    """Inside and outside radius by height; the few lines of geometry that a drawing needs."""

    part: Part

    @property
    def radius(self) -> float:
        return self.part.inside_diameter_m / 2

    @property
    def crown(self) -> float:
        return self.part.stem_height_m + self.radius

    def at(self, z: float, out: float = 0.0) -> float:
        """Radius of the face ``out`` metres outside the inner one, at height ``z`` [m]."""
        above = z - self.part.stem_height_m
        r = self.radius + out
        return r if above <= 0 else sqrt(max(r * r - above * above, 0.0))


def _cm(value: float) -> str:
    return f"{value * 100:.1f}".rstrip("0").rstrip(".")


def _path(points: list[tuple[float, float]], closed: bool = True) -> str:
    body = "L".join(f"{_cm(x)} {_cm(-z)}" for x, z in points)
    return f"M{body}{'Z' if closed else ''}"


def _face(dome: _Dome, out: float, low: float, high: float) -> list[tuple[float, float]]:
    """Points of one face on the right of the axis from ``low`` to ``high``."""
    stem, r = dome.part.stem_height_m, dome.radius + out
    points = []
    if low < stem:
        points.append((r, low))
        low = stem
        if high <= stem:
            return [*points, (r, high)]
    a0, a1 = asin(min((low - stem) / r, 1.0)), asin(min((high - stem) / r, 1.0))
    for i in range(_STEPS + 1):
        a = a0 + (a1 - a0) * i / _STEPS
        points.append((r * cos(a), stem + r * sin(a)))
    return points


def outline(opening: Opening) -> list[tuple[float, float]]:
    """Return the opening's own outline as (sideways, height) from its sill centre [m].

    Source: the project file's definition of an opening; the head of an arched one is a semicircle.
    """
    if opening.form == "round":
        r = opening.diameter_m / 2
        return [(r * sin(2 * pi * i / 36), r - r * cos(2 * pi * i / 36)) for i in range(36)]
    half, top = opening.width_m / 2, opening.height_m
    if opening.form == "rectangular":
        return [(-half, 0.0), (half, 0.0), (half, top), (-half, top)]
    spring = top - half
    head = [(half * cos(pi * i / 18), spring + half * sin(pi * i / 18)) for i in range(19)]
    return [(-half, 0.0), (half, 0.0), *head]


def _height(opening: Opening) -> float:
    return opening.diameter_m if opening.form == "round" else opening.height_m


def _placed(part: Part) -> Iterator[tuple[int, Opening, float]]:
    for i, opening in enumerate(part.openings):
        step = opening.spacing_deg if opening.spacing_deg is not None else 360 / opening.count
        for k in range(opening.count):
            yield i, opening, (opening.azimuth_deg + k * step) % 360


def _seen(dome: _Dome, opening: Opening, azimuth: float) -> list[tuple[float, float]]:
    """Project an opening's edge on the inside face to the plane of the section [m]."""
    a = radians(azimuth)
    points = []
    for u, z in outline(opening):
        height = opening.sill_m + z
        r = dome.at(height)
        depth = sqrt(max(r * r - u * u, 0.0))
        points.append((depth * cos(a) - u * sin(a), height))
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


def _label(x: float, z: float, words: str, size: float) -> str:
    """A label on a plate of the paper's colour, wide enough for a finger."""
    w = max(len(words) * size * 0.56, size * 2.4) + size * 0.5
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


def section(part: Part, path: str, labels: Labels) -> str:
    """Draw the section through the axis of a dome, cut along azimuth 0.

    Source: the profile of the shape room; openings as the project file defines them.

    Parameters
    ----------
    part : Part
        The dome; lengths inside it are in metres [m]
    path : str
        The part's path in the project, for the fields that a touch leads to [-]
    labels : Labels
        The texts [-]

    Returns
    -------
    str
        An SVG element [-]
    """
    dome = _Dome(part)
    r, t, stem, crown = dome.radius, part.thickness_m, part.stem_height_m, dome.crown
    ro = r + t
    size = (2 * ro) * 0.052
    size = max(size, 0.06)
    left, right = -ro - size * 3.4, ro + size * 3.4
    top, bottom = crown + t + size * 0.9, -size * 3.4

    cut = {}
    for i, opening, azimuth in _placed(part):
        for side, at in ((1, 0.0), (-1, 180.0)):
            if abs((azimuth - at + 180) % 360 - 180) < 0.5:
                cut.setdefault(side, []).append((opening.sill_m, opening.sill_m + _height(opening), i))

    ground = (
        f'<path class="ground" d="M{_cm(left)} 0L{_cm(right)} 0"/>'
        f'<rect class="soil" x="{_cm(left)}" y="0" width="{_cm(right - left)}" height="{_cm(size * 0.45)}"/>'
    )
    inner = [(x, z) for x, z in _face(dome, 0.0, 0.0, crown)]
    room = _path([*inner, *[(-x, z) for x, z in reversed(inner)]])

    shell = []
    for side in (1, -1):
        spans, low = [], 0.0
        for a, b, _ in sorted(cut.get(side, [])):
            if a > low:
                spans.append((low, a))
            low = max(low, b)
        spans.append((low, crown + t))
        for a, b in spans:
            outer = _face(dome, t, a, b)
            inside = _face(dome, 0.0, a, min(b, crown))
            ring = [(side * x, z) for x, z in [*outer, *reversed(inside)]]
            shell.append(f'<path class="shell" d="{_path(ring)}"/>')

    seen = []
    for i, opening, azimuth in _placed(part):
        if 0.5 < azimuth < 179.5:
            seen.append((i, f'<path class="hole" d="{_path(_seen(dome, opening, azimuth))}"/>'))
    holes = "".join(
        _touch(f"{path}.openings[{i}].form", labels.openings[i], body) for i, body in seen
    )
    cuts = ""
    for side, spans_cut in cut.items():
        for a, b, i in spans_cut:
            xi = [(dome.at(z), z) for z in (a, b)]
            xo = [(dome.at(z, t), z) for z in (a, b)]
            quad = [(side * x, z) for x, z in (xi[0], xo[0], xo[1], xi[1])]
            body = f'<path class="cutaway" d="{_path(quad)}"/>'
            cuts += _touch(f"{path}.openings[{i}].form", labels.openings[i], body)

    head = ""
    if crown > HEADROOM_M:
        x = dome.at(HEADROOM_M)
        head = (
            f'<path class="headroom" d="M{_cm(-x)} {_cm(-HEADROOM_M)}L{_cm(x)} {_cm(-HEADROOM_M)}"/>'
            + _text(-x * 0.52, HEADROOM_M + size * 0.3, labels.headroom, size * 0.82, ' class="faint"')
        )
    person = _person(-r * 0.45) if crown > PERSON_M + 0.1 else ""

    z = -size * 1.9
    dims = _touch(
        f"{path}.inside_diameter_m",
        labels.diameter,
        _dimension((-r, z), (r, z), size) + _label(0.0, z, labels.diameter, size),
    )
    x = r * 0.28
    dims += _touch(
        f"{path}.inside_diameter_m",
        labels.height,
        _dimension((x, 0.0), (x, stem + sqrt(r * r - x * x)), size)
        + _label(x, crown * 0.42, labels.height, size),
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
            + _label(-ro - size * 1.3, stem + size * 1.1, labels.stem, size),
        )
    a = radians(52)
    inside = (r * cos(a), stem + r * sin(a))
    outside = (ro * cos(a), stem + ro * sin(a))
    beyond = ((ro + size * 1.1) * cos(a), stem + (ro + size * 1.1) * sin(a))
    dims += _touch(
        f"{path}.thickness_m",
        labels.thickness,
        _dimension(inside, outside, size)
        + f'<path class="dim" d="M{_cm(outside[0])} {_cm(-outside[1])}L{_cm(beyond[0])} {_cm(-beyond[1])}"/>'
        + _label(beyond[0] + size * 1.1, beyond[1] + size * 0.4, labels.thickness, size),
    )

    box = f"{_cm(left)} {_cm(-top)} {_cm(right - left)} {_cm(top - bottom)}"
    return (
        f'<svg class="section" viewBox="{box}" role="group" aria-label="{escape(labels.title)}">'
        f"<desc>{escape(labels.words)}</desc>"
        f'<path class="room" d="{room}"/>{ground}{holes}{"".join(shell)}{cuts}{head}{person}{dims}</svg>'
    )
