"""Skins: each kind with its own published thickness, its coats, and their mass beside the core's."""

from typing import Final

from attrs import frozen

from foamwright.material.mortar import DRY_FACTORS, Blend, blend, by_dry_factor
from foamwright.project.model import Aggregate, Skin, Skins
from foamwright.project.notes import Note, Scalar

_INCH: Final = 0.0254
COATS: Final = ("scratch", "brown", "finish")


@frozen
class Basis:
    """The published thickness of one kind of skin.

    Attributes
    ----------
    code : str
        The kind [-]
    source : str
        Where it is published [-]
    scratch_m : float
        First coat [m]
    brown_m : float
        Second coat; 0 where there is none [m]
    finish_m : float
        Finish coat; 0 where there is none [m]
    """

    code: str
    source: str
    scratch_m: float
    brown_m: float
    finish_m: float

    @property
    def total_m(self) -> float:
        """All coats [m]."""
        return self.scratch_m + self.brown_m + self.finish_m


def _basis(code: str, source: str, *eighths: int) -> Basis:
    scratch, brown, finish = (n * _INCH / 8 for n in eighths)
    return Basis(code, source, scratch, brown, finish)


#: Thicknesses by kind. ASTM C926 gives 3/8 + 3/8 + 1/8 in on lath and, on solid bases, totals; how those
#: are shared out among the coats is from memory. Masonry takes two coats of 1/2 in, cast concrete 3/8 in.
PUBLISHED: Final = {
    "thin_mesh": _basis("thin_mesh", "astm_c946", 1, 0, 0),
    "solid_base": _basis("solid_base", "astm_c926_solid", 2, 2, 1),
    "solid_base_two": _basis("solid_base_two", "astm_c926_solid", 3, 0, 1),
    "lath": _basis("lath", "astm_c926_lath", 3, 3, 1),
}
#: What disagrees with them, or holds for other bases; shown, never taken.
OTHERS: Final = (
    _basis("lath_handbook", "stucco_handbook", 4, 3, 3),
    _basis("cast_concrete", "astm_c926_solid", 2, 0, 1),
)
#: Kinds that carry mesh or lath unless the builder says otherwise.
WITH_MESH: Final = ("thin_mesh", "lath")


@frozen
class Coat:
    """One coat on one face.

    Attributes
    ----------
    side : str
        ``outside`` or ``inside`` [-]
    coat : str
        ``scratch``, ``brown`` or ``finish`` [-]
    thickness_m : float
        Thickness: as typed, or as published for the kind [m]
    published : bool
        Whether the thickness is the published one [-]
    area_m2 : float
        Area that it covers, reveals in it where this side covers them [m2]
    volume_m3 : float
        Mortar to mix, waste counted [m3]
    cement_kg : float
        Cement, waste counted [kg]
    cement_low_kg : float
        The same by a handbook's dry factor of 1.27 [kg]
    cement_high_kg : float
        The same by a handbook's dry factor of 1.33 [kg]
    sand_kg : float
        Sand, dry [kg]
    sand_m3 : float
        The same, loose [m3]
    lime_kg : float
        Hydrated lime [kg]
    water_l : float
        Water [L]
    mass_kg : float
        What the coat weighs on the face, fresh, no waste in it [kg]
    """

    side: str
    coat: str
    thickness_m: float
    published: bool
    area_m2: float
    volume_m3: float
    cement_kg: float
    cement_low_kg: float
    cement_high_kg: float
    sand_kg: float
    sand_m3: float
    lime_kg: float
    water_l: float
    mass_kg: float


@frozen
class Paint:
    """Waterproofing or paint on one face.

    Attributes
    ----------
    side : str
        ``outside`` or ``inside`` [-]
    what : str
        ``waterproofing`` or ``paint`` [-]
    coats : int
        How many coats [-]
    area_m2 : float
        Area that one coat covers [m2]
    litres : float or None
        What they take, waste counted; absent until the coverage is typed [L]
    """

    side: str
    what: str
    coats: int
    area_m2: float
    litres: float | None


