"""A whole project as one short code of letters and digits, to go in a link, a message or a QR picture.

From outside in: ``fw``, a version digit, four digits for the length of what follows, then base-62 of
the packed project and its CRC-32. Letters and digits alone, because messengers read ``_`` and ``*``
as markup and break links at ``-``; the length and the checksum let a code be found again between
other words and with line breaks in it. This envelope is the same in every version, so that a code
from a newer version is known for what it is.

Packed is what a project file would state, that is what differs from the defaults: for each group a
set of bits that says which fields follow, by the numbers in ``GROUPS``. Codes that were sent out are
never called back, so numbers and words are only ever added.
"""

import re
import struct
import zlib
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Final

from foamwright.project import migrate
from foamwright.project.model import FORMAT, Project
from foamwright.project.notes import Problem
from foamwright.project.quote import quote
from foamwright.project.read import Reading, read_project
from foamwright.project.write import as_data

#: Version of the packing; the format of the project stands inside it.
VERSION: Final = 1
#: Longest text in which a code is looked for, in characters; the largest project needs 1.5 million.
MAX_CODE: Final = 3_000_000
#: Longest packed project, in bytes.
MAX_PACKED: Final = 2_000_000

#: The fields of each group: number, name in the file, how it is packed. A field that leaves the model
#: stays here, so that old codes can be read and migrated. ``Part*`` is a list of ``Part``.
GROUPS: Final[Mapping[str, tuple[tuple[int, str, str], ...]]] = {
    "Project": (
        (0, "name", "text"),
        (1, "place", "Place"),
        (2, "market", "Market"),
        (3, "parts", "Part*"),
        (4, "note", "text"),
        (5, "mix", "Mix"),
        (6, "batch", "Batch"),
        (7, "bucket", "Bucket"),
        (8, "foam", "Foam"),
        (9, "block", "Block"),
        (10, "waste", "Waste"),
        (11, "permit", "Permit"),
        (12, "base", "Base"),
        (13, "skins", "Skins"),
        (14, "aggregate", "Aggregate"),
        (15, "wish", "Wish"),
        (16, "weather", "Weather"),
    ),
    "Place": (
        (0, "name", "text"),
        (1, "latitude", "number"),
        (2, "longitude", "number"),
        (3, "elevation_m", "number"),
    ),
    "Permit": ((0, "counts", "word"), (1, "limit_m2", "number"), (2, "answer", "text")),
    "Market": (
        (0, "country", "text"),
        (1, "currency", "text"),
        (2, "cement_bag_kg", "number"),
        (3, "prices", "Price*"),
        (4, "cement_type", "word"),
        (5, "strength_class", "word"),
        (6, "converted", "Rate"),
    ),
    "Price": (
        (0, "item", "word"),
        (1, "unit", "word"),
        (2, "price", "number"),
        (3, "label", "text"),
        (4, "quantity", "number"),
    ),
    "Rate": ((0, "from_currency", "text"), (1, "rate", "number"), (2, "date", "text")),
    "Part": (
        (0, "inside_diameter_m", "number"),
        (1, "stem_height_m", "number"),
        (2, "thickness_m", "number"),
        (3, "openings", "Opening*"),
        (4, "id", "text"),
        (5, "at_m", "numbers"),
        (6, "bearing_deg", "number"),
        (7, "shape", "word"),
        (8, "profile", "word"),
        (9, "rise_m", "number"),
        (10, "crown_thickness_m", "number"),
        (11, "crown_opening_m", "number"),
        (12, "crown_closed_by", "word"),
        (13, "inside_span_m", "number"),
        (14, "length_m", "number"),
        (15, "ends", "word"),
        (16, "end_thickness_m", "number"),
        (17, "plan_form", "word"),
        (18, "plan", "points"),
        (19, "wall", "Wall"),
        (20, "fill", "Fill"),
        (21, "order", "Order"),
    ),
    "Wall": (
        (0, "height_m", "number"),
        (1, "gable_rise_m", "number"),
        (2, "gable_sides", "numbers"),
        (3, "build", "word"),
        (4, "post_width_m", "number"),
        (5, "post_spacing_m", "number"),
        (6, "ring_beams", "number"),
        (7, "ring_beam_height_m", "number"),
        (8, "steel_sized", "word"),
        (9, "steel_sized_by", "text"),
        (10, "bar_diameter_m", "number"),
        (11, "post_bars", "number"),
        (12, "beam_bars", "number"),
        (13, "gust_m_s", "number"),
        (14, "brace_kn", "number"),
    ),
    "Fill": (
        (0, "kind", "word"),
        (1, "depth_m", "number"),
        (2, "slope_fraction", "number"),
        (3, "fall_deg", "number"),
        (4, "volume_m3", "number"),
        (5, "void_depth_m", "number"),
        (6, "placed_c", "number"),
    ),
    "Order": ((0, "count", "number"), (1, "length_m", "number"), (2, "height_m", "number")),
    "Opening": (
        (0, "form", "word"),
        (1, "width_m", "number"),
        (2, "height_m", "number"),
        (3, "diameter_m", "number"),
        (4, "sill_m", "number"),
        (5, "azimuth_deg", "number"),
        (6, "count", "number"),
        (7, "spacing_deg", "number"),
        (8, "to", "text"),
        (9, "face", "word"),
        (10, "along_m", "number"),
        (11, "side", "number"),
        (12, "hood", "word"),
        (13, "hood_projection_m", "number"),
        (14, "hood_thickness_m", "number"),
    ),
    "Mix": (
        (0, "cement_kg", "number"),
        (1, "water_l", "number"),
        (2, "foam_density_kg_m3", "number"),
        (3, "yield_l", "number"),
        (4, "given", "words"),
        (5, "wet_density_kg_m3", "number"),
        (6, "oven_dry_density_kg_m3", "number"),
        (7, "cement_density_kg_m3", "number"),
        (8, "water_cement_ratio", "number"),
        (9, "total_water_cement_ratio", "number"),
        (10, "additions", "Addition*"),
    ),
    "Addition": (
        (0, "kind", "word"),
        (1, "per", "word"),
        (2, "kg_per_kg", "number"),
        (3, "kg_per_m3", "number"),
        (4, "moisture_fraction", "number"),
        (5, "absorption_fraction", "number"),
        (6, "grain_kg_m3", "number"),
    ),
    "Wish": ((0, "strength_mpa", "number"), (1, "conductivity_w_mk", "number")),
    "Weather": (
        (0, "air_c", "number"),
        (1, "night_c", "number"),
        (2, "water_c", "number"),
        (3, "cement_c", "number"),
        (4, "mix_wanted_c", "number"),
        (5, "humidity_fraction", "number"),
        (6, "wind_m_s", "number"),
        (7, "hardness", "number"),
        (8, "hardness_unit", "word"),
    ),
    "Bucket": (
        (0, "volume_l", "number"),
        (1, "foam_low_kg_m3", "number"),
        (2, "foam_aim_kg_m3", "number"),
        (3, "foam_high_kg_m3", "number"),
    ),
    "Mark": ((0, "volume_l", "number"), (1, "height_m", "number")),
    "Batch": (
        (0, "bags_each", "number"),
        (1, "drum_l", "number"),
        (2, "drum_form", "word"),
        (3, "drum_diameter_m", "number"),
        (4, "drum_depth_m", "number"),
        (5, "emptying", "word"),
        (6, "freeboard_fraction", "number"),
        (7, "drum_bottom_diameter_m", "number"),
        (8, "drum_top_diameter_m", "number"),
        (9, "drum_marks", "Mark*"),
        (10, "slurry_minutes", "number"),
        (11, "fold_minutes", "number"),
        (12, "pour_within_minutes", "number"),
    ),
    "Base": (
        (0, "kind", "word"),
        (1, "frost_depth_m", "number"),
        (2, "trench_depth_m", "number"),
        (3, "trench_width_m", "number"),
        (4, "trench_gravel_m", "number"),
        (5, "beam_width_m", "number"),
        (6, "beam_height_m", "number"),
        (7, "steel_sized", "word"),
        (8, "steel_sized_by", "text"),
        (9, "bar_diameter_m", "number"),
        (10, "bars", "number"),
        (11, "bar_length_m", "number"),
        (12, "lap_diameters", "number"),
        (13, "damp_course", "word"),
        (14, "damp_waste_fraction", "number"),
        (15, "floor", "word"),
        (16, "slab_gravel_m", "number"),
        (17, "slab_insulation_m", "number"),
        (18, "slab_thickness_m", "number"),
        (19, "floor_finish_m", "number"),
        (20, "floor_finish_sand_parts", "number"),
        (21, "topsoil_m", "number"),
        (22, "bulking_fraction", "number"),
        (23, "concrete", "word"),
        (24, "sand_parts", "number"),
        (25, "gravel_parts", "number"),
        (26, "water_cement_ratio", "number"),
        (27, "concrete_waste_fraction", "number"),
        (28, "gravel_waste_fraction", "number"),
    ),
    "Skin": (
        (0, "kind", "word"),
        (1, "mesh", "word"),
        (2, "scratch_thickness_m", "number"),
        (3, "scratch_sand_parts", "number"),
        (4, "scratch_lime_parts", "number"),
        (5, "brown_thickness_m", "number"),
        (6, "brown_sand_parts", "number"),
        (7, "brown_lime_parts", "number"),
        (8, "finish_thickness_m", "number"),
        (9, "finish_sand_parts", "number"),
        (10, "finish_lime_parts", "number"),
        (11, "waterproofing_coats", "number"),
        (12, "waterproofing_coverage_m2_l", "number"),
        (13, "paint_coats", "number"),
        (14, "paint_coverage_m2_l", "number"),
    ),
    "Skins": (
        (0, "outside", "Skin"),
        (1, "inside", "Skin"),
        (2, "reveals", "word"),
        (3, "mix_by", "word"),
        (4, "water_cement_ratio", "number"),
        (5, "roll_width_m", "number"),
        (6, "roll_length_m", "number"),
        (7, "lap_m", "number"),
        (8, "foot_return_m", "number"),
        (9, "lay", "word"),
        (10, "mesh_strength_n_mm", "number"),
        (11, "mesh_kept_fraction", "number"),
        (12, "coat_waste_fraction", "number"),
        (13, "mesh_waste_fraction", "number"),
        (14, "paint_waste_fraction", "number"),
    ),
    "Aggregate": (
        (0, "sand_bulk_kg_m3", "number"),
        (1, "gravel_bulk_kg_m3", "number"),
        (2, "lime_bulk_kg_m3", "number"),
    ),
    "Foam": ((0, "agent_dilution", "number"),),
    "Block": (
        (0, "length_m", "number"),
        (1, "height_m", "number"),
        (2, "joint_m", "number"),
        (3, "joint_material", "word"),
        (4, "moulds", "number"),
    ),
    "Waste": (
        (0, "lost_batches_fraction", "number"),
        (1, "breakage_fraction", "number"),
        (2, "cutting_fraction", "number"),
        (3, "calibration_batches", "number"),
    ),
}

