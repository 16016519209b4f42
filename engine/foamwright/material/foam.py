"""Preformed foam: what the measuring bucket must weigh, and what it says of the mix."""

from attrs import frozen

from foamwright.material.density import WATER, FoamDensity, WetDensity
from foamwright.material.mix import MixResult
from foamwright.project.model import Bucket
from foamwright.project.notes import Note, Problem, Scalar


@frozen
class FoamResult:
    """The foam to hold on site.

    Attributes
    ----------
    bucket_volume_l : float
        Volume of the measuring bucket, struck off level [L]
    net_low_g : float
        Least the foam in the bucket may weigh, empty bucket taken off [g]
    net_aim_g : float
        What it should weigh [g]
    net_high_g : float
        Most it may weigh [g]
    expansion : float
        Volume of foam from one volume of solution, at the density aimed at [-]
    wet_density_low_kg_m3 : WetDensity
        Wet density if the batch's volume of foam is put in at the low weight [kg/m3]
    wet_density_high_kg_m3 : WetDensity
        The same at the high weight [kg/m3]
    """

    bucket_volume_l: float
    net_low_g: float
    net_aim_g: float
    net_high_g: float
    expansion: float
    wet_density_low_kg_m3: WetDensity
    wet_density_high_kg_m3: WetDensity


def net_weight(density: FoamDensity, volume: float) -> float:
    """Return what a bucket of foam weighs, empty bucket taken off.

    Source: arithmetic.

    Parameters
    ----------
    density : FoamDensity
        Density of the foam [kg/m3]
    volume : float
        Volume of the bucket [L]

    Returns
    -------
    float
        Net weight [g]

    Examples
    --------
    >>> round(net_weight(FoamDensity(90.0), 0.946352946), 1)
    85.2
    """
    return density * volume


def density_weighed(net: float, volume: float) -> FoamDensity:
    """Return the density of foam that was weighed in a bucket.

    Source: arithmetic.

    Parameters
    ----------
    net : float
        Net weight, empty bucket taken off [g]
    volume : float
        Volume of the bucket, above 0 [L]

    Returns
    -------
    FoamDensity
        Density [kg/m3]

    Examples
    --------
    >>> density_weighed(250.0, 5.0)
    50.0
    """
    return FoamDensity(net / volume)


def expansion(density: FoamDensity) -> float:
    """Return how many volumes of foam one volume of solution makes.

    Source: arithmetic; the solution taken as heavy as water.

    Parameters
    ----------
    density : FoamDensity
        Density of the foam, above 0 [kg/m3]

    Returns
    -------
    float
        Expansion [-]

    Examples
    --------
    >>> expansion(FoamDensity(50.0))
    20.0
    """
    return WATER / density


def wet_density_at(mix: MixResult, density: FoamDensity) -> WetDensity:
    """Return the wet density when the same volume of foam goes in at another foam density.

    Source: arithmetic (absolute volumes; the yield is unchanged, the mass is not).

    Parameters
    ----------
    mix : MixResult
        The batch as solved [-]
    density : FoamDensity
        Density of the foam that was really made [kg/m3]

    Returns
    -------
    WetDensity
        Wet density [kg/m3]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> round(wet_density_at(solve(Mix())[0], FoamDensity(100.0)), 1)
    488.2
    """
    return WetDensity(
        mix.wet_density_kg_m3 + (density - mix.foam_density_kg_m3) * mix.foam_volume_l / mix.yield_l
    )


def weigh(
    bucket: Bucket, mix: MixResult
) -> tuple[FoamResult | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return what the measuring bucket must weigh.

    Source: arithmetic; the window is typed by the builder.

    Parameters
    ----------
    bucket : Bucket
        The bucket and the window of foam densities [-]
    mix : MixResult
        The batch as solved [-]

    Returns
    -------
    tuple of (FoamResult or None, tuple of Problem, tuple of Note)
        Net weights, absent where the window is out of order [-]

    Examples
    --------
    >>> from foamwright.material.mix import solve
    >>> from foamwright.project.model import Mix
    >>> round(weigh(Bucket(), solve(Mix())[0])[0].net_high_g, 1)
    94.6
    """
    low, aim, high = bucket.foam_low_kg_m3, bucket.foam_aim_kg_m3, bucket.foam_high_kg_m3
    if low > aim:
        return None, (Problem("bucket.foam_low_kg_m3", low, aim, "bucket_window_order"),), ()
    if high < aim:
        return None, (Problem("bucket.foam_high_kg_m3", high, aim, "bucket_window_order"),), ()
    notes: tuple[Note, ...] = ()
    if not low <= mix.foam_density_kg_m3 <= high:
        params: dict[str, Scalar] = {
            "value": float(mix.foam_density_kg_m3),
            "low": low,
            "high": high,
        }
        notes = (
            Note("foam_window_excludes_mix", "caution", "bucket.foam_aim_kg_m3", params, "typed"),
        )
    volume = bucket.volume_l
    return (
        FoamResult(
            bucket_volume_l=volume,
            net_low_g=net_weight(FoamDensity(low), volume),
            net_aim_g=net_weight(FoamDensity(aim), volume),
            net_high_g=net_weight(FoamDensity(high), volume),
            expansion=expansion(FoamDensity(aim)),
            wet_density_low_kg_m3=wet_density_at(mix, FoamDensity(low)),
            wet_density_high_kg_m3=wet_density_at(mix, FoamDensity(high)),
        ),
        (),
        notes,
    )
