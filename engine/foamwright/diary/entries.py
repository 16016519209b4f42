"""The diary: entries that are only ever added, each dated and known by an id that no other phone makes.

Nothing is erased: an ``undo`` entry strikes another, and striking the undo brings it back. The rules
of the fields stand beside them as in the project's model, and are read by the same readers.
"""

import csv
import datetime
import hashlib
import io
import json
import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import Any, Final

import attrs
from attrs import frozen

from foamwright.diary.notes import note, problem
from foamwright.project import read
from foamwright.project.model import PRICE_ITEMS, PRICE_UNITS, choice, number, text
from foamwright.project.notes import Note, Problem, Scalar
from foamwright.project.quote import quote

#: Format of a diary's file and of its CSV.
FORMAT: Final = 1
#: Most entries of a diary.
MOST: Final = 20_000
#: Longest text of a diary, in characters.
MAX_TEXT: Final = 20_000_000

Step = Callable[[dict[str, Any]], dict[str, Any]]
#: Steps from one format to the next by the format that each starts from; none yet.
STEPS: Final[Mapping[int, Step]] = MappingProxyType({})

_ID: Final = re.compile(r"([a-z0-9]{1,12}-[0-9]{1,9})(~[0-9a-f]{16})?", re.ASCII)
_AT: Final = re.compile(
    r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?(Z|[+-]\d{2}:\d{2})?", re.ASCII
)
_NUMBER: Final = re.compile(r"-?\d{1,30}(\.\d{1,30})?([eE][+-]?\d{1,3})?", re.ASCII)
_DOUBTFUL: Final = re.compile(r"[-+]?[\d.,'\s]*\d[\d.,'\s]*")
#: A spreadsheet takes a text that begins so for a formula.
_FORMULA: Final = ("=", "+", "-", "@", "\t", "'")


@frozen
class FoamWeighed:
    """Foam in the bucket.

    Attributes
    ----------
    gross_g : float
        Bucket with foam [g]
    empty_g : float
        Empty bucket [g]
    volume_l : float
        Volume of the bucket [L]
    volume_standard_l : float
        Standard uncertainty of that volume [L]
    resolution_g : float
        Step of the scale [g]
    generator : str
        Which generator [-]
    agent : str
        Which agent [-]
    dilution : float or None
        Parts of water to one of concentrate [-]
    air : float or None
        Setting of the air [builder's own unit]
    liquid : float or None
        Setting of the liquid [builder's own unit]
    water_temperature_c : float or None
        Of the solution [degrees C]
    """

    gross_g: float = number(0.0, 0, 100_000, "mass")
    empty_g: float = number(0.0, 0, 100_000, "mass")
    volume_l: float = number(1.0, 0.1, 50, "volume")
    volume_standard_l: float = number(0.0, 0, 5, "volume")
    resolution_g: float = number(1.0, 0.001, 1000, "mass")
    generator: str = text("", 40)
    agent: str = text("", 40)
    dilution: float | None = number(None, 1, 500, "ratio", optional=True)
    air: float | None = number(None, 0, 1e6, "ratio", optional=True)
    liquid: float | None = number(None, 0, 1e6, "ratio", optional=True)
    water_temperature_c: float | None = number(None, -5, 100, "temperature", optional=True)


@frozen
class BucketWeighed:
    """The measuring bucket, empty and brimful of water.

    Attributes
    ----------
    gross_g : float
        Bucket with water [g]
    empty_g : float
        Empty bucket [g]
    water_temperature_c : float
        Of the water [degrees C]
    resolution_g : float
        Step of the scale [g]
    """

    gross_g: float = number(0.0, 0, 100_000, "mass")
    empty_g: float = number(0.0, 0, 100_000, "mass")
    water_temperature_c: float = number(20.0, -5, 100, "temperature")
    resolution_g: float = number(1.0, 0.001, 1000, "mass")


@frozen
class OutputTimed:
    """A known drum that the generator filled.

    Attributes
    ----------
    drum_l : float
        Volume of the drum [L]
    seconds : float
        Time to fill it [s]
    """

    drum_l: float = number(0.0, 0, 50_000, "volume")
    seconds: float = number(0.0, 0, 100_000, "ratio")