#: What plain lists are lists of.
_LISTED: Final = {"numbers": "number", "words": "word", "points": "numbers"}

#: Every choice of the model by its number.
WORDS: Final[tuple[tuple[int, str], ...]] = (
    (0, "rectangular"), (1, "arched"), (2, "round"),
    (3, "dome"), (4, "hemisphere"),
    (5, "cement"), (6, "agent"), (7, "water"), (8, "other"),
    (9, "bag"), (10, "kg"), (11, "t"), (12, "lb"), (13, "L"), (14, "m3"), (15, "us_gal"),
    (16, "imp_gal"), (17, "piece"), (18, "day"), (19, "lump"),
    (20, "unstated"),
    (21, "cem_i"), (22, "cem_ii_a"), (23, "cem_ii_b"), (24, "cem_iii_a"), (25, "cem_iii_b"),
    (26, "cem_iv"), (27, "cem_v"), (28, "astm_i"), (29, "astm_ii"), (30, "astm_iii"), (31, "astm_v"),
    (32, "astm_il"), (33, "astm_ip"), (34, "astm_is"), (35, "masonry"),
    (36, "32.5N"), (37, "32.5R"), (38, "42.5N"), (39, "42.5R"), (40, "52.5N"), (41, "52.5R"),
    (42, "cement_kg"), (43, "water_l"), (44, "foam_density_kg_m3"), (45, "yield_l"),
    (46, "wet_density_kg_m3"), (47, "oven_dry_density_kg_m3"), (48, "water_cement_ratio"),
    (49, "total_water_cement_ratio"),
    (50, "straight"), (51, "tapered"), (52, "calibrated"),
    (53, "in_place"), (54, "tip"), (55, "bottom_outlet"), (56, "buckets"),
    (57, "unasked"), (58, "inside"), (59, "footprint"), (60, "headroom"),
    (61, "vault"), (62, "semicircle"), (63, "segment"), (64, "pointed"), (65, "catenary"),
    (66, "parabola"), (67, "ellipse"), (68, "open"), (69, "glazed"), (70, "both"), (71, "one"),
    (72, "around"), (73, "side_a"), (74, "side_b"), (75, "end_a"), (76, "end_b"),
    (77, "sand"), (78, "gravel"), (79, "lime"), (80, "ready_concrete"), (81, "bar"),
    (82, "damp_course"), (83, "insulation"), (84, "mesh_roll"), (85, "waterproofing"), (86, "paint"),
    (87, "m"), (88, "m2"), (89, "ft"), (90, "ft2"), (91, "yd3"),
    (92, "none"), (93, "footing"), (94, "ring_beam"), (95, "unsized"), (96, "placeholder"),
    (97, "typed"), (98, "yes"), (99, "no"), (100, "slab"), (101, "site"),
    (102, "ready"), (103, "thin_mesh"), (104, "solid_base"), (105, "solid_base_two"), (106, "lath"),
    (107, "by_kind"), (108, "outside"), (109, "volume"), (110, "mass"), (111, "gores"),
    (112, "bands"),
    (113, "wall"), (114, "fill"), (115, "blocks"), (116, "rectangle"), (117, "polygon"), (118, "circle"),
    (119, "run"), (120, "infill"), (121, "falls"), (122, "layer"), (123, "void"),
    (124, "mortar"), (125, "adhesive"), (126, "joint_mortar"), (127, "joint_adhesive"),
    (128, "head"),
    (129, "fly_ash"), (130, "fibres"), (131, "accelerator"), (132, "yield"),
    (133, "mg_l"), (134, "grain_us_gal"), (135, "german"), (136, "french"),
)  # fmt: skip
_WORD_NUMBERS: Final = {word: number for number, word in WORDS}
_WORDS_BY_NUMBER: Final = dict(WORDS)

