"""The catalogs: which languages there are, and the texts of each.

The list of languages is the list of catalogs that are present; nothing else names a language. A build
puts the catalogs inside the package; a checkout reads them where translators edit them, so no step
stands between an edit and the screen.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from gettext import c2py
from pathlib import Path
from typing import Final, Literal

from attrs import frozen
from babel import Locale, UnknownLocaleError

from foamwright.reader import po
from foamwright.reader.pseudo import accented, overridden

DOMAIN: Final = "foamwright"
SOURCE: Final = "en"

#: Languages made by rule from the source texts, to find what is not translated, and the language whose
#: numbers and direction each borrows. Never offered, only answered when asked for.
PSEUDO: Final[Mapping[str, str]] = {"en-XA": "en", "ar-XB": "ar"}

#: A catalog loaded by hand may be this long [characters]; ours are below a tenth of it.
LONGEST_CATALOG: Final = 4_000_000

_CONFIRMED: Final = re.compile(r"confirmed:\s*\S.*,\s*\d{4}-\d{2}-\d{2}\s*$")
_TAG: Final = re.compile(r"[A-Za-z]{2,8}(?:-[A-Za-z0-9]{2,8}){0,3}")
_PLACEHOLDER: Final = re.compile(r"%(?:\((\w+)\)s|(%)|(.?))", re.DOTALL)
_PLURALS: Final = re.compile(r"nplurals\s*=\s*(\d+)\s*;\s*plural\s*=\s*([^;]+)")


@frozen(eq=False)
class Catalog:
    """The texts of one language, keyed as gettext keys them; compared by identity.

    Attributes
    ----------
    tag : str
        Language tag [-]
    texts : Mapping[str, tuple[str, ...]]
        Every form of each message that is translated [-]
    forms : int
        How many plural forms the language has [-]
    form : Callable[[int], int]
        Which form a whole number takes [-]
    confirmed : frozenset[str]
        Keys of the messages whose translation a person confirmed [-]
    """

    tag: str
    texts: Mapping[str, tuple[str, ...]]
    forms: int
    form: Callable[[int], int]
    confirmed: frozenset[str] = frozenset()


@frozen
class Language:
    """One language that is offered.

    Attributes
    ----------
    tag : str
        Language tag [-]
    own_name : str
        Its name in itself [-]
    english_name : str
        Its name in English [-]
    dir : str
        ``ltr`` or ``rtl`` [-]
    coverage : float
        Share of the source texts that is translated, 0 to 1 [-]
    confirmed : frozenset[str]
        Keys of the messages whose translation a person confirmed [-]
    """

    tag: str
    own_name: str
    english_name: str
    dir: Literal["ltr", "rtl"]
    coverage: float
    confirmed: frozenset[str]


@frozen
class CatalogError:
    """One message of a loaded catalog that cannot be used, and why.

    Attributes
    ----------
    text : str
        The message, empty where the whole catalog is meant [-]
    context : str | None
        Its context [-]
    code : str
        What is wrong [-]
    detail : str
        The names, numbers or rule that differ [-]
    line : int
        Where it begins, 0 where that is not known [-]
    """

    text: str
    context: str | None
    code: Literal[
        "too_large", "not_a_catalog", "language_missing", "plural_rule", "plural_count", "placeholder_mismatch"
    ]
    detail: str = ""
    line: int = 0


@frozen(eq=False)
class CatalogResult:
    """What came of loading a translator's own catalog; messages in error fall back to the source text.

    Attributes
    ----------
    catalog : Catalog | None
        What can be used; None where it is no catalog [-]
    errors : tuple[CatalogError, ...]
        What cannot be used [-]
    translated : int
        How many messages can be used [-]
    total : int
        How many messages it has [-]
    """

    catalog: Catalog | None
    errors: tuple[CatalogError, ...] = ()
    translated: int = 0
    total: int = 0


def tag_parents(tag: str) -> Iterator[str]:
    """Walk from a language tag to the bare language.

    Source: RFC 4647, section 3.4 (lookup).

    Parameters
    ----------
    tag : str
        A language tag [-]

    Returns
    -------
    Iterator[str]
        The tag, then the tag without its last part, and so on [-]

    Examples
    --------
    >>> list(tag_parents("es-MX"))
    ['es-MX', 'es']
    """
    while tag:
        yield tag
        tag = tag.rpartition("-")[0]


def catalog_folder() -> Path | None:
    """Find the folder that holds one folder a language.

    Source: arithmetic.

    Returns
    -------
    Path | None
        The catalogs built into the package, else those of the checkout, else nothing [-]

    Examples
    --------
    >>> catalog_folder() is not None
    True
    """
    parents = Path(__file__).resolve().parents
    folders = [parents[1] / "catalogs"] + ([parents[3] / "locales"] if len(parents) > 3 else [])
    for folder in folders:
        if next(folder.glob(f"*/LC_MESSAGES/{DOMAIN}.po"), None) is not None:
            return folder
    return None


@lru_cache(maxsize=1)
def catalog_tags() -> tuple[str, ...]:
    """List the languages that have a catalog, the source language first.

    Source: arithmetic.

    Returns
    -------
    tuple[str, ...]
        Language tags; always at least the source language [-]

    Examples
    --------
    >>> catalog_tags()[0]
    'en'
    """
    folder = catalog_folder()
    found = set() if folder is None else {p.parts[-3] for p in folder.glob(f"*/LC_MESSAGES/{DOMAIN}.po")}
    return (SOURCE, *sorted(tag.replace("_", "-") for tag in found if tag != SOURCE))


def catalog_tag(tag: str) -> str | None:
    """Name the catalog that serves a language tag.

    Source: RFC 4647, section 3.4 (lookup).

    Parameters
    ----------
    tag : str
        A language tag [-]

    Returns
    -------
    str | None
        The tag of the catalog, or None where the source language has to serve [-]

    Examples
    --------
    >>> catalog_tag("en-IN"), catalog_tag("xx")
    ('en', None)
    """
    known = catalog_tags()
    return next((t for t in tag_parents(tag) if t in PSEUDO or t in known), None)


def cldr_forms(tag: str) -> tuple[str, ...]:
    """List the plural categories of a language in the order in which its catalog writes them.

    Source: Unicode CLDR, plural rules, as packed in Babel.

    Parameters
    ----------
    tag : str
        A language tag [-]

    Returns
    -------
    tuple[str, ...]
        Category names in CLDR's own order, ``other`` last [-]

    Examples
    --------
    >>> cldr_forms("es")
    ('one', 'many', 'other')
    """
    try:
        tags = Locale.parse(tag, sep="-").plural_form.tags
    except (UnknownLocaleError, ValueError):
        tags = frozenset({"one"})
    order = ("zero", "one", "two", "few", "many")
    return (*(name for name in order if name in tags), "other")


@lru_cache(maxsize=32)
def load(tag: str) -> Catalog | None:
    """Load the catalog of one language.

    Source: GNU gettext manual, "The Format of PO Files".

    Parameters
    ----------
    tag : str
        A language tag that has a catalog of its own, or a pseudo-language [-]

    Returns
    -------
    Catalog | None
        The texts, or None where there is no such catalog [-]

    Examples
    --------
    >>> load("xx") is None
    True
    """
    if tag in PSEUDO:
        return _pseudo(tag)
    folder = catalog_folder()
    if folder is None or tag not in catalog_tags():
        return None
    path = folder / tag.replace("-", "_") / "LC_MESSAGES" / f"{DOMAIN}.po"
    if not path.is_file():
        return None
    return _take(path.read_text(encoding="utf-8"), tag).catalog


@lru_cache(maxsize=2)
def load_catalog(po_text: str, tag: str = "") -> CatalogResult:
    """Take the text of a catalog, finished or not, and say message by message what cannot be used.

    Source: GNU gettext manual, "The Format of PO Files" and "Plural forms".

    Parameters
    ----------
    po_text : str
        The whole .po file [-]
    tag : str
        Its language; without it, the ``Language`` field of its header [-]

    Returns
    -------
    CatalogResult
        The usable texts, the errors, and how much is translated [-]

    Examples
    --------
    >>> text = 'msgid ""\\nmsgstr "Language: es\\\\n"\\nmsgid "%(n)s bags"\\nmsgstr "%(m)s sacos"\\n'
    >>> [(e.text, e.code) for e in load_catalog(text).errors]
    [('%(n)s bags', 'placeholder_mismatch')]
    """
    return _take(po_text, tag)


def _take(po_text: str, tag: str) -> CatalogResult:
    if len(po_text) > LONGEST_CATALOG:
        return CatalogResult(None, (CatalogError("", None, "too_large", str(LONGEST_CATALOG)),))
    try:
        found = list(po.entries(po_text))
    except po.UnreadableLine as fault:
        return CatalogResult(None, (CatalogError("", None, "not_a_catalog", str(fault.line), fault.line),))
    head = next((po.header(e) for e in found if e.text == "" and e.context is None), None)
    if head is None:
        return CatalogResult(None, (CatalogError("", None, "not_a_catalog"),))
    tag = tag or head.get("language", "").replace("_", "-")
    if not _TAG.fullmatch(tag):
        return CatalogResult(None, (CatalogError("", None, "language_missing", tag[:40]),))
    errors: list[CatalogError] = []
    count, form, rule_fault = _plural_rule(head.get("plural-forms", ""))
    if rule_fault:
        errors.append(CatalogError("", None, "plural_rule", rule_fault))
    texts: dict[str, tuple[str, ...]] = {}
    confirmed: set[str] = set()
    messages = [e for e in found if e.text]
    for entry in messages:
        if "fuzzy" in entry.flags or not any(entry.forms):
            continue
        wrong = _fault(entry, count)
        if wrong is not None:
            errors.append(wrong)
            continue
        texts[entry.key] = entry.forms
        if any(_CONFIRMED.match(comment) for comment in entry.comments):
            confirmed.add(entry.key)
    catalog = Catalog(tag, texts, count, form, frozenset(confirmed))
    return CatalogResult(catalog, tuple(errors), len(texts), len(messages))


def _plural_rule(said: str) -> tuple[int, Callable[[int], int], str]:
    """Read a Plural-Forms field; where it is missing or wrong, one form for 1 and one for the rest."""
    found = _PLURALS.search(said)
    if found is not None and 1 <= int(found[1][:3]) <= 8 and len(found[2]) <= 1000:
        try:
            rule: Callable[[int], int] = c2py(found[2].strip())
            count = int(found[1])
            if all(0 <= rule(n) < count for n in (*range(0, 202), 1_000_000, 1_000_001)):
                return count, _guarded(rule, count), ""
        except (ValueError, RecursionError, ArithmeticError):
            pass
    return 2, lambda n: int(n != 1), said[:200] if said else ""


def _guarded(rule: Callable[[int], int], count: int) -> Callable[[int], int]:
    """Keep a rule from a file inside its forms for the numbers that it was not tried with."""

    def form(n: int) -> int:
        try:
            index = rule(n)
        except ArithmeticError:
            return count - 1
        return index if 0 <= index < count else count - 1

    return form


def placeholders(text: str) -> frozenset[str] | None:
    """List the named places of a message, or None where a percent sign is no named place.

    Source: the Python library reference, "printf-style String Formatting".

    Parameters
    ----------
    text : str
        A message [-]

    Returns
    -------
    frozenset[str] | None
        The names [-]

    Examples
    --------
    >>> sorted(placeholders("%(n)s bags of %(mass)s, 5 %%")), placeholders("5 % of %(n)s")
    (['mass', 'n'], None)
    """
    names: set[str] = set()
    for name, double, other in _PLACEHOLDER.findall(text):
        if name:
            names.add(name)
        elif not double:
            del other
            return None
    return frozenset(names)


def is_format(*texts: str | None) -> bool:
    """Tell whether a message has named places, which is what makes a percent sign in it special.

    Source: arithmetic.

    Parameters
    ----------
    texts : str | None
        The message and its plural [-]

    Returns
    -------
    bool
        True where any of them has a named place [-]

    Examples
    --------
    >>> is_format("5 % waste"), is_format("%(n)s bags")
    (False, True)
    """
    return any(text is not None and "%(" in text for text in texts)


def _fault(entry: po.Entry, count: int) -> CatalogError | None:
    def error(code: Literal["plural_count", "placeholder_mismatch"], detail: str) -> CatalogError:
        return CatalogError(entry.text, entry.context, code, detail, entry.line)

    if entry.plural is not None and (len(entry.forms) != count or not all(entry.forms)):
        return error("plural_count", f"{sum(map(bool, entry.forms))}/{count}")
    if entry.plural is None and len(entry.forms) != 1:
        return error("plural_count", f"{len(entry.forms)}/1")
    wanted = placeholders(entry.plural or entry.text) if is_format(entry.text, entry.plural) else frozenset()
    for form in entry.forms:
        has = placeholders(form) if is_format(form) or is_format(entry.text, entry.plural) else frozenset()
        # A form for exactly one or two may say the number in words and leave its place out.
        spared = {"n"} if entry.plural is not None else set()
        if has is None or wanted is None or has - wanted or (wanted - has) - spared:
            return error("placeholder_mismatch", ", ".join(sorted((wanted or frozenset()) ^ (has or frozenset()))))
    return None


@lru_cache(maxsize=4)
def _pseudo(tag: str) -> Catalog | None:
    source = load(SOURCE)
    if source is None:
        return None
    make = accented if tag == "en-XA" else overridden
    texts = {key: tuple(make(form) for form in forms) for key, forms in source.texts.items()}
    return Catalog(tag, texts, source.forms, source.form, frozenset(texts))


@lru_cache(maxsize=1)
def languages() -> tuple[Language, ...]:
    """List the languages that are offered: those that have a catalog, the source language first.

    Source: the catalogs; names and direction from Unicode CLDR as packed in Babel.

    Returns
    -------
    tuple[Language, ...]
        Tag, own name, English name, direction, share translated, and the keys of confirmed cautions [-]

    Examples
    --------
    >>> languages()[0].english_name
    'English'
    """
    source = load(SOURCE)
    wanted = set(source.texts) if source is not None else set()
    found = []
    for tag in catalog_tags():
        catalog = load(tag)
        try:
            locale = Locale.parse(tag, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
        own = locale.get_display_name(locale) or tag
        has = wanted.intersection(catalog.texts) if catalog is not None else set()
        found.append(
            Language(
                tag=tag,
                own_name=own[:1].upper() + own[1:],
                english_name=locale.get_display_name("en") or tag,
                dir="rtl" if locale.text_direction == "rtl" else "ltr",
                coverage=len(has) / len(wanted) if wanted else 1.0,
                confirmed=catalog.confirmed if catalog is not None else frozenset(),
            )
        )
    return tuple(found)