@frozen
class HeightLost:
    """A mould or drum that was looked at again after an hour.

    Attributes
    ----------
    filled_m : float
        Height when filled [m]
    after_m : float
        Height an hour later [m]
    """

    filled_m: float = number(0.0, 0, 5, "length")
    after_m: float = number(0.0, 0, 5, "length")


@frozen
class CauseSought:
    """What was seen of concrete that failed.

    Attributes
    ----------
    sinks : str
        Whether it sinks, ``yes`` or ``no`` [-]
    splits : str
        Whether it splits [-]
    hot_core : str
        Whether its middle is hot [-]
    weak_core : str
        Whether its middle is weak [-]
    crumbly : str
        Whether it crumbles [-]
    wet_foam : str
        Whether the foam looks wet [-]
    floats : str
        Whether foam floats on the slurry [-]
    """

    sinks: str = choice("no", ("no", "yes"))
    splits: str = choice("no", ("no", "yes"))
    hot_core: str = choice("no", ("no", "yes"))
    weak_core: str = choice("no", ("no", "yes"))
    crumbly: str = choice("no", ("no", "yes"))
    wet_foam: str = choice("no", ("no", "yes"))
    floats: str = choice("no", ("no", "yes"))


@frozen
class Drained:
    """A stand-and-drain test.

    Attributes
    ----------
    net_g : float
        Foam at the start [g]
    quarter_minutes : float or None
        Until a quarter had drained [min]
    half_minutes : float or None
        Until half had drained [min]
    watched_minutes : float
        How long it was watched [min]
    agent : str
        Which agent [-]
    """

    net_g: float = number(100.0, 0.1, 100_000, "mass")
    quarter_minutes: float | None = number(None, 0, 10_000, "minutes", optional=True)
    half_minutes: float | None = number(None, 0, 10_000, "minutes", optional=True)
    watched_minutes: float = number(0.0, 0, 10_000, "minutes")
    agent: str = text("", 40)


@frozen
class BatchMade:
    """A batch and its check.

    Attributes
    ----------
    outcome : str
        ``poured``, ``lost`` or ``calibration`` [-]
    bags : float or None
        Bags of cement that went in [-]
    cement_kg : float or None
        Cement that went in [kg]
    yield_l : float or None
        Foamed concrete that came of it [L]
    foam_l : float or None
        Foam that went in [L]
    gross_g : float or None
        Bucket full of foamed concrete [g]
    empty_g : float or None
        Empty bucket [g]
    volume_l : float or None
        Volume of the bucket [L]
    mix_temperature_c : float or None
        Of the mix [degrees C]
    height_lost_m : float or None
        What it sank in an hour [m]
    in_drum_l : float or None
        What stood in the drum when it was weighed [L]
    minutes : float or None
        From the first foam to the weighing [min]
    falling : str
        Whether its height was seen to fall, ``yes`` or ``no`` [-]
    """

    outcome: str = choice("poured", ("poured", "lost", "calibration"))
    bags: float | None = number(None, 0, 1000, "count", optional=True)
    cement_kg: float | None = number(None, 0, 50_000, "mass", optional=True)
    yield_l: float | None = number(None, 0, 50_000, "volume", optional=True)
    foam_l: float | None = number(None, 0, 50_000, "volume", optional=True)
    gross_g: float | None = number(None, 0, 200_000, "mass", optional=True)
    empty_g: float | None = number(None, 0, 200_000, "mass", optional=True)
    volume_l: float | None = number(None, 0.1, 100, "volume", optional=True)
    mix_temperature_c: float | None = number(None, -20, 90, "temperature", optional=True)
    height_lost_m: float | None = number(None, 0, 5, "length", optional=True)
    in_drum_l: float | None = number(None, 0, 50_000, "volume", optional=True)
    minutes: float | None = number(None, 0, 10_000, "minutes", optional=True)
    falling: str = choice("no", ("no", "yes"))


@frozen
class BlocksMade:
    """Blocks that came out of the moulds.

    Attributes
    ----------
    made : int
        Taken out of the moulds, broken ones too [-]
    broken : int
        Broken, of any day's [-]
    """

    made: int = number(0, 0, 100_000, "count", whole=True)
    broken: int = number(0, 0, 100_000, "count", whole=True)


