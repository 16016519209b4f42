"""Membrane forces: closed forms of shells that carry by compression and tension in their middle surface alone.

Compression is positive. Angles are counted from the crown: that of the surface against the horizontal.
"""

import math

#: Of CGPM 1901 [m/s2].
GRAVITY = 9.80665


def meridian_force(load: float, radius: float, angle_deg: float, open_deg: float = 0.0) -> float:
    """Return the meridian force of a spherical dome under its own weight.

    Source: vertical equilibrium of the cap above; S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells,
    2nd ed. (1959), chapter 14 (from memory).

    Parameters
    ----------
    load : float
        Weight of a square metre of shell [kPa]
    radius : float
        Radius of the middle surface [m]
    angle_deg : float
        Angle from the crown, above ``open_deg`` (at 0 the crown itself) up to 180 [deg]
    open_deg : float
        Angle at which an open crown ends; 0 where it is closed [deg]

    Returns
    -------
    float
        Force across a metre of ring, compression positive [kN/m]

    Examples
    --------
    >>> round(meridian_force(1.4715, 3.0, 90.0), 4)
    4.4145
    """
    angle, start = math.radians(angle_deg), math.radians(open_deg)
    if open_deg == 0:
        return load * radius / (1 + math.cos(angle))
    return load * radius * (math.cos(start) - math.cos(angle)) / math.sin(angle) ** 2


def hoop_force(load: float, radius: float, angle_deg: float, open_deg: float = 0.0) -> float:
    """Return the hoop force of a spherical dome under its own weight.

    Source: equilibrium square to the surface, ``N_hoop = q a cos(angle) - N_meridian``; Timoshenko and
    Woinowsky-Krieger, chapter 14 (from memory).

    Parameters
    ----------
    load : float
        Weight of a square metre of shell [kPa]
    radius : float
        Radius of the middle surface [m]
    angle_deg : float
        Angle from the crown [deg]
    open_deg : float
        Angle at which an open crown ends; 0 where it is closed [deg]

    Returns
    -------
    float
        Force across a metre of meridian, compression positive [kN/m]

    Examples
    --------
    >>> round(hoop_force(1.4715, 3.0, 90.0), 4)
    -4.4145
    """
    along = load * radius * math.cos(math.radians(angle_deg))
    return along - meridian_force(load, radius, angle_deg, open_deg)


def hoop_turns_deg() -> float:
    """Return the angle from the crown at which the hoops of a spherical dome turn from pushing to pulling.

    Source: own weight, ``cos(angle) = (sqrt 5 - 1) / 2``, from ``hoop_force`` = 0.

    Returns
    -------
    float
        Angle [deg]

    Examples
    --------
    >>> round(hoop_turns_deg(), 4)
    51.8273
    """
    return math.degrees(math.acos((math.sqrt(5) - 1) / 2))


def base_reaction(load: float, radius: float, angle_deg: float) -> float:
    """Return what a spherical dome weighs from its crown down to an angle.

    Source: arithmetic (Archimedes: the area of a zone).

    Parameters
    ----------
    load : float
        Weight of a square metre of shell [kPa]
    radius : float
        Radius of the middle surface [m]
    angle_deg : float
        Angle from the crown [deg]

    Returns
    -------
    float
        Weight [kN]

    Examples
    --------
    >>> round(base_reaction(1.4715, 3.0, 90.0), 1)
    83.2
    """
    return 2 * math.pi * radius**2 * load * (1 - math.cos(math.radians(angle_deg)))


def snow_forces(load: float, radius: float, angle_deg: float) -> tuple[float, float]:
    """Return the meridian and hoop force of a spherical dome under snow spread evenly over its plan.

    Source: vertical and normal equilibrium; Timoshenko and Woinowsky-Krieger, chapter 14 (from memory).

    Parameters
    ----------
    load : float
        Snow on a square metre of plan [kPa]
    radius : float
        Radius of the middle surface [m]
    angle_deg : float
        Angle from the crown, 0 to 90 [deg]

    Returns
    -------
    tuple of (float, float)
        Forces, compression positive [kN/m]

    Examples
    --------
    >>> [round(force, 9) for force in snow_forces(1.0, 3.0, 45.0)]
    [1.5, 0.0]
    """
    half = load * radius / 2
    return half, half * math.cos(2 * math.radians(angle_deg))