_DIGITS: Final = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
_VALUES: Final = {digit: value for value, digit in enumerate(_DIGITS)}
#: 29 bytes fill 39 digits almost to the last bit, and small whole numbers stay quick to turn.
_BLOCK: Final = 29
#: Digits needed for so many bytes: the fewest that can tell all their values apart.
_WIDTHS: Final = tuple(
    next(width for width in range(count * 2 + 1) if 62**width >= 256**count)
    for count in range(_BLOCK + 1)
)
_LENGTH: Final = 4
#: Letters by how often they come in names and notes in Latin script: the first twelve take four bits,
#: the others eight.
_COMMON: Final = " eaonirtslducmpgbfhvykzwxjqABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,-'()/:áéíóú"
_SHORT: Final = 12
#: How a text is packed.
_UTF8, _LATIN, _SCRIPT = range(3)
_COMMON_PLACES: Final = {letter: place for place, letter in enumerate(_COMMON)}
_NOT_DIGIT: Final = re.compile(r"[^0-9A-Za-z]+")
# A keyboard may make the first letter of a message a capital.
_HEAD: Final = re.compile(rf"(?=[Ff]w([0-9A-Za-z])([0-9A-Za-z]{{{_LENGTH}}}))")
_LIKE_OURS: Final = re.compile(r"fw\d", re.IGNORECASE | re.ASCII)