@frozen
class Crushed:
    """A cube or a cylinder that was crushed.

    Attributes
    ----------
    form : str
        ``cube`` or ``cylinder`` [-]
    width_m : float
        Side of the cube or diameter of the cylinder [m]
    height_m : float
        Height [m]
    mass_kg : float or None
        Mass when it was crushed [kg]
    load_kn : float
        Load that broke it [kN]
    age_days : float
        Age [d]
    label : str
        What was written on it [-]
    """

    form: str = choice("cube", ("cube", "cylinder"))
    width_m: float = number(0.1, 0.02, 1, "length")
    height_m: float = number(0.1, 0.02, 2, "length")
    mass_kg: float | None = number(None, 0, 2000, "mass", optional=True)
    load_kn: float = number(0.0, 0, 10_000, "force")
    age_days: float = number(28.0, 0, 10_000, "days")
    label: str = text("", 40)


@frozen
class Weather:
    """Weather on site.

    Attributes
    ----------
    air_c : float or None
        Air [degrees C]
    night_low_c : float or None
        Lowest of the night [degrees C]
    humidity_fraction : float or None
        Relative humidity [-]
    wind_m_s : float or None
        Wind [m/s]
    sky : str
        ``unstated``, ``sun``, ``cloud``, ``rain``, ``snow`` or ``frost`` [-]
    """

    air_c: float | None = number(None, -60, 60, "temperature", optional=True)
    night_low_c: float | None = number(None, -60, 60, "temperature", optional=True)
    humidity_fraction: float | None = number(None, 0, 1, "fraction", optional=True)
    wind_m_s: float | None = number(None, 0, 80, "speed", optional=True)
    sky: str = choice("unstated", ("unstated", "sun", "cloud", "rain", "snow", "frost"))


@frozen
class Delivery:
    """What came.

    Attributes
    ----------
    item : str
        What, as prices name it [-]
    quantity : float
        How much [unit of the delivery]
    unit : str
        Unit, as prices name it [-]
    label : str
        In words [-]
    """

    item: str = choice("cement", PRICE_ITEMS)
    quantity: float = number(0.0, 0, 1e6, "ratio")
    unit: str = choice("bag", PRICE_UNITS)
    label: str = text("", 120)


@frozen
class WaterTested:
    """Mixing water that was tested.

    Attributes
    ----------
    hardness_mg_l : float or None
        Hardness as calcium carbonate [mg/L]
    ph : float or None
        pH [-]
    temperature_c : float or None
        Temperature [degrees C]
    label : str
        Where it came from [-]
    """

    hardness_mg_l: float | None = number(None, 0, 10_000, "concentration", optional=True)
    ph: float | None = number(None, 0, 14, "ratio", optional=True)
    temperature_c: float | None = number(None, -5, 100, "temperature", optional=True)
    label: str = text("", 120)


@frozen
class Remark:
    """A note in words.

    Attributes
    ----------
    text : str
        The words [-]
    """

    text: str = text("", 2000, lines=True)


@frozen
class Undo:
    """Strikes another entry without erasing it.

    Attributes
    ----------
    target : str
        Id of the entry that no longer counts [-]
    """

    target: str = text("", 40)


Content = (
    FoamWeighed | Drained | BatchMade | BlocksMade | Crushed | Weather | Delivery | WaterTested
    | Remark | Undo | BucketWeighed | OutputTimed | HeightLost | CauseSought
)  # fmt: skip
#: The kinds of entry by their codes.
KINDS: Final[Mapping[str, type[Any]]] = MappingProxyType(
    {
        "foam": FoamWeighed,
        "drain": Drained,
        "batch": BatchMade,
        "blocks": BlocksMade,
        "crushed": Crushed,
        "weather": Weather,
        "delivery": Delivery,
        "water": WaterTested,
        "note": Remark,
        "undo": Undo,
        "bucket": BucketWeighed,
        "output": OutputTimed,
        "height": HeightLost,
        "cause": CauseSought,
    }
)
_CODES: Final = {cls: code for code, cls in KINDS.items()}
#: Columns of the CSV: what every entry has, then every field of every kind.
COLUMNS: Final = (
    "format",
    "id",
    "at",
    "kind",
    *dict.fromkeys(a.name for cls in KINDS.values() for a in attrs.fields(cls)),
)


