"""The Reader and the Speaker: the only place, with ``sheets``, where there are words and formats.

A :class:`Reader` is what one person chose: language, units, digits, number style. A :class:`Speaker`,
made from it by :func:`speaker`, says words from the catalogs and writes numbers, units, money, lists
and dates. :func:`parse_number` reads what people type.
"""

from foamwright.reader.catalogs import (
    Catalog,
    CatalogError,
    CatalogResult,
    Language,
    catalog_folder,
    languages,
    load_catalog,
)
from foamwright.reader.entry import parse_quantity
from foamwright.reader.markers import NN_, NNP_, NP_, Message, N_
from foamwright.reader.money import Currency, currencies, currencies_in_use, currency_known, currency_of
from foamwright.reader.parsing import Parsed, Reading, parse_number
from foamwright.reader.preferences import DIGITS, NUMBERS, UNITS, Reader, default_reader, read_reader
from foamwright.reader.speaker import Caution, Parts, Speaker, speaker
from foamwright.reader.units import KINDS
from foamwright.reader.warming import warm

__all__ = [
    "DIGITS",
    "KINDS",
    "NN_",
    "NNP_",
    "NP_",
    "NUMBERS",
    "N_",
    "UNITS",
    "Catalog",
    "CatalogError",
    "CatalogResult",
    "Caution",
    "Currency",
    "Language",
    "Message",
    "Parsed",
    "Parts",
    "Reader",
    "Reading",
    "Speaker",
    "catalog_folder",
    "currencies",
    "currencies_in_use",
    "currency_known",
    "currency_of",
    "default_reader",
    "languages",
    "load_catalog",
    "parse_number",
    "parse_quantity",
    "read_reader",
    "speaker",
    "warm",
]