#: Powers of ten that share a byte with a small mantissa; 7 in their place announces a special number.
_POWERS: Final = (0, -1, -2, -3, -4, -6, 3)
_SPECIAL: Final = 7
_NULL, _NEGATIVE, _DECIMAL, _BINARY = range(4)


class _Damaged(Exception):
    """The packed bytes end early or say what no writer writes."""


class _Newer(Exception):
    """The packed bytes use a number that this version does not know."""


class _TooLarge(Exception):
    """The packed bytes unfold to more than any project needs."""


def encode(project: Project) -> str:
    """Pack a whole project into one code of letters and digits.

    Source: arithmetic; CRC-32 of ISO/IEC/IEEE 8802-3 and DEFLATE of RFC 1951, both by zlib.

    Parameters
    ----------
    project : Project
        The project [-]

    Returns
    -------
    str
        The code, safe in the fragment of an address (RFC 3986, 3.5) [-]

    Notes
    -----
    Valid for every project that ``read_project`` returns. Raises nothing.

    Examples
    --------
    >>> decode(encode(Project(name="Lindenhof"))).project.name
    'Lindenhof'
    """
    data = as_data(project)
    dense, plain = bytearray(), bytearray()
    _put_group(dense, "Project", data, dense=True)
    # Deflate finds repeats in whole bytes, so it starts from the letters as they are.
    _put_group(plain, "Project", data, dense=False)
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    deflated = packer.compress(bytes(plain)) + packer.flush()
    body = bytearray()
    _put_whole(body, FORMAT * 2 + (len(deflated) < len(dense)))
    body += min(bytes(dense), deflated, key=len)
    return _seal(bytes(body))