@frozen
class Entry:
    """One entry of the diary.

    Attributes
    ----------
    id : str
        Tag of the phone, hyphen, its counter; after a conflict a tilde and a fingerprint [-]
    at : str
        Local date and time, ISO 8601, given by the caller [-]
    what : Content
        What happened [-]
    """

    id: str
    at: str
    what: Content


@frozen
class Diary:
    """All entries in the order of their time, ids breaking ties.

    Attributes
    ----------
    entries : tuple of Entry
        The entries, struck ones too [-]
    """

    entries: tuple[Entry, ...] = ()


@frozen
class Taken:
    """What came of reading or adding: the diary, or why there is none.

    Attributes
    ----------
    diary : Diary or None
        Absent where there are problems [-]
    problems : tuple of Problem
        What cannot be taken, by path [-]
    """

    diary: Diary | None
    problems: tuple[Problem, ...] = ()


def new_id(device: str, counter: int) -> str:
    """Return the id of a new entry.

    Source: arithmetic.

    Parameters
    ----------
    device : str
        Tag of the phone, 1 to 12 small letters and digits, drawn once by chance [-]
    counter : int
        Counter of that phone, 0 to 999999999 [-]

    Returns
    -------
    str
        The id [-]

    Raises
    ------
    ValueError
        The tag or the counter is not such.

    Examples
    --------
    >>> new_id("k3f9", 12)
    'k3f9-12'
    """
    made = f"{device}-{counter}"
    if not _ID.fullmatch(made) or "~" in made:
        raise ValueError(f"id={made}; must be small letters and digits, a hyphen, a counter")
    return made


def next_counter(diary: Diary, device: str) -> int:
    """Return the first counter that a phone has not used.

    Source: arithmetic.

    Parameters
    ----------
    diary : Diary
        The diary [-]
    device : str
        Tag of the phone [-]

    Returns
    -------
    int
        Counter [-]

    Examples
    --------
    >>> next_counter(Diary((Entry("k3-7", "2026-05-01T08:00", Remark("dry")),)), "k3")
    8
    """
    used = [
        int(_origin(entry.id).rpartition("-")[2])
        for entry in diary.entries
        if entry.id.startswith(f"{device}-")
    ]
    return max(used, default=-1) + 1


def add(diary: Diary, data: Mapping[str, Any]) -> Taken:
    """Add one entry, given as plain data.

    Source: arithmetic; dates by ISO 8601.

    Parameters
    ----------
    diary : Diary
        The diary, left as it is [-]
    data : mapping
        ``id``, ``at``, ``kind`` and the fields of that kind [-]

    Returns
    -------
    Taken
        The diary with the entry, or its problems [-]

    Notes
    -----
    Raises nothing.

    Examples
    --------
    >>> entry = {"id": "k3-0", "at": "2026-05-01T08:00", "kind": "blocks", "made": 12}
    >>> add(Diary(), entry).diary.entries[0].what.made
    12
    >>> add(Diary(), entry | {"made": -1}).problems[0].code
    'too_small'
    """
    problems: list[Problem] = []
    entry = _entry(data, "", problems)
    if entry is None:
        return Taken(None, tuple(problems))
    if any(each.id == entry.id for each in diary.entries):
        return Taken(None, (problem("id", entry.id, 1, "duplicate_id"),))
    if len(diary.entries) >= MOST:
        return Taken(None, (problem("entries", len(diary.entries) + 1, MOST, "too_many"),))
    return Taken(_sorted((*diary.entries, entry)))