@frozen
class SkinResult:
    """The skin of one face.

    Attributes
    ----------
    side : str
        ``outside`` or ``inside`` [-]
    kind : str
        The kind as stated [-]
    source : str or None
        Where its thickness is published; absent where there is no skin [-]
    published_m : float
        All coats as published for the kind [m]
    thickness_m : float
        All coats as they are counted [m]
    area_m2 : float
        Face and, where this side covers them, reveals [m2]
    reveals_m2 : float
        The reveals in it [m2]
    mass_kg : float
        All coats on the face, fresh [kg]
    """

    side: str
    kind: str
    source: str | None
    published_m: float
    thickness_m: float
    area_m2: float
    reveals_m2: float
    mass_kg: float


def has_mesh(skin: Skin) -> bool:
    """Say whether a skin carries mesh.

    Source: common practice, no source: a thin skin and coats on lath do, coats on a solid base do
    not, unless the builder says otherwise.

    Parameters
    ----------
    skin : Skin
        The skin as stated [-]

    Returns
    -------
    bool
        Whether mesh is cut for it [-]

    Examples
    --------
    >>> has_mesh(Skin(kind="lath")), has_mesh(Skin(kind="solid_base")), has_mesh(Skin(mesh="yes"))
    (True, False, False)
    """
    if skin.kind not in PUBLISHED:
        return False
    return skin.mesh == "yes" or (skin.mesh == "by_kind" and skin.kind in WITH_MESH)


def mortar_volume(area: float, thickness: float, waste: float) -> float:
    """Return the mortar to mix for one coat.

    Source: arithmetic.

    Parameters
    ----------
    area : float
        Area to cover [m2]
    thickness : float
        Thickness of the coat [m]
    waste : float
        Share that is wasted [-]

    Returns
    -------
    float
        Mortar [m3]

    Examples
    --------
    >>> round(mortar_volume(100.0, 0.022225, 0.1), 5)
    2.44475
    """
    return area * thickness * (1 + waste)


def coats(
    side: str, skin: Skin, skins: Skins, area: float, cement_density: float, aggregate: Aggregate, waste: float = 1.0
) -> tuple[Coat, ...]:
    """Return the coats of one face; a coat of no thickness is none.

    Source: thickness as published for the kind (`PUBLISHED`) unless typed; mortar by absolute volumes.

    Parameters
    ----------
    side : str
        ``outside`` or ``inside`` [-]
    skin : Skin
        The skin of that side [-]
    skins : Skins
        What both sides share [-]
    area : float
        Area to cover [m2]
    cement_density : float
        Density of the cement grains [kg/m3]
    aggregate : Aggregate
        Loose densities [kg/m3]
    waste : float
        Multiple of the stated waste [-]

    Returns
    -------
    tuple of Coat
        From the shell outwards [kg, L, m3]

    Examples
    --------
    >>> made = coats("outside", Skin(kind="lath"), Skins(), 100.0, 3150.0, Aggregate(), 0.0)
    >>> round(sum(coat.volume_m3 for coat in made), 4)
    2.2225
    """
    if skin.kind not in PUBLISHED:
        return ()
    made = []
    for name in COATS:
        typed = getattr(skin, f"{name}_thickness_m")
        thickness = getattr(PUBLISHED[skin.kind], f"{name}_m") if typed is None else typed
        if thickness <= 0:
            continue
        sand, lime = getattr(skin, f"{name}_sand_parts"), getattr(skin, f"{name}_lime_parts")
        one = _mortar(sand, lime, skins, cement_density, aggregate)
        volume = mortar_volume(area, thickness, waste * skins.coat_waste_fraction)
        low, high = (_handbook(sand, lime, skins, aggregate, factor) * volume for factor in DRY_FACTORS)
        made.append(
            Coat(
                side=side,
                coat=name,
                thickness_m=thickness,
                published=typed is None,
                area_m2=area,
                volume_m3=volume,
                cement_kg=one.cement_kg * volume,
                cement_low_kg=low,
                cement_high_kg=high,
                sand_kg=one.sand_kg * volume,
                sand_m3=one.sand_m3 * volume,
                lime_kg=one.lime_kg * volume,
                water_l=one.water_l * volume,
                mass_kg=one.mass_kg * area * thickness,
            )
        )
    return tuple(made)


def _mortar(sand: float, lime: float, skins: Skins, density: float, aggregate: Aggregate) -> Blend:
    return blend(sand, 0.0, lime, skins.water_cement_ratio, skins.mix_by, density, aggregate)


