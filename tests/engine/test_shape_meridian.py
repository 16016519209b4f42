"""Meridians: their points, their faces, and a profile of another kind in the same interface."""

import math

import pytest
from attrs import frozen
from foamwright.project.model import Opening, Part
from foamwright.shape.meridian import Face, Meridian, Sphere, Upright, hemisphere, meridian
from foamwright.shape.openings import check, cut, taken
from foamwright.shape.quadrature import gauss_legendre, integrate
from scipy.integrate import quad
from scipy.special import roots_legendre


@pytest.mark.parametrize("order", [1, 2, 5, 10, 16])
def test_nodes_against_scipy(order: int) -> None:
    """Nodes and weights are those of scipy.special.roots_legendre."""
    nodes, weights = roots_legendre(order)
    ours = gauss_legendre(order)
    assert [x for x, _ in ours] == pytest.approx(list(nodes), abs=1e-14)
    assert [w for _, w in ours] == pytest.approx(list(weights), abs=1e-13)


@pytest.mark.parametrize(
    "function",
    [math.exp, math.sqrt, lambda x: math.asin(x), lambda x: abs(x - 0.3), lambda x: 0.0],
)
def test_integrals_against_scipy(function) -> None:  # type: ignore[no-untyped-def]
    """Roots at an end and a kink within are found to 1e-8; oracle scipy.integrate.quad."""
    expected = quad(function, 0, 1, points=[0.3], epsabs=1e-12)[0]
    assert integrate(lambda x: (function(x),), 0.0, 1.0)[0] == pytest.approx(expected, abs=1e-8)


def test_points_run_from_foot_to_crown_on_the_face() -> None:
    """Points lie on the face, begin at the foot, end at the crown and hold the springing."""
    face = hemisphere(6.0, 0.5, 0.2).inside
    points = face.points(16)
    assert points[0] == (3.0, 0.0)
    assert points[-1] == pytest.approx((0.0, 3.5), abs=1e-12)
    assert (3.0, 0.5) in points
    for radius, height in points:
        assert radius == pytest.approx(face.radius(height), abs=1e-7)
    assert face.length_m == pytest.approx(0.5 + 1.5 * math.pi)


def test_outside_is_the_parallel_curve() -> None:
    """Every outside point is one thickness away from the inside face and no nearer."""
    shell = meridian(Part(thickness_m=0.25))
    inside = shell.inside.points(400)
    for point in shell.outside.points(20):
        nearest = min(math.dist(point, other) for other in inside)
        assert nearest == pytest.approx(0.25, abs=2e-4)


@frozen
class _Cone:
    """A straight flank that leans in: a profile of another kind, made for this test."""

    foot: float
    top: float
    low_m: float
    high_m: float

    @property
    def _lean(self) -> float:
        return (self.top - self.foot) / (self.high_m - self.low_m)

    @property
    def length_m(self) -> float:
        return math.hypot(self.top - self.foot, self.high_m - self.low_m)

    def radius(self, height: float) -> float:
        return self.foot + self._lean * (height - self.low_m)

    def ring(self, height: float) -> float:
        return self.radius(height) * math.hypot(1, self._lean)

    def point(self, length: float) -> tuple[float, float]:
        share = length / self.length_m
        height = self.low_m + share * (self.high_m - self.low_m)
        return self.radius(height), height

    def area(self) -> float:
        return math.pi * (self.foot + self.top) * self.length_m

    def volume(self) -> float:
        tall = self.high_m - self.low_m
        return math.pi * tall / 3 * (self.foot**2 + self.foot * self.top + self.top**2)