def standing(diary: Diary) -> tuple[tuple[Entry, ...], tuple[Note, ...]]:
    """Return the entries that count: not struck by an undo that itself stands, and no undo.

    Source: arithmetic.

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    tuple of (tuple of Entry, tuple of Note)
        What counts, and undos that strike nothing [-]

    Examples
    --------
    >>> first = Entry("k3-0", "2026-05-01T08:00", BlocksMade(12))
    >>> undo = Entry("k3-1", "2026-05-01T08:05", Undo("k3-0"))
    >>> standing(Diary((first, undo)))[0]
    ()
    >>> again = Entry("k3-2", "2026-05-01T08:06", Undo("k3-1"))
    >>> standing(Diary((first, undo, again)))[0][0].id
    'k3-0'
    """
    by_id = {entry.id: entry for entry in diary.entries}
    waiting = dict.fromkeys(by_id, 0)
    remarks: list[Note] = []
    for entry in diary.entries:
        if isinstance(entry.what, Undo):
            if entry.what.target in waiting:
                waiting[entry.what.target] += 1
            else:
                target = entry.what.target
                remarks.append(note("undo_without_target", "caution", id=entry.id, target=target))
    # An entry is settled once every undo that names it is; each undo names one entry, so this ends.
    settled = [name for name, count in waiting.items() if count == 0]
    struck: set[str] = set()
    for name in settled:
        what = by_id[name].what
        if isinstance(what, Undo) and what.target in waiting:
            if name not in struck:
                struck.add(what.target)
            waiting[what.target] -= 1
            if waiting[what.target] == 0:
                settled.append(what.target)
    circle = set(by_id) - set(settled)
    remarks += [note("undo_in_circle", "caution", id=name) for name in sorted(circle)]
    kept = tuple(
        entry
        for entry in diary.entries
        if not isinstance(entry.what, Undo) and entry.id not in struck
    )
    return kept, tuple(remarks)


def merge(one: Diary, other: Diary) -> tuple[Diary, tuple[Note, ...]]:
    """Merge two diaries without doubles.

    Source: arithmetic. Entries of one id and one content are one entry. Entries of one id with
    different contents are all kept, each with a fingerprint of its content after its id, and none
    under the plain id, so that an undo of that id strikes nothing by mistake. The order of merging
    makes no difference.

    Parameters
    ----------
    one : Diary
        A diary [-]
    other : Diary
        Another [-]

    Returns
    -------
    tuple of (Diary, tuple of Note)
        Both in one, and the ids that stood for different things [-]

    Examples
    --------
    >>> a = Diary((Entry("k3-0", "2026-05-01T08:00", BlocksMade(12)),))
    >>> b = Diary((Entry("k3-0", "2026-05-01T08:00", BlocksMade(13)),))
    >>> len(merge(a, a)[0].entries), len(merge(a, b)[0].entries), merge(a, b)[1][0].code
    (1, 2, 'diary_conflict')
    """
    by_origin: dict[str, dict[str, Entry]] = {}
    marked: set[str] = set()
    for entry in (*one.entries, *other.entries):
        origin = _origin(entry.id)
        if entry.id != origin:
            marked.add(origin)
        by_origin.setdefault(origin, {}).setdefault(_fingerprint(entry), entry)
    kept: list[Entry] = []
    remarks: list[Note] = []
    for origin, variants in by_origin.items():
        if len(variants) > 1:
            remarks.append(note("diary_conflict", "caution", id=origin, number=len(variants)))
        if len(variants) > 1 or origin in marked:
            kept += [attrs.evolve(entry, id=f"{origin}~{key}") for key, entry in variants.items()]
        else:
            kept += variants.values()
    remarks.sort(key=lambda remark: str(remark.params["id"]))
    return _sorted(kept), tuple(remarks)


# --- JSON -------------------------------------------------------------------------------------


def as_data(entry: Entry) -> dict[str, Any]:
    """Return an entry as the plain data that JSON can hold, every field stated.

    Source: RFC 8259 (JSON).

    Parameters
    ----------
    entry : Entry
        The entry [-]

    Returns
    -------
    dict
        ``id``, ``at``, ``kind`` and the fields [-]

    Examples
    --------
    >>> as_data(Entry("k3-0", "2026-05-01T08:00", Undo("k3-1")))
    {'id': 'k3-0', 'at': '2026-05-01T08:00', 'kind': 'undo', 'target': 'k3-1'}
    """
    head = {"id": entry.id, "at": entry.at, "kind": _CODES[type(entry.what)]}
    return head | {a.name: getattr(entry.what, a.name) for a in attrs.fields(type(entry.what))}


