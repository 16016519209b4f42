"""A face spread out flat with the strips of mesh on it, as SVG in centimetres of the building, never mirrored.

The face is drawn as wide at every height along its meridian as its girth there; strips that narrow with it are
lapped further or trimmed. Coordinates depend on the project alone.
"""

from html import escape
from typing import Final

from attrs import frozen

from foamwright.finishes.mesh import WAYS, Spread, Strip
from foamwright.project.model import Skins

_STEPS: Final = 48
_BENDS: Final = 16


@frozen
class Labels:
    """The texts of the drawing, already in the reader's words and units."""

    title: str
    girth: str
    length: str


def _cm(value: float) -> str:
    return f"{value * 100:.1f}".rstrip("0").rstrip(".")


def _line(points: list[tuple[float, float]], close: bool = False) -> str:
    return "M" + "L".join(f"{_cm(x)} {_cm(-s)}" for x, s in points) + ("Z" if close else "")


def _outline(spread: Spread) -> list[tuple[float, float]]:
    steps = [spread.length_m * i / _STEPS for i in range(_STEPS + 1)]
    right = [(spread.girth(s) / 2, s) for s in steps]
    return [*right, *[(-x, s) for x, s in reversed(right)]]


def _edges(spread: Spread, strip: Strip) -> list[str]:
    """The edges of strips alike, laps not drawn."""
    low, high = max(0.0, strip.from_m), min(strip.to_m, spread.length_m)
    across = spread.girth(low) / 2
    lines = [_line([(-across, low), (across, low)])]
    if strip.kind == "gore":
        steps = [low + (high - low) * i / _BENDS for i in range(_BENDS + 1)]
        for k in range(1, strip.count):
            share = k / strip.count - 0.5
            lines.append(_line([(spread.girth(s) * share, s) for s in steps]))
    return lines


def unrolled(spread: Spread, skins: Skins, labels: Labels) -> str:
    """Draw one face with its strips.

    Source: arithmetic (`foamwright.finishes.mesh`).

    Parameters
    ----------
    spread : Spread
        The face [m]
    skins : Skins
        Roll, laps and way of laying [m]
    labels : Labels
        Texts [-]

    Returns
    -------
    str
        SVG [cm]
    """
    strips = WAYS[skins.lay](spread, skins.roll_width_m, skins.lap_m, skins.foot_return_m)
    girth, length = spread.girth(0.0), spread.length_m
    size = max(girth, length) / 26
    edges = "".join(f'<path class="dim" d="{line}"/>' for strip in strips for line in _edges(spread, strip))
    left, top = -girth / 2 - size * 1.5, -length - size * 1.5
    box = f"{_cm(left)} {_cm(top)} {_cm(girth + size * 8)} {_cm(length + size * 4.5)}"
    mark = f'<path class="springing" d="M{_cm(0)} 0L{_cm(girth / 2 + size * 0.6)} 0M{_cm(0)} {_cm(-length)}L{_cm(girth / 2 + size * 0.6)} {_cm(-length)}"/>'
    texts = (
        f'<text x="0" y="{_cm(size * 1.6)}" font-size="{_cm(size)}" text-anchor="middle">{escape(labels.girth)}</text>'
        f'<text x="{_cm(girth / 2 + size * 3.4)}" y="{_cm(-length / 2)}" font-size="{_cm(size)}" text-anchor="middle">'
        f"{escape(labels.length)}</text>"
    )
    return (
        f'<svg class="section" viewBox="{box}" role="group" aria-label="{escape(labels.title)}">'
        f'<path class="shell" d="{_line(_outline(spread), True)}"/>{edges}{mark}{texts}</svg>'
    )