def crown_ring(load: float, ring_radius: float, angle_deg: float) -> tuple[float, float]:
    """Return what a load on the rim of an open crown does: meridian force, and the push in the ring.

    Source: equilibrium of the ring.

    Parameters
    ----------
    load : float
        Load along a metre of the rim [kN/m]
    ring_radius : float
        Radius of the ring [m]
    angle_deg : float
        Angle of the surface there against the horizontal, above 0 [deg]

    Returns
    -------
    tuple of (float, float)
        Meridian force [kN/m], and compression in the ring [kN]

    Examples
    --------
    >>> [round(force, 4) for force in crown_ring(1.0, 0.5, 10.0)]
    [5.7588, 2.8356]
    """
    angle = math.radians(angle_deg)
    return load / math.sin(angle), load * ring_radius / math.tan(angle)


def ring_tension(thrust: float, radius: float) -> float:
    """Return the tension in a ring that holds an outward thrust all round.

    Source: equilibrium of half the ring, ``T = H r``.

    Parameters
    ----------
    thrust : float
        Outward thrust on a metre of the ring [kN/m]
    radius : float
        Radius of the ring [m]

    Returns
    -------
    float
        Tension [kN]

    Examples
    --------
    >>> ring_tension(2.0, 3.0)
    6.0
    """
    return thrust * radius


def parabola_thrust(load: float, span: float, rise: float) -> tuple[float, float]:
    """Return the thrust of a parabolic arch under a load spread evenly over its plan.

    Source: moments about the springing, ``H = w L^2 / (8 f)``; the force at the end is that thrust with half the load.

    Parameters
    ----------
    load : float
        Load on a metre of plan [kN/m]
    span : float
        Distance between the springings [m]
    rise : float
        Height of the crown above them, above 0 [m]

    Returns
    -------
    tuple of (float, float)
        Horizontal thrust, and the force along the arch at its end [kN]

    Examples
    --------
    >>> [round(force, 4) for force in parabola_thrust(3.0, 4.0, 1.0)]
    [6.0, 8.4853]
    """
    thrust = load * span**2 / (8 * rise)
    return thrust, math.hypot(thrust, load * span / 2)


def barrel_force(load: float, radius: float, angle_deg: float) -> float:
    """Return the force around a semicircular barrel under its own weight, as a membrane on stiff end frames.

    Source: equilibrium square to the surface, ``N = q a cos(angle)``. At its edge it is 0, so that only end frames can carry the
    shell's weight: a strip of arch between open ends does not behave so.

    Parameters
    ----------
    load : float
        Weight of a square metre of shell [kPa]
    radius : float
        Radius of the middle surface [m]
    angle_deg : float
        Angle from the crown, 0 to 90 [deg]

    Returns
    -------
    float
        Force across a metre of length, compression positive [kN/m]

    Examples
    --------
    >>> round(barrel_force(2.0, 3.0, 60.0), 9)
    3.0
    """
    return load * radius * math.cos(math.radians(angle_deg))


def sphere_buckling(modulus: float, thickness: float, radius: float, poisson: float) -> float:
    """Return the pressure at which a perfect elastic sphere would buckle.

    Source: R. Zoelly (1915), ``p = 2 E / sqrt(3 (1 - nu^2)) (t / a)^2`` (from memory). Real shells carry a small part of it:
    common practice for concrete shells is a twentieth to a fifth (from memory), and a weak material crushes before it.

    Parameters
    ----------
    modulus : float
        Modulus of elasticity [kPa]
    thickness : float
        Thickness of the shell [m]
    radius : float
        Radius of the middle surface [m]
    poisson : float
        Poisson's ratio, 0 to 0.5 [-]

    Returns
    -------
    float
        Pressure [kPa]

    Examples
    --------
    >>> round(sphere_buckling(1e6, 0.30, 3.0, 0.2))
    11785
    """
    return 2 * modulus / math.sqrt(3 * (1 - poisson**2)) * (thickness / radius) ** 2