def write_diary(diary: Diary) -> str:
    """Write a diary as JSON, an entry to a line.

    Source: RFC 8259 (JSON).

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    str
        JSON; reading it gives the same diary to the last bit [-]

    Examples
    --------
    >>> read_diary(write_diary(Diary())).diary
    Diary(entries=())
    """
    lines = [json.dumps(as_data(entry), ensure_ascii=False, allow_nan=False) for entry in diary.entries]
    return f'{{"format": {FORMAT}, "entries": [\n' + ",\n".join(lines) + "\n]}\n"


def read_diary(
    source: str | Mapping[str, Any], *, steps: Mapping[int, Step] = STEPS, newest: int = FORMAT
) -> Taken:
    """Read a diary from text or from data already parsed.

    Source: RFC 8259 (JSON); the fields' rules as stated beside them.

    Parameters
    ----------
    source : str or mapping
        The diary [-]
    steps : mapping
        Migrations by the format that they start from [-]
    newest : int
        Format that they lead to [-]

    Returns
    -------
    Taken
        The diary, or its problems; at most 50 and one that counts the rest [-]

    Notes
    -----
    Valid for text of at most 20 000 000 characters and 20 000 entries. Raises nothing.

    Examples
    --------
    >>> read_diary('{"format": 1, "entries": [{"id": "k3-0", "kind": "note"}]}').problems[0].path
    'entries[0].at'
    """
    data: Any = source
    if isinstance(source, str):
        data, faults = _parse(source)
        if faults:
            return Taken(None, faults)
    if not isinstance(data, Mapping):
        return Taken(None, (problem("", quote(data), "object", "not_object"),))
    data, faults = _to_current(data, steps, newest)
    if faults:
        return Taken(None, faults)
    problems: list[Problem] = []
    unknown = [key for key in data if key not in ("format", "entries")]
    problems += [problem(str(quote(key)), quote(key), "entries", "unknown_key") for key in unknown]
    items = data.get("entries", [])
    if not isinstance(items, list | tuple):
        problems.append(problem("entries", quote(items), "list", "wrong_kind"))
        items = []
    if len(items) > MOST:
        problems.append(problem("entries", len(items), MOST, "too_many"))
        items = []
    taken = _all((f"entries[{place}]", item) for place, item in enumerate(items))
    return Taken(*_joined(problems, taken))


# --- CSV --------------------------------------------------------------------------------------


def write_csv(diary: Diary) -> str:
    """Write a diary as CSV with a header of the fields' names.

    Source: RFC 4180; dates by ISO 8601, numbers with a point. A text that a spreadsheet would take for
    a formula is led by an apostrophe, which reading takes off again.

    Parameters
    ----------
    diary : Diary
        The diary [-]

    Returns
    -------
    str
        CSV; reading it gives the same diary to the last bit [-]

    Examples
    --------
    >>> write_csv(Diary((Entry("k3-0", "2026-05-01T08:00", Undo("k3-1")),))).split()[1][:31]
    '1,k3-0,2026-05-01T08:00,undo,,,'
    """
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for entry in diary.entries:
        data = as_data(entry) | {"format": FORMAT}
        writer.writerow([_cell(data.get(name)) for name in COLUMNS])
    return made.getvalue()


