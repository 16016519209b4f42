"""Currencies as CLDR knows them."""

from datetime import date
from functools import lru_cache

from attrs import frozen
from babel.core import get_global
from babel.numbers import (
    UnknownCurrencyError,
    get_currency_name,
    get_currency_precision,
    get_currency_symbol,
    get_territory_currencies,
    is_currency,
    list_currencies,
)

from foamwright.reader.preferences import Reader, locale_of


@frozen
class Currency:
    """One currency as a reader is shown it.

    Attributes
    ----------
    code : str
        Three letters (ISO 4217) [-]
    name : str
        Its name in the reader's language [-]
    symbol : str
        Its symbol there, else the code [-]
    decimals : int
        How many decimals its amounts have [-]
    """

    code: str
    name: str
    symbol: str
    decimals: int


def currency_known(code: str) -> bool:
    """Tell whether a code names a currency, one in use or one that was.

    Source: Unicode CLDR (ISO 4217) as packed in Babel.

    Parameters
    ----------
    code : str
        Three letters [-]

    Returns
    -------
    bool
        True where CLDR has it [-]

    Examples
    --------
    >>> currency_known("MXN"), currency_known("mxn"), currency_known("QQQ")
    (True, False, False)
    """
    return is_currency(code)


@lru_cache(maxsize=1)
def currencies_in_use() -> tuple[str, ...]:
    """List the currencies that are legal tender somewhere now.

    Source: Unicode CLDR, supplemental currencyData, as packed in Babel.

    Returns
    -------
    tuple[str, ...]
        Codes in alphabetical order [-]

    Examples
    --------
    >>> "EUR" in currencies_in_use(), "DEM" in currencies_in_use()
    (True, False)
    """
    found = set()
    for rows in get_global("territory_currencies").values():
        found |= {code for code, _, end, tender in rows if end is None and tender}
    return tuple(sorted(found & list_currencies()))


@lru_cache(maxsize=8)
def currencies(reader: Reader) -> tuple[Currency, ...]:
    """List the currencies to choose from, in the order of their names in the reader's language.

    Source: Unicode CLDR as packed in Babel.

    Parameters
    ----------
    reader : Reader
        Whose language the names are in [-]

    Returns
    -------
    tuple[Currency, ...]
        Code, name, symbol and decimals of each currency in use [-]

    Examples
    --------
    >>> [c.symbol for c in currencies(Reader("en")) if c.code == "MXN"]
    ['MX$']
    """
    made = (currency(code, reader) for code in currencies_in_use())
    return tuple(sorted(made, key=lambda one: (one.name.casefold(), one.code)))


@lru_cache(maxsize=1024)
def currency(code: str, reader: Reader) -> Currency:
    """Describe one currency; an unknown code stands for itself.

    Source: Unicode CLDR as packed in Babel.

    Parameters
    ----------
    code : str
        Three letters [-]
    reader : Reader
        Whose language the name is in [-]

    Returns
    -------
    Currency
        Code, name, symbol and decimals [-]

    Examples
    --------
    >>> currency("JPY", Reader("en"))
    Currency(code='JPY', name='Japanese Yen', symbol='¥', decimals=0)
    """
    locale = locale_of(reader.language)
    try:
        name = get_currency_name(code, locale=locale)
    except UnknownCurrencyError:
        name = code
    return Currency(code, name, get_currency_symbol(code, locale), get_currency_precision(code))


def currency_of(country: str, on: date | None = None) -> str | None:
    """Name the currency that a country uses.

    Source: Unicode CLDR, supplemental currencyData, as packed in Babel.

    Parameters
    ----------
    country : str
        Two letters (ISO 3166-1) [-]
    on : date | None
        The day; without it, the currency in use now [-]

    Returns
    -------
    str | None
        Its code, or None where the country is unknown [-]

    Examples
    --------
    >>> currency_of("MX"), currency_of("QQ")
    ('MXN', None)
    """
    found = get_territory_currencies(country, start_date=on, end_date=on, tender=True) if on else [
        code for code, _, end, tender in get_global("territory_currencies").get(country, ()) if end is None and tender
    ]
    return found[0] if found else None
