"""Blocks by volume: how many, how heavy. Courses come with the laying."""

from attrs import frozen

from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.project.model import Block, Waste
from foamwright.shape.measure import Shape
from foamwright.site.batches import CUTTING_BY_VOLUME, ceiling


@frozen
class BlockSize:
    """Blocks of one thickness.

    Attributes
    ----------
    thickness_m : float
        Third side of the mould: the thickness of the shell, where it tapers that of its foot [m]
    length_m : float
        Length of the mould [m]
    height_m : float
        Height of the mould [m]
    count : int
        Blocks that fill the shell [-]
    to_cast : int
        The same with those that break or are cut away [-]
    volume_m3 : float
        Of one block [m3]
    fresh_mass_kg : float
        Of one block as cast [kg]
    oven_dry_mass_kg : float
        Of one block dried in the oven; in the shell it stays heavier [kg]
    """

    thickness_m: float
    length_m: float
    height_m: float
    count: int
    to_cast: int
    volume_m3: float
    fresh_mass_kg: float
    oven_dry_mass_kg: float


@frozen
class Blocks:
    """All blocks of the job.

    Attributes
    ----------
    count : int
        Blocks that fill the shells [-]
    basis : str
        ``volume``: shell or wall over block, joints and cutting not laid out; blocks to order as ordered [-]
    to_cast : int
        The same with those that break or are cut away [-]
    volume_m3 : float
        Of the largest block; 0 where there is none, since a fill is poured [m3]
    fresh_mass_kg : float
        Of the largest block as cast [kg]
    oven_dry_mass_kg : float
        Of the largest block dried in the oven [kg]
    sizes : tuple of BlockSize
        One for each thickness, and one for each size that is ordered [-]
    """

    count: int
    basis: str
    to_cast: int
    volume_m3: float
    fresh_mass_kg: float
    oven_dry_mass_kg: float
    sizes: tuple[BlockSize, ...]


def block_mass(volume: float, density: WetDensity) -> float:
    """Return the mass of a block as cast.

    Source: arithmetic.

    Parameters
    ----------
    volume : float
        Volume of the block [m3]
    density : WetDensity
        Wet density [kg/m3]

    Returns
    -------
    float
        Mass [kg]

    Examples
    --------
    >>> round(block_mass(0.1016 * 0.3048 ** 2, WetDensity(484.38)), 2)
    4.57
    """
    return volume * density


def block_mass_dry(volume: float, density: OvenDryDensity) -> float:
    """Return the mass of a block dried in the oven.

    Source: arithmetic.

    Parameters
    ----------
    volume : float
        Volume of the block [m3]
    density : OvenDryDensity
        Oven-dry density [kg/m3]

    Returns
    -------
    float
        Mass [kg]

    Examples
    --------
    >>> round(block_mass_dry(0.02, OvenDryDensity(321.8)), 3)
    6.436
    """
    return volume * density


def count_blocks(
    shape: Shape, block: Block, waste: Waste, wet: WetDensity, oven_dry: OvenDryDensity
) -> Blocks:
    """Count blocks by volume, each thickness for itself, and those that are ordered as they are ordered.

    Source: arithmetic: ceiling of shell volume over block volume, where a shell tapers over that of a
    block of its mean thickness; breakage and cutting as typed, cutting that is not typed 3 % (common practice, no source). Ordered
    blocks are not cut; fills are poured.

    Parameters
    ----------
    shape : Shape
        The measured shells [-]
    block : Block
        The mould [m]
    waste : Waste
        Breakage and cutting [-]
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]

    Returns
    -------
    Blocks
        Counts and masses [-]

    Examples
    --------
    >>> from foamwright.project.model import Part
    >>> from foamwright.shape.measure import measure
    >>> shape = measure((Part(),))[0]
    >>> count_blocks(shape, Block(), Waste(), WetDensity(484.0), OvenDryDensity(322.0)).count
    755
    """
    volumes: dict[tuple[float, float], float] = {}
    ordered: dict[tuple[float, float, float], int] = {}
    for part in shape.parts:
        if part.fill is not None:
            continue
        if part.ordered is not None:
            size = (part.ordered.thickness_m, part.ordered.length_m, part.ordered.height_m)
            ordered[size] = ordered.get(size, 0) + part.ordered.count
            continue
        ends = part.end_walls_volume_m3
        shell = (part.thickness_m, part.mean_thickness_m)
        volumes[shell] = volumes.get(shell, 0.0) + part.shell_volume_m3 - part.hoods_volume_m3 - part.necks_volume_m3 - ends
        if part.end_thickness_m is not None:
            wall = (part.end_thickness_m, part.end_thickness_m)
            volumes[wall] = volumes.get(wall, 0.0) + ends
    cutting = CUTTING_BY_VOLUME if waste.cutting_fraction is None else waste.cutting_fraction
    spare = 1 + waste.breakage_fraction + cutting
    sizes = []

    def made(thickness: float, length: float, height: float, needed: float, spare: float) -> BlockSize:
        one = length * height * thickness
        return BlockSize(
            thickness_m=thickness,
            length_m=length,
            height_m=height,
            count=ceiling(needed),
            to_cast=ceiling(needed * spare),
            volume_m3=one,
            fresh_mass_kg=block_mass(one, wet),
            oven_dry_mass_kg=block_mass_dry(one, oven_dry),
        )

    for (thickness, mean), volume in volumes.items():
        needed = volume / (block.length_m * block.height_m * mean)
        sizes.append(made(thickness, block.length_m, block.height_m, needed, spare))
    for (thickness, length, height), count in ordered.items():
        sizes.append(made(thickness, length, height, count, 1 + waste.breakage_fraction))
    if not sizes:
        return Blocks(0, "volume", 0, 0.0, 0.0, 0.0, ())
    largest = max(sizes, key=lambda size: size.volume_m3)
    return Blocks(
        count=sum(size.count for size in sizes),
        basis="volume",
        to_cast=sum(size.to_cast for size in sizes),
        volume_m3=largest.volume_m3,
        fresh_mass_kg=largest.fresh_mass_kg,
        oven_dry_mass_kg=largest.oven_dry_mass_kg,
        sizes=tuple(sizes),
    )