def read_csv(source: str) -> Taken:
    """Read a diary from CSV.

    Source: RFC 4180; dates by ISO 8601. A number has a point and no grouping; what could be read in two
    ways, such as ``1,5`` or ``1.234,5``, is refused and not guessed. Columns may stand in any order, and
    those of no use to an entry are left empty.

    Parameters
    ----------
    source : str
        CSV with a header [-]

    Returns
    -------
    Taken
        The diary, or its problems; at most 50 and one that counts the rest [-]

    Notes
    -----
    Valid for text of at most 20 000 000 characters and 20 000 entries. Raises nothing.

    Examples
    --------
    >>> head = "format,id,at,kind,gross_g"
    >>> read_csv(head + chr(10) + '1,k3-0,2026-05-01T08:00,foam,"590,5"').problems[0].code
    'number_ambiguous'
    """
    if len(source) > MAX_TEXT:
        return Taken(None, (problem("", len(source), MAX_TEXT, "too_large"),))
    try:
        rows = list(csv.reader(io.StringIO(source.removeprefix("\ufeff"), newline=""), strict=True))
    except csv.Error as fault:
        return Taken(None, (problem("", quote(str(fault)), "RFC 4180", "csv_damaged"),))
    rows = [row for row in rows if row]
    if not rows:
        return Taken(None, (problem("", "", ", ".join(COLUMNS[:4]), "missing"),))
    header = rows[0]
    if len(header) == 1 and any(mark in header[0] for mark in ";\t"):
        return Taken(None, (problem("", quote(header[0]), ",", "csv_separator"),))
    problems: list[Problem] = []
    for place, name in enumerate(header):
        if name not in COLUMNS:
            problems.append(problem(f"header[{place}]", quote(name), "", "unknown_key"))
        elif name in header[:place]:
            problems.append(problem(f"header[{place}]", quote(name), 1, "duplicate_key"))
    problems += [
        problem("header", name, ", ".join(COLUMNS[:4]), "missing")
        for name in COLUMNS[:4]
        if name not in header
    ]
    if len(rows) - 1 > MOST:
        problems.append(problem("rows", len(rows) - 1, MOST, "too_many"))
    if problems:
        return Taken(None, _first(problems))
    made: list[tuple[str, Any]] = []
    for place, row in enumerate(rows[1:]):
        path = f"rows[{place}]"
        if len(row) != len(header):
            problems.append(problem(path, len(row), len(header), "csv_damaged"))
            continue
        cells = dict(zip(header, row, strict=True))
        if cells.pop("format") != str(FORMAT):
            found = dict(zip(header, row, strict=True))["format"]
            newer = found.isdecimal() and len(found) < 9 and int(found) > FORMAT
            code = "format_newer" if newer else "format_unknown"
            problems.append(problem(f"{path}.format", quote(found), FORMAT, code))
            continue
        made.append((path, _uncelled(cells, path, problems)))
    return Taken(*_joined(problems, _all(made)))


# --- inside -----------------------------------------------------------------------------------


def _origin(name: str) -> str:
    return name.partition("~")[0]


def _fingerprint(entry: Entry) -> str:
    data = {key: value for key, value in as_data(entry).items() if key != "id"}
    plain = json.dumps(data, sort_keys=True, allow_nan=False)
    return hashlib.sha256(plain.encode("ascii")).hexdigest()[:16]


def _sorted(entries: Iterable[Entry]) -> Diary:
    return Diary(tuple(sorted(entries, key=lambda entry: (entry.at[:16], entry.at, entry.id))))


def _first(problems: list[Problem]) -> tuple[Problem, ...]:
    rest = len(problems) - read.MAX_PROBLEMS
    if rest <= 0:
        return tuple(problems)
    more = problem("", rest, read.MAX_PROBLEMS, "more_problems")
    return (*problems[: read.MAX_PROBLEMS], more)


def _joined(problems: list[Problem], taken: Taken) -> tuple[Diary | None, tuple[Problem, ...]]:
    found = [*problems, *taken.problems]
    return (None if found else taken.diary), _first(found)


def _all(items: Iterable[tuple[str, Any]]) -> Taken:
    problems: list[Problem] = []
    entries: list[Entry] = []
    seen: set[str] = set()
    for path, item in items:
        entry = _entry(item, path, problems)
        if entry is None:
            continue
        if entry.id in seen:
            problems.append(problem(f"{path}.id", entry.id, 1, "duplicate_id"))
        seen.add(entry.id)
        entries.append(entry)
    return Taken(None, tuple(problems)) if problems else Taken(_sorted(entries))


def _entry(data: Any, path: str, problems: list[Problem]) -> Entry | None:
    lead = f"{path}." if path else ""
    if not isinstance(data, Mapping):
        problems.append(problem(path, quote(data), "object", "wrong_kind"))
        return None
    before = len(problems)
    name, at, kind = data.get("id"), data.get("at"), data.get("kind")
    if not isinstance(name, str) or not _ID.fullmatch(name):
        code = "missing" if name is None else "entry_id_unreadable"
        problems.append(problem(f"{lead}id", quote(name), "tag-number", code))
    if not isinstance(at, str) or not _is_date(at):
        code = "missing" if at is None else "date_unreadable"
        problems.append(problem(f"{lead}at", quote(at), "YYYY-MM-DDThh:mm", code))
    cls = KINDS.get(kind) if isinstance(kind, str) else None
    if cls is None:
        code = "missing" if kind is None else "not_a_choice"
        problems.append(problem(f"{lead}kind", quote(kind), ", ".join(KINDS), code))
        return None
    rest = {key: value for key, value in data.items() if key not in ("id", "at", "kind")}
    what = read.read_group(cls, rest, path, problems)
    if isinstance(what, Undo) and not _ID.fullmatch(what.target):
        problems.append(problem(f"{lead}target", what.target, "tag-number", "entry_id_unreadable"))
    if len(problems) > before or not isinstance(what, Content):
        return None
    return Entry(str(name), str(at), what)