def decode(code: str, *, steps: migrate.Steps = migrate.STEPS) -> Reading:
    """Read the project out of a code, wherever it stands in a pasted text.

    Source: arithmetic; CRC-32 of ISO/IEC/IEEE 8802-3 and DEFLATE of RFC 1951, both by zlib.

    Parameters
    ----------
    code : str
        A code, or a text with a code in it: an address, a message, with line breaks or spaces [-]
    steps : mapping
        Migrations by the format that they start from [-]

    Returns
    -------
    Reading
        The project, or its problems [-]

    Notes
    -----
    Valid for at most 3 000 000 characters. Raises nothing.

    Examples
    --------
    >>> decode("see https://example.org/page#" + encode(Project(name="Lindenhof")) + " :-)").project.name
    'Lindenhof'
    >>> decode("hello").problems[0].code
    'code_foreign'
    """
    if not isinstance(code, str):
        return _refuse("code_foreign", code, "fw")
    if len(code) > MAX_CODE:
        return _refuse("too_large", len(code), MAX_CODE)
    found = _unseal(_NOT_DIGIT.sub("", code))
    if isinstance(found, Problem):
        return Reading(None, (found,))
    version, body = found
    if version > VERSION:
        return _refuse("code_newer", version, VERSION)
    try:
        return read_project(_unpack(body), steps=steps)
    except _Newer:
        return _refuse("code_newer", quote(code), VERSION)
    except _Damaged:
        return _refuse("code_damaged", quote(code), "checksum")
    except _TooLarge:
        return _refuse("too_large", quote(code), MAX_PACKED)


def _refuse(code: str, value: object, limit: str | int) -> Reading:
    return Reading(None, (Problem("", quote(value), limit, code),))


# --- the envelope: the same in every version --------------------------------------------------


def _seal(body: bytes, version: int = VERSION) -> str:
    digits = _to_digits(body + _checksum(version, body))
    return f"fw{_DIGITS[version]}{_number_to_digits(len(digits), _LENGTH)}{digits}"


def _unseal(text: str) -> tuple[int, bytes] | Problem:
    cut: Problem | None = None
    work = 0
    for match in _HEAD.finditer(text):
        version, length = _VALUES[match[1]], _digits_to_number(match[2])
        start = match.end(2)
        if len(text) - start < length:
            cut = cut or Problem("", len(text) - start, length, "code_damaged", {"cut": True})
            continue
        work += length
        if work > MAX_CODE:
            break
        sealed = _from_digits(text[start : start + length])
        if sealed is not None and len(sealed) > 4 and _checksum(version, sealed[:-4]) == sealed[-4:]:
            return version, sealed[:-4]
    like = _LIKE_OURS.search(text)
    if like is None:
        return Problem("", quote(text), "fw", "code_foreign")
    if cut and text[like.start() :].startswith(f"fw{VERSION}"):
        return cut
    return Problem("", quote(text[like.start() :]), "checksum", "code_damaged")


def _checksum(version: int, body: bytes) -> bytes:
    return zlib.crc32(body, version).to_bytes(4, "big")


def _to_digits(data: bytes) -> str:
    blocks = (data[start : start + _BLOCK] for start in range(0, len(data), _BLOCK))
    return "".join(
        _number_to_digits(int.from_bytes(block, "big"), _WIDTHS[len(block)]) for block in blocks
    )


def _from_digits(digits: str) -> bytes | None:
    full = _WIDTHS[_BLOCK]
    data = bytearray()
    for start in range(0, len(digits), full):
        block = digits[start : start + full]
        if len(block) not in _WIDTHS:
            return None
        count = _WIDTHS.index(len(block))
        value = _digits_to_number(block)
        if value >= 256**count:
            return None
        data += value.to_bytes(count, "big")
    return bytes(data)