def test_another_profile_fits_the_interface() -> None:
    """A tent on a stem is measured by the same code; oracle scipy.integrate.quad and closed forms."""

    def tent(radius: float, crown: float) -> Face:
        return Face((Upright(radius, 0.0, 1.0), _Cone(radius, 0.0, 1.0, crown)))

    shell = Meridian(tent(2.0, 3.0), tent(2.2, 3.3))
    assert shell.inside.volume() == pytest.approx(math.pi * 4 * (1 + 2 / 3))
    opening = Opening(width_m=0.8, height_m=1.2, sill_m=0.4)
    assert check(shell.inside, (opening,), "")[0] == ()

    def strip(z: float, radius: float, crown: float) -> float:
        away = radius if z <= 1 else radius * (crown - z) / (crown - 1)
        return 2 * quad(lambda y: math.sqrt(away**2 - y**2), 0, 0.4, epsrel=1e-11)[0]

    def volume(radius: float, crown: float) -> float:
        return sum(quad(strip, a, b, args=(radius, crown))[0] for a, b in ((0.4, 1.0), (1.0, 1.6)))

    gone = taken(shell, cut(opening))
    assert gone.volume_m3 == pytest.approx(volume(2.2, 3.3) - volume(2.0, 3.0), rel=1e-8)
    too_high = check(shell.inside, (Opening(width_m=0.8, height_m=2.9),), "")[0][0]
    assert too_high.limit == pytest.approx(3.0 - 0.4)
    # Beyond the crown the flanks would cross and lean out again; nothing stands there.
    beyond = Opening(form="arched", width_m=0.1, height_m=3.5)
    assert check(shell.inside, (beyond,), "")[0][0].code == "opening_too_high"


def test_a_skewback_at_a_leaning_foot() -> None:
    """A segment of a sphere with its foot cut square: the shell is a part of a spherical shell.

    Source: volume of a spherical sector, 2 pi / 3 (R^3 - r^3) (1 - cos a), and, for a door across the
    skewback, a double integral by scipy.
    """
    shell = Meridian(
        Face((Sphere(5.0, -4.0, 0.0, 1.0),)), Face((Sphere(5.3, -4.0, 5.3 * 0.8 - 4, 1.3),))
    )
    sector = 2 * math.pi / 3 * (5.3**3 - 5.0**3) * (1 - 0.8)
    assert shell.volume() == pytest.approx(sector, rel=1e-12)
    door = cut(Opening(width_m=1.0, height_m=0.5))
    assert shell.outside.foot_m == pytest.approx(0.24)

    def across(z: float, outer: bool) -> float:
        away = math.sqrt((5.3 if outer else 5.0) ** 2 - (z + 4) ** 2)
        if outer and z < 0.24:
            away = 3.0 + (3.18 - 3.0) * z / 0.24
        return 2 * quad(lambda y: math.sqrt(away**2 - y**2), 0, 0.5, epsrel=1e-11)[0]

    def upwards(outer: bool) -> float:
        return sum(quad(across, a, b, args=(outer,))[0] for a, b in ((0, 0.24), (0.24, 0.5)))

    gone = taken(shell, door)
    assert gone.volume_m3 == pytest.approx(upwards(True) - upwards(False), rel=1e-8)
    face = quad(lambda z: 2 * 5.3 * math.asin(0.5 / math.sqrt(5.3**2 - (z + 4) ** 2)), 0.24, 0.5)[0]
    assert gone.outside_area_m2 == pytest.approx(face, rel=1e-8)


def test_zones_add_up() -> None:
    """A sphere cut anywhere has the area, volume and length of its two pieces."""
    whole = Sphere(3.0, 0.5, 0.5, 3.5)
    low, high = Sphere(3.0, 0.5, 0.5, 2.2), Sphere(3.0, 0.5, 2.2, 3.5)
    assert low.area() + high.area() == pytest.approx(whole.area())
    assert low.volume() + high.volume() == pytest.approx(whole.volume())
    assert low.length_m + high.length_m == pytest.approx(whole.length_m)


def test_shares_of_a_sphere_and_of_two_crossing_vaults() -> None:
    """Closed forms of solid geometry at 1e-5: a lune and a wedge of 30 degrees, a face of the icosahedron, Steinmetz's body.

    Lune 2 R^2 a and wedge 2/3 R^3 a of the whole sphere of R 3; 4 pi R^2 / 20; 16 r^3 / 3 of r 2, as squares of the vault's
    clear width, level by level (scipy).
    """
    half = Sphere(3.0, 0.0, 0.0, 3.0)
    turn = math.radians(30) / (2 * math.pi)
    assert 2 * half.area() * turn == pytest.approx(9.42478, rel=1e-5)
    assert 2 * half.volume() * turn == pytest.approx(9.42478, rel=1e-5)
    assert 2 * half.area() / 20 == pytest.approx(5.65487, rel=1e-5)
    room = meridian(Part(shape="vault", profile="semicircle", inside_span_m=4.0, stem_height_m=0.0)).inside
    crossed = quad(lambda height: (2 * room.radius(height)) ** 2, 0.0, 2.0, epsrel=1e-10)[0]
    assert 2 * crossed == pytest.approx(42.66667, rel=1e-5)