def _handbook(sand: float, lime: float, skins: Skins, aggregate: Aggregate, factor: float) -> float:
    """Cement of a cubic metre by the dry factor, parts by mass turned into loose volumes first."""
    if skins.mix_by == "mass":
        sand *= 1440 / aggregate.sand_bulk_kg_m3
        lime *= 1440 / aggregate.lime_bulk_kg_m3
    return by_dry_factor(sand + lime, factor)


def paints(side: str, skin: Skin, skins: Skins, area: float, waste: float = 1.0) -> tuple[Paint, ...]:
    """Return waterproofing and paint of one face.

    Source: typed: coats and coverage, the latter as the maker says it.

    Parameters
    ----------
    side : str
        ``outside`` or ``inside`` [-]
    skin : Skin
        The skin of that side [-]
    skins : Skins
        What both sides share [-]
    area : float
        Area to cover [m2]
    waste : float
        Multiple of the stated waste [-]

    Returns
    -------
    tuple of Paint
        Waterproofing first [L]

    Examples
    --------
    >>> painted = Skin(kind="lath", paint_coats=2, paint_coverage_m2_l=8.0)
    >>> paints("outside", painted, Skins(), 80.0)[0].litres
    21.0
    """
    if skin.kind == "unstated":
        return ()
    found = []
    for what in ("waterproofing", "paint"):
        count, coverage = getattr(skin, f"{what}_coats"), getattr(skin, f"{what}_coverage_m2_l")
        if not count:
            continue
        litres = None
        if coverage is not None:
            litres = area * count / coverage * (1 + waste * skins.paint_waste_fraction)
        found.append(Paint(side, what, count, area, litres))
    return tuple(found)


def skin_notes(skins: Skins) -> tuple[Note, ...]:
    """Return what must be said about the skins: coverage that nobody typed, thin coats, unproved mesh.

    Source: typed; thicknesses as published for the kind; EAD 040083 and ETAG 004 for mesh after ageing
    (from memory).

    Parameters
    ----------
    skins : Skins
        Both skins as stated [-]

    Returns
    -------
    tuple of Note
        In the order of the form [-]

    Examples
    --------
    >>> [note.code for note in skin_notes(Skins(outside=Skin(kind="thin_mesh", paint_coats=1)))]
    ['coverage_unasked', 'mesh_alkali_unasked']
    """
    notes: list[Note] = []
    params: dict[str, Scalar]
    for side in ("outside", "inside"):
        skin: Skin = getattr(skins, side)
        if skin.kind in PUBLISHED:
            basis = PUBLISHED[skin.kind]
            typed = [getattr(skin, f"{name}_thickness_m") for name in COATS]
            given = (basis.scratch_m, basis.brown_m, basis.finish_m)
            total = sum(own if t is None else t for t, own in zip(typed, given, strict=True))
            if total < basis.total_m - 1e-6:
                params = {"side": side, "thickness_m": total, "limit": basis.total_m}
                path = f"skins.{side}.scratch_thickness_m"
                notes.append(Note("skin_thin", "caution", path, params, basis.source))
        for what in ("waterproofing", "paint"):
            unknown = getattr(skin, f"{what}_coverage_m2_l") is None
            if skin.kind != "unstated" and getattr(skin, f"{what}_coats") and unknown:
                path = f"skins.{side}.{what}_coverage_m2_l"
                notes.append(Note("coverage_unasked", "info", path, {"side": side}, "typed"))
    if not (has_mesh(skins.outside) or has_mesh(skins.inside)):
        return tuple(notes)
    strength, kept = skins.mesh_strength_n_mm, skins.mesh_kept_fraction
    if (strength is not None and strength < STRENGTH_N_MM) or (kept is not None and kept < KEPT):
        params = {"strength_n_mm": STRENGTH_N_MM, "kept": KEPT}
        notes.append(Note("mesh_alkali_weak", "caution", "skins.mesh_strength_n_mm", params, "ead_040083"))
    elif strength is None or kept is None:
        params = {"strength_n_mm": STRENGTH_N_MM, "kept": KEPT}
        path = "skins.mesh_strength_n_mm" if strength is None else "skins.mesh_kept_fraction"
        notes.append(Note("mesh_alkali_unasked", "info", path, params, "ead_040083"))
    return tuple(notes)


#: What glass-fibre mesh must keep after ageing in alkali (EAD 040083, ETAG 004, from memory).
STRENGTH_N_MM: Final = 20.0
KEPT: Final = 0.5