def _number_to_digits(value: int, width: int) -> str:
    digits = []
    for _ in range(width):
        value, digit = divmod(value, 62)
        digits.append(_DIGITS[digit])
    return "".join(reversed(digits))


def _digits_to_number(digits: str) -> int:
    value = 0
    for digit in digits:
        value = value * 62 + _VALUES[digit]
    return value


# --- packing ----------------------------------------------------------------------------------


def _put_whole(out: bytearray, value: int) -> None:
    while value > 127:
        out.append(value & 127 | 128)
        value >>= 7
    out.append(value)


def _put_group(out: bytearray, group: str, data: Mapping[str, Any], *, dense: bool) -> None:
    present = [(number, name, kind) for number, name, kind in GROUPS[group] if name in data]
    _put_whole(out, sum(1 << number for number, _, _ in present))
    for _, name, kind in sorted(present):
        _put(out, kind, data[name], dense)


def _put(out: bytearray, kind: str, value: Any, dense: bool) -> None:
    if kind == "number":
        _put_number(out, value)
    elif kind == "text":
        _put_text(out, value, dense)
    elif kind == "word":
        _put_whole(out, _WORD_NUMBERS[value])
    elif kind in _LISTED or kind.endswith("*"):
        _put_whole(out, len(value))
        for item in value:
            _put(out, _LISTED.get(kind, kind[:-1]), item, dense)
    else:
        _put_group(out, kind, value, dense=dense)


def _put_number(out: bytearray, value: float | None) -> None:
    if value is None:
        _put_whole(out, _NULL * 8 + _SPECIAL)
        return
    if value < 0:
        _put_whole(out, _NEGATIVE * 8 + _SPECIAL)
        _put_number(out, -value)
        return
    out += min(_ways(value), key=len)


def _ways(value: float) -> list[bytes]:
    """List the ways to pack a number that give it back to the last bit."""
    ways = []
    exact = Decimal(repr(value))
    for place, power in enumerate(_POWERS):
        mantissa = exact.scaleb(-power)
        if mantissa == mantissa.to_integral_value() and mantissa < 10**18:
            way = bytearray()
            _put_whole(way, int(mantissa) * 8 + place)
            ways.append(bytes(way))
    _, digits, tens = exact.as_tuple()
    way = bytearray()
    _put_whole(way, _DECIMAL * 8 + _SPECIAL)
    _put_whole(way, abs(int(tens)) * 2 + (int(tens) > 0))
    _put_whole(way, int("".join(map(str, digits))))
    ways.append(bytes(way))
    way = bytearray()
    _put_whole(way, _BINARY * 8 + _SPECIAL)
    ways.append(bytes(way) + struct.pack(">d", value))
    return ways


def _put_text(out: bytearray, value: str | None, dense: bool) -> None:
    if value is None:
        _put_whole(out, 0)
        return
    ways = [(len(utf8 := value.encode("utf-8", "surrogatepass")), _UTF8, utf8)]
    if dense and all(letter in _COMMON_PLACES for letter in value):
        ways.append((len(value), _LATIN, _to_halves(value)))
    blocks = {ord(letter) >> 7 for letter in value if ord(letter) > 127}
    if len(blocks) == 1:
        ways.append((len(value), _SCRIPT, _to_script(value, blocks.pop())))
    count, way, packed = min(ways, key=lambda item: len(item[2]))
    _put_whole(out, 1 + count * 3 + way)
    out += packed


def _to_halves(value: str) -> bytes:
    """Pack frequent letters of Latin script in half bytes, rarer ones in two halves."""
    digits = ""
    for letter in value:
        place = _COMMON_PLACES[letter]
        digits += f"{place:x}" if place < _SHORT else f"{place - _SHORT + _SHORT * 16:02x}"
    return bytes.fromhex(digits + "0" * (len(digits) % 2))


def _to_script(value: str, block: int) -> bytes:
    """Pack the letters of one script next to ASCII in a byte each, where UTF-8 needs two or three."""
    out = bytearray()
    _put_whole(out, block)
    return bytes(out) + bytes(
        ord(letter) if ord(letter) < 128 else ord(letter) & 127 | 128 for letter in value
    )


# --- unpacking --------------------------------------------------------------------------------


