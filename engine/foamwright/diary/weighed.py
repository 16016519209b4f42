"""What the entries of weighed foam say to the chart and to the generator."""

from foamwright.diary.bucket import Tried
from foamwright.diary.chart import Point
from foamwright.diary.entries import Diary, Entry, FoamWeighed, standing
from foamwright.material.foam import density_weighed


def points(diary: Diary) -> tuple[Point, ...]:
    """Return every foam reading that stands, as the chart takes it.

    Source: arithmetic.

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    tuple of Point
        Readings in order of time; those whose full bucket is not the heavier are left out [-]

    Examples
    --------
    >>> weighed = FoamWeighed(gross_g=595.0, empty_g=500.0, agent="x")
    >>> points(Diary((Entry("k3-0", "2026-05-01T08:00", weighed),)))[0].density_kg_m3
    95.0
    """
    return tuple(
        Point(entry.id, entry.at, what.generator, what.agent, what.dilution or 0.0, _density(what))
        for entry, what in _foams(diary)
    )


def tried(diary: Diary) -> tuple[Tried, ...]:
    """Return the settings that were tried since the generator, the agent or the dilution changed.

    Source: arithmetic. A control that nobody wrote down is taken to have stood still.

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    tuple of Tried
        Settings and densities in order of time [-]

    Examples
    --------
    >>> weighed = FoamWeighed(gross_g=595.0, empty_g=500.0, air=3.0)
    >>> tried(Diary((Entry("k3-0", "2026-05-01T08:00", weighed),)))
    (Tried(air=3.0, liquid=0.0, density_kg_m3=95.0),)
    """
    kept: list[FoamWeighed] = []
    for _, what in reversed(_foams(diary)):
        if kept and _made_by(what) != _made_by(kept[0]):
            break
        kept.append(what)
    # An entry that states a control where another does not would look like a change of it.
    last = kept[:1]
    stated = {name for what in last for name in ("air", "liquid") if getattr(what, name) is not None}
    return tuple(
        Tried(
            what.air if "air" in stated and what.air is not None else 0.0,
            what.liquid if "liquid" in stated and what.liquid is not None else 0.0,
            _density(what),
        )
        for what in reversed(kept)
        if all(getattr(what, name) is not None for name in stated)
    )


def _foams(diary: Diary) -> list[tuple[Entry, FoamWeighed]]:
    entries, _ = standing(diary)
    return [
        (entry, entry.what)
        for entry in entries
        if isinstance(entry.what, FoamWeighed) and entry.what.gross_g > entry.what.empty_g
    ]


def _made_by(what: FoamWeighed) -> tuple[str, str, float | None]:
    return what.generator, what.agent, what.dilution


def _density(what: FoamWeighed) -> float:
    return density_weighed(what.gross_g - what.empty_g, what.volume_l)
