"""The Reader: which language, units and digits one person wants; a value that is passed along."""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any, Final, Literal

from attrs import frozen
from babel import Locale, UnknownLocaleError

from foamwright.project.notes import Problem
from foamwright.reader.catalogs import PSEUDO, catalog_tag, tag_parents

Units = Literal["metric", "us", "imperial"]
Digits = Literal["auto", "latin", "native"]
Numbers = Literal["auto", "point", "comma", "space", "quote"]

UNITS: Final[tuple[Units, ...]] = ("metric", "us", "imperial")
DIGITS: Final[tuple[Digits, ...]] = ("auto", "latin", "native")
NUMBERS: Final[tuple[Numbers, ...]] = ("auto", "point", "comma", "space", "quote")

#: Where materials are sold in pounds, feet and US gallons (CLDR supplemental measurementData, type US,
#: with the territories of the United States, which CLDR does not list).
US_REGIONS: Final = frozenset({"US", "LR", "PR", "GU", "VI", "AS", "MP", "UM"})


@frozen
class Reader:
    """One person's choices; each stands on its own and none of them belongs to the project.

    Attributes
    ----------
    language : str
        Language tag (BCP 47), a region allowed [-]
    units : str
        ``metric``, ``us`` or ``imperial`` [-]
    digits : str
        ``auto`` as the language has them, ``latin`` or ``native`` [-]
    numbers : str
        ``auto``, or 1,234.5 ``point``, 1.234,5 ``comma``, 1 234,5 ``space``, 1’234.5 ``quote`` [-]
    """

    language: str = "en"
    units: Units = "metric"
    digits: Digits = "auto"
    numbers: Numbers = "auto"

    @classmethod
    def from_json(cls, data: object) -> "Reader":
        """Take choices as they were stored; what cannot be taken becomes the default.

        Source: arithmetic.

        Parameters
        ----------
        data : object
            A mapping with ``language``, ``units``, ``digits`` and ``numbers``, each optional [-]

        Returns
        -------
        Reader
            The choices; :func:`read_reader` also says what was not taken [-]

        Examples
        --------
        >>> Reader.from_json({"language": "es-mx", "units": "feet"})
        Reader(language='es-MX', units='metric', digits='auto', numbers='auto')
        """
        return read_reader(data)[0]

    def to_json(self) -> dict[str, str]:
        """Return the choices as a mapping that :meth:`from_json` takes.

        Source: arithmetic.

        Returns
        -------
        dict[str, str]
            The four choices by name [-]

        Examples
        --------
        >>> Reader("es").to_json()["language"]
        'es'
        """
        return {
            "language": self.language,
            "units": self.units,
            "digits": self.digits,
            "numbers": self.numbers,
        }


def read_reader(data: object) -> tuple[Reader, tuple[Problem, ...]]:
    """Take choices as they were stored and say which could not be taken.

    Source: arithmetic.

    Parameters
    ----------
    data : object
        A mapping with ``language``, ``units``, ``digits`` and ``numbers``, each optional [-]

    Returns
    -------
    tuple[Reader, tuple[Problem, ...]]
        The choices, defaults where one was not taken, and one Problem for each of those [-]

    Examples
    --------
    >>> reader, problems = read_reader({"digits": "roman"})
    >>> reader.digits, problems[0].path, problems[0].code
    ('auto', 'reader.digits', 'not_a_choice')
    """
    if not isinstance(data, Mapping):
        return Reader(), (Problem("reader", None, "object", "not_object"),)
    problems: list[Problem] = []

    def pick(name: str, choices: tuple[str, ...], default: str) -> str:
        value = data.get(name, default)
        if isinstance(value, str) and value in choices:
            return value
        problems.append(Problem(f"reader.{name}", _shown(value), ", ".join(choices), "not_a_choice"))
        return default

    said = data.get("language", "en")
    language = canonical_tag(said) if isinstance(said, str) else None
    if language is None:
        problems.append(Problem("reader.language", _shown(said), "", "not_a_choice"))
    made: dict[str, Any] = {
        "language": language or "en",
        "units": pick("units", UNITS, "metric"),
        "digits": pick("digits", DIGITS, "auto"),
        "numbers": pick("numbers", NUMBERS, "auto"),
    }
    return Reader(**made), tuple(problems)


def _shown(value: object) -> str:
    return value[:40] if isinstance(value, str) else type(value).__name__


def canonical_tag(tag: str) -> str | None:
    """Write a language tag as BCP 47 does, or None where neither CLDR nor a catalog knows the language.

    Source: BCP 47 (RFC 5646), section 2.1.1 for the letter case; extensions after a single letter are
    left out.

    Parameters
    ----------
    tag : str
        A language tag as a browser or a command line says it [-]

    Returns
    -------
    str | None
        The tag, without a region that CLDR does not know for that language [-]

    Examples
    --------
    >>> canonical_tag("ES_mx"), canonical_tag("ar-eg-u-nu-latn"), canonical_tag("xx")
    ('es-MX', 'ar-EG', None)
    """
    if len(tag) > 40 or not tag.isascii():
        return None
    parts: list[str] = []
    for part in tag.replace("_", "-").split("-"):
        if len(part) < 2 or not part.isalnum():
            break
        if not parts:
            parts.append(part.lower())
        elif len(part) == 4 and part.isalpha():
            parts.append(part.title())
        else:
            parts.append(part.upper())
    for candidate in tag_parents("-".join(parts)):
        if candidate in PSEUDO or catalog_tag(candidate) == candidate or _known(candidate):
            return candidate
    return None


@lru_cache(maxsize=256)
def _known(tag: str) -> bool:
    try:
        Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError):
        return False
    return True


@lru_cache(maxsize=256)
def locale_of(tag: str) -> Locale:
    """Find the CLDR locale that writes numbers for a language tag.

    Source: Unicode CLDR as packed in Babel.

    Parameters
    ----------
    tag : str
        A language tag [-]

    Returns
    -------
    Locale
        The nearest locale that is present; English where none is [-]

    Examples
    --------
    >>> str(locale_of("es-MX")), str(locale_of("es-QQ")), str(locale_of("en-XA"))
    ('es_MX', 'es', 'en')
    """
    for candidate in tag_parents(PSEUDO.get(tag, tag)):
        if _known(candidate):
            return Locale.parse(candidate, sep="-")
    return Locale.parse("en")


def default_reader(browser_languages: Iterable[str]) -> Reader:
    """Choose for someone who has not chosen: the first language of theirs that is offered, units by region.

    Source: Unicode CLDR, supplemental measurementData, for the regions that do not use the metric system;
    building materials in the United Kingdom are sold in metric units.

    Parameters
    ----------
    browser_languages : Iterable[str]
        Language tags, the most wanted first [-]

    Returns
    -------
    Reader
        English and metric where nothing fits [-]

    Examples
    --------
    >>> default_reader(["fr-FR", "es-MX", "en-US"])
    Reader(language='es-MX', units='metric', digits='auto', numbers='auto')
    >>> default_reader(["en-US"]).units
    'us'
    """
    tags = [tag for tag in (canonical_tag(said) for said in browser_languages) if tag]
    offered = [tag for tag in tags if catalog_tag(tag) is not None and tag not in PSEUDO]
    regions = [part for tag in tags for part in tag.split("-")[1:] if len(part) == 2]
    units: Units = "us" if regions and regions[0] in US_REGIONS else "metric"
    return Reader(language=offered[0] if offered else "en", units=units)