def _unpack(body: bytes) -> dict[str, Any]:
    source = _Bytes(body)
    head = source.whole()
    version, deflated = divmod(head, 2)
    if version > FORMAT:
        raise _Newer
    if deflated:
        source = _Bytes(_inflate(source.rest()))
    data = _get_group(source, "Project")
    if source.rest():
        raise _Damaged
    return {"format": version, **data}


def _inflate(data: bytes) -> bytes:
    unpacker = zlib.decompressobj(-15)
    try:
        plain = unpacker.decompress(data, MAX_PACKED + 1)
    except zlib.error as fault:
        raise _Damaged from fault
    if len(plain) > MAX_PACKED:
        raise _TooLarge
    if not unpacker.eof or unpacker.unused_data:
        raise _Damaged
    return plain


class _Bytes:
    """Bytes that are taken from the front."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._at = 0

    def take(self, count: int) -> bytes:
        """Take so many bytes, or raise ``_Damaged``."""
        if count > len(self._data) - self._at:
            raise _Damaged
        self._at += count
        return self._data[self._at - count : self._at]

    def rest(self) -> bytes:
        """Take what is left."""
        return self.take(len(self._data) - self._at)

    def whole(self) -> int:
        """Take one whole number of at most 63 bits."""
        value = 0
        for shift in range(0, 63, 7):
            byte = self.take(1)[0]
            value |= (byte & 127) << shift
            if byte < 128:
                return value
        raise _Damaged


def _get_group(source: _Bytes, group: str) -> dict[str, Any]:
    present = source.whole()
    data = {}
    known = 0
    for number, name, kind in sorted(GROUPS[group]):
        known |= 1 << number
        if present >> number & 1:
            data[name] = _get(source, kind)
    if present & ~known:
        raise _Newer
    return data


def _get(source: _Bytes, kind: str) -> Any:
    if kind == "number":
        return _get_number(source)
    if kind == "text":
        return _get_text(source)
    if kind == "word":
        number = source.whole()
        if number not in _WORDS_BY_NUMBER:
            raise _Newer
        return _WORDS_BY_NUMBER[number]
    if kind in _LISTED or kind.endswith("*"):
        return [_get(source, _LISTED.get(kind, kind[:-1])) for _ in range(source.whole())]
    return _get_group(source, kind)


def _get_number(source: _Bytes) -> float | int | None:
    head = source.whole()
    if head != _NEGATIVE * 8 + _SPECIAL:
        return _get_unsigned(source, head)
    value = _get_unsigned(source, source.whole())
    if value is None:
        raise _Damaged
    return -value


def _get_unsigned(source: _Bytes, head: int) -> float | int | None:
    mantissa, place = divmod(head, 8)
    if place < _SPECIAL:
        return _decimal(mantissa, _POWERS[place])
    if mantissa == _NULL:
        return None
    if mantissa == _DECIMAL:
        tens, upwards = divmod(source.whole(), 2)
        return _decimal(source.whole(), tens if upwards else -tens)
    if mantissa == _BINARY:
        return float(struct.unpack(">d", source.take(8))[0])
    raise _Damaged if mantissa == _NEGATIVE else _Newer


def _decimal(mantissa: int, power: int) -> float | int:
    return mantissa if power == 0 else float(f"{mantissa}e{power}")


def _get_text(source: _Bytes) -> str | None:
    head = source.whole()
    if head == 0:
        return None
    count, way = divmod(head - 1, 3)
    if way == _LATIN:
        return _get_halves(source, count)
    if way == _SCRIPT:
        return _get_script(source, count)
    try:
        return source.take(count).decode("utf-8", "surrogatepass")
    except UnicodeDecodeError as fault:
        raise _Damaged from fault


def _get_halves(source: _Bytes, count: int) -> str:
    text: list[str] = []
    halves: list[int] = []
    while len(text) < count:
        if not halves:
            halves += divmod(source.take(1)[0], 16)
        place = halves.pop(0)
        if place >= _SHORT:
            if not halves:
                halves += divmod(source.take(1)[0], 16)
            place = _SHORT + (place - _SHORT) * 16 + halves.pop(0)
        if place >= len(_COMMON):
            raise _Damaged
        text.append(_COMMON[place])
    return "".join(text)


def _get_script(source: _Bytes, count: int) -> str:
    block = source.whole()
    if block > 0x10FFFF >> 7:
        raise _Damaged
    return "".join(chr(byte if byte < 128 else block << 7 | byte & 127) for byte in source.take(count))