def _is_date(value: str) -> bool:
    if not _AT.fullmatch(value):
        return False
    try:
        datetime.datetime.fromisoformat(value)
    except ValueError:
        return False
    return True


def _to_current(
    data: Mapping[str, Any], steps: Mapping[int, Step], newest: int
) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    if "format" not in data:
        return {}, (problem("format", None, newest, "format_missing"),)
    found = data["format"]
    if isinstance(found, bool) or not isinstance(found, int):
        return {}, (problem("format", quote(found), newest, "format_unknown"),)
    if found > newest:
        return {}, (problem("format", quote(found), newest, "format_newer"),)
    if found < 0 or any(start not in steps for start in range(found, newest)):
        return {}, (problem("format", quote(found), newest, "format_unknown"),)
    current = dict(data)
    try:
        for start in range(found, newest):
            current = {**steps[start](current), "format": start + 1}
    # A step meets data that nothing has checked yet; whatever it stumbles on is the file's fault.
    except Exception:
        return {}, (problem("format", quote(found), newest, "format_unknown"),)
    return current, ()


def _parse(source: str) -> tuple[Any, tuple[Problem, ...]]:
    if len(source) > MAX_TEXT:
        return None, (problem("", len(source), MAX_TEXT, "too_large"),)
    plain = source.removeprefix("\ufeff")
    depth = read.depth_of(plain)
    if depth > read.MAX_DEPTH:
        return None, (problem("", depth, read.MAX_DEPTH, "too_deep"),)

    def pairs(items: list[tuple[str, Any]]) -> read.JsonObject:
        made = read.JsonObject(items)
        if len(made) < len(items):
            counts = Counter(key for key, _ in items)
            made.twice = tuple(key for key, count in counts.items() if count > 1)
        return made

    try:
        data = json.loads(
            plain,
            object_pairs_hook=pairs,
            parse_constant=read.JsonLiteral,
            parse_float=read.json_float,
            parse_int=read.json_int,
        )
    except json.JSONDecodeError as fault:
        found = problem(
            "", quote(plain[fault.pos :]), "JSON", "not_json", line=fault.lineno, column=fault.colno
        )
        return None, (found,)
    return data, _first(read.named_twice(data, ""))


def _cell(value: Scalar) -> str:
    if value is None:
        return ""
    if isinstance(value, str):
        return f"'{value}" if value.startswith(_FORMULA) else value
    return repr(value)


def _uncelled(cells: dict[str, str], path: str, problems: list[Problem]) -> dict[str, Any]:
    """Turn the cells of a row into data; what cannot be turned is left for the problems to say."""
    cls = KINDS.get(cells["kind"])
    metas = {a.name: a.metadata for a in attrs.fields(cls)} if cls else {}
    data: dict[str, Any] = {name: cells[name] for name in ("id", "at", "kind")}
    for name, cell in cells.items():
        if name in data:
            continue
        meta = metas.get(name)
        if meta is None:
            # A cell that the kind has no field for is told as an unknown key.
            if cell and cls:
                data[name] = cell
        elif meta["kind"] == "number":
            if not cell:
                if not meta["optional"]:
                    problems.append(problem(f"{path}.{name}", "", "number", "number_empty"))
                continue
            if not _NUMBER.fullmatch(cell):
                code = "number_ambiguous" if _DOUBTFUL.fullmatch(cell) else "number_unreadable"
                problems.append(problem(f"{path}.{name}", quote(cell), "0.0", code))
                continue
            data[name] = read.json_float(cell)
        elif meta["kind"] == "text":
            data[name] = cell.removeprefix("'") if cell.startswith("'") else cell
        else:
            data[name] = cell
    return data
