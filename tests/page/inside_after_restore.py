"""Runs in the page, after the restore: use whatever the snapshot might have forgotten. The last line is the answer."""

import importlib
import pkgutil
from decimal import Decimal
from pathlib import Path

import foamwright
from babel import Locale, localedata
from babel.lists import format_list
from babel.numbers import format_currency, format_decimal, get_currency_name, list_currencies
from babel.plural import PluralRule
from babel.units import format_unit

done = {"modules": 0, "locales": 0, "currencies": 0, "plurals": 0, "catalogs": 0}

for info in pkgutil.walk_packages(foamwright.__path__, "foamwright."):
    importlib.import_module(info.name)
    done["modules"] += 1

languages = {"en"} | {path.parts[-3] for path in Path("/app/locales").glob("*/LC_MESSAGES/*.po")}
for language in sorted(languages):
    for identifier in sorted(localedata.locale_identifiers()):
        if identifier.partition("_")[0] != language.partition("_")[0]:
            continue
        locale = Locale.parse(identifier)
        assert format_decimal(Decimal("1234567.891"), locale=locale), identifier
        assert format_unit(3, "length-meter", locale=locale), identifier
        assert format_list(["a", "b", "c"], locale=locale), identifier
        done["locales"] += 1
    locale = Locale.parse(language)
    assert isinstance(locale.plural_form, PluralRule)
    kinds = {locale.plural_form(number / 10) for number in range(0, 2000)} | {locale.plural_form(n) for n in range(0, 1000)}
    assert "other" in kinds and kinds <= locale.plural_form.tags | {"other"}, (language, kinds)
    done["plurals"] += len(kinds)
    for currency in sorted(list_currencies()):
        written = format_currency(Decimal("1234.5"), currency, locale=locale)
        named = format_currency(Decimal("1234.5"), currency, locale=locale, format_type="name")
        assert written and named and get_currency_name(currency, 2, locale=locale), (language, currency)
        done["currencies"] += 1

from foamwright.reader import catalogs  # noqa: E402

assert catalogs
done["catalogs"] = len(languages)
done
