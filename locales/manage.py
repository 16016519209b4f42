"""Keep the catalogs: ``python locales/manage.py extract | update | new TAG | check | status | compile OUT``.

extract   read the texts out of the engine into foamwright.pot
update    carry foamwright.pot into every catalog; new texts come in empty, none is guessed
new TAG   begin a catalog for a language
check     everything that must hold before catalogs may be packed; says what does not and exits 1
status    how much of each catalog is translated, and how many cautions are confirmed
compile   check, then write the catalogs without remarks and places into a folder, for packing

Babel reads the sources and merges; the engine's own reader of catalogs does the checks, so that what
passes here is what the page can use.
"""

import argparse
import ast
import copy
import io
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent
sys.path.insert(0, str(ROOT / "engine"))

from babel.messages.catalog import Catalog as Template  # noqa: E402
from babel.messages.extract import extract_from_dir  # noqa: E402
from babel.messages.frontend import parse_mapping_cfg  # noqa: E402
from babel.messages.pofile import read_po, write_po  # noqa: E402

from foamwright.reader import po  # noqa: E402
from foamwright.reader.catalogs import (  # noqa: E402
    DOMAIN,
    SOURCE,
    cldr_forms,
    is_format,
    load_catalog,
    placeholders,
)

KEYWORDS: dict[str, Any] = {
    "_": None,
    "n_": (1, 2),
    "p_": ((1, "c"), 2),
    "np_": ((1, "c"), 2, 3),
    "N_": None,
    "NN_": (1, 2),
    "NP_": ((1, "c"), 2),
    "NNP_": ((1, "c"), 2, 3),
}
#: How many literal texts each keyword begins with.
LITERALS = {"_": 1, "n_": 2, "p_": 2, "np_": 3, "N_": 1, "NN_": 2, "NP_": 2, "NNP_": 3}

#: Words with two meanings, in the forms in which both are possible ("lighter" and "lifted" have one).
TWO_MEANINGS = {
    "course": "courses?",
    "lift": "lifts?",
    "light": "lights?",
    "coat": "coats?",
    "scale": "scales?",
    "yield": "yields?",
    "cure": "cure[sd]?|curing",
    "mesh": "mesh(?:es)?",
}

#: Plural rules as CLDR has them, for whole numbers, written for people; any other is derived.
PLURAL_FORMS = {
    "en": "nplurals=2; plural=(n != 1);",
    "es": "nplurals=3; plural=(n == 1 ? 0 : n != 0 && n % 1000000 == 0 ? 1 : 2);",
    "ar": (
        "nplurals=6; plural=(n == 0 ? 0 : n == 1 ? 1 : n == 2 ? 2 : n % 100 >= 3 && n % 100 <= 10 ? 3 : "
        "n % 100 >= 11 && n % 100 <= 99 ? 4 : 5);"
    ),
}

_HEADER_NOISE = ("POT-Creation-Date", "PO-Revision-Date", "Last-Translator", "Language-Team", "Generated-By")
_HEADER_NOISE += ("Report-Msgid-Bugs-To",)


def plural_forms(tag: str) -> str:
    """Write the Plural-Forms field of a language from CLDR's rule for whole numbers."""
    from babel import Locale
    from babel.plural import to_gettext

    if tag in PLURAL_FORMS:
        return PLURAL_FORMS[tag]
    # gettext knows whole numbers only: no exponent there.
    return re.sub(r"\be\b", "0", to_gettext(Locale.parse(tag, sep="-").plural_form))


def extract(root: Path = ROOT) -> Template:
    """Read the marked texts of the engine."""
    with (root / "locales" / "babel.cfg").open(encoding="utf-8") as file:
        method_map, options_map = parse_mapping_cfg(file)
    template = Template(project=DOMAIN, version="", charset="utf-8", fuzzy=False)
    template.header_comment = "# Texts of the engine. Made by locales/manage.py; do not edit."
    found = extract_from_dir(
        root, method_map, options_map, keywords=KEYWORDS, comment_tags=("Translators:",), strip_comment_tags=True
    )
    for filename, _, message, comments, context in sorted(found, key=lambda one: (one[0], one[1])):
        # Without line numbers, so that moving code does not change the template.
        template.add(message, None, [(filename, 0)], auto_comments=comments, context=context)
    return template


def serialise(catalog: Template, *, bare: bool = False) -> str:
    """Write a catalog the same way whenever and by whomever it is written."""
    buffer = io.BytesIO()
    write_po(
        buffer, catalog, width=100, include_lineno=False, no_location=bare, omit_header=False,
        ignore_obsolete=bare, sort_by_file=False, include_previous=False,
    )  # fmt: skip
    lines = buffer.getvalue().decode("utf-8").split("\n")
    kept = [line for line in lines if not line.startswith(tuple(f'"{name}:' for name in _HEADER_NOISE))]
    if bare:
        kept = [line for line in kept if not line.startswith("#") or "confirmed:" in line]
    return "\n".join(kept).replace(f"{DOMAIN} VERSION", DOMAIN, 1).strip() + "\n"


def catalogs(folder: Path = HERE) -> dict[str, Path]:
    """List the catalogs, by language tag."""
    found = sorted(folder.glob(f"*/LC_MESSAGES/{DOMAIN}.po"))
    return {path.parts[-3].replace("_", "-"): path for path in found}


def _read(path: Path, tag: str) -> Template:
    return read_po(io.BytesIO(path.read_bytes()), locale=tag.replace("-", "_"), domain=DOMAIN)


def _header(text: str, tag: str) -> str:
    """Settle the fields that Babel would fill from its own tables."""
    text = re.sub(r'"Plural-Forms: [^\n]*\n(?:"(?![A-Z][\w-]*: )[^"\n]*"\n)*', "", text)
    forms = f'"Language: {tag}\\n"\n"Plural-Forms: {plural_forms(tag)}\\n"\n'
    return re.sub(r'"Language: [^\n]*\n', lambda _: forms, text, count=1)


def update_catalog(path: Path, tag: str, template: Template) -> None:
    """Carry the template into one catalog; new texts come in empty, none is guessed."""
    catalog = _read(path, tag)
    # Babel puts the template's own messages into the catalog: a copy keeps one language out of the next.
    catalog.update(copy.deepcopy(template), no_fuzzy_matching=True)
    for message in catalog:
        if message.id and tag == SOURCE:
            message.string = message.id
        elif message.id and message.pluralizable and not any(message.string):
            message.string = ("",) * len(cldr_forms(tag))
    catalog.header_comment = f"# {tag}: texts of the engine. Keep with locales/manage.py."
    if tag == SOURCE:
        catalog.obsolete.clear()
    path.write_text(_header(serialise(catalog), tag), encoding="utf-8")


def new_catalog(tag: str, template: Template, folder: Path = HERE) -> Path:
    """Begin a catalog."""
    path = folder / tag.replace("-", "_") / "LC_MESSAGES" / f"{DOMAIN}.po"
    if path.exists():
        raise SystemExit(f"{path} is there already")
    path.parent.mkdir(parents=True)
    begun = Template(locale=tag.replace("-", "_"), project=DOMAIN, version="", charset="utf-8", fuzzy=False)
    path.write_text(_header(serialise(begun), tag), encoding="utf-8")
    update_catalog(path, tag, template)
    return path


# What must hold


def code_faults(root: Path = ROOT) -> Iterator[str]:
    """Find texts in the engine that no translator would ever see, or could not use."""
    for path in sorted((root / "engine" / DOMAIN).rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        where = path.relative_to(root)
        for node in ast.walk(tree):
            if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mod) and _keyword(node.left):
                yield f"{where}:{node.lineno}: % after a translated text; pass the parameters into the call"
            if isinstance(node, ast.Attribute) and node.attr == "format" and _keyword(node.value):
                yield f"{where}:{node.lineno}: .format after a translated text"
            if not isinstance(node, ast.Call):
                continue
            name = _name(node)
            if name in ("say", "caution") and node.args and _is_text(node.args[0]):
                yield f"{where}:{node.lineno}: {name}() takes a marked text; a literal in it is not extracted"
            if name not in LITERALS:
                continue
            if any(isinstance(argument, ast.Starred) for argument in node.args) or len(node.args) < LITERALS[name]:
                yield f"{where}:{node.lineno}: {name}() with fewer than {LITERALS[name]} literal texts"
                continue
            for argument in node.args[: LITERALS[name]]:
                if not (isinstance(argument, ast.Constant) and isinstance(argument.value, str)):
                    yield f"{where}:{node.lineno}: {name}() with something that is not a literal text"
                    continue
                if is_format(argument.value) and placeholders(argument.value) is None:
                    yield f"{where}:{node.lineno}: places must be named, as %(name)s: {argument.value[:50]!r}"
                if re.search(r"%[sdrfi]|\{\w*\}", argument.value):
                    yield f"{where}:{node.lineno}: places must be named, as %(name)s: {argument.value[:50]!r}"


def _name(node: ast.Call) -> str:
    if isinstance(node.func, ast.Attribute):
        return node.func.attr
    return node.func.id if isinstance(node.func, ast.Name) else ""


def _keyword(node: ast.AST) -> bool:
    return isinstance(node, ast.Call) and _name(node) in LITERALS


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))


def template_faults(root: Path = ROOT) -> Iterator[str]:
    """Compare the template with what the engine says now."""
    path = root / "locales" / f"{DOMAIN}.pot"
    wanted = serialise(extract(root))
    has = path.read_text(encoding="utf-8") if path.exists() else ""
    if has != wanted:
        old = {entry.key for entry in po.entries(has)}
        new = {entry.key for entry in po.entries(wanted)}
        changed = sorted(old ^ new)[:5]
        yield f"{DOMAIN}.pot is not what the engine says now; run extract and update ({changed})"


def catalog_faults(folder: Path = HERE) -> Iterator[str]:
    """Check each catalog against the template: complete, nothing guessed, places and plurals right."""
    template = {entry.key: entry for entry in po.entries((folder / f"{DOMAIN}.pot").read_text(encoding="utf-8"))}
    wanted = {key for key in template if key}
    found = catalogs(folder)
    if SOURCE not in found:
        yield f"{SOURCE}: the catalog of the source language is missing"
    for tag, path in found.items():
        text = path.read_text(encoding="utf-8")
        result = load_catalog(text, tag)
        for error in result.errors:
            yield f"{tag}: line {error.line}: {error.code} {error.detail}: {error.text[:60]!r}"
        if result.catalog is None:
            continue
        entries = {entry.key: entry for entry in po.entries(text) if entry.key}
        for key in sorted(wanted - entries.keys()):
            yield f"{tag}: missing: {key[:60]!r}"
        for key in sorted(entries.keys() - wanted):
            yield f"{tag}: no longer in the engine: {key[:60]!r}"
        for key, entry in entries.items():
            if "fuzzy" in entry.flags:
                yield f"{tag}: line {entry.line}: guessed (fuzzy): {entry.text[:60]!r}"
            elif not all(entry.forms):
                yield f"{tag}: line {entry.line}: empty: {entry.text[:60]!r}"
            if key in template and entry.plural != template[key].plural:
                yield f"{tag}: line {entry.line}: another plural than the engine's: {entry.text[:60]!r}"
        if result.catalog.forms != len(cldr_forms(tag)):
            yield f"{tag}: Plural-Forms has {result.catalog.forms} forms, CLDR {len(cldr_forms(tag))}"


def glossary_faults(folder: Path = HERE) -> Iterator[str]:
    """Check that a word with two meanings never stands without a context that the glossary explains."""
    terms = json.loads((folder / "glossary.json").read_text(encoding="utf-8"))["terms"]
    for word in TWO_MEANINGS:
        if not any(term["term"] == word for term in terms):
            yield f"glossary: {word!r} has two meanings and no entry"
    seen: set[tuple[str, str]] = set()
    for term in terms:
        for context in term["contexts"]:
            if (term["term"], context) in seen:
                yield f"glossary: {term['term']!r} has two meanings in the context {context!r}"
            seen.add((term["term"], context))
        for tag in catalogs(folder):
            if tag != SOURCE and not term.get(tag):
                yield f"glossary: {term['term']!r} ({term['meaning']}) has no {tag}"
    for entry in po.entries((folder / f"{DOMAIN}.pot").read_text(encoding="utf-8")):
        words = re.sub(r"%\(\w+\)s", "", entry.text)
        for word, forms in TWO_MEANINGS.items():
            if not re.search(rf"\b(?:{forms})\b", words, re.IGNORECASE):
                continue
            if entry.context is None:
                yield f"glossary: {word!r} without a context: {entry.text[:60]!r}"
            elif (word, entry.context) not in seen:
                yield f"glossary: {word!r} has no entry for the context {entry.context!r}: {entry.text[:60]!r}"


def faults(root: Path = ROOT) -> list[str]:
    """Everything that must hold before catalogs may be packed."""
    folder = root / "locales"
    found = [*code_faults(root), *template_faults(root)]
    if (folder / f"{DOMAIN}.pot").exists():
        found += [*catalog_faults(folder), *glossary_faults(folder)]
    return found


def main(arguments: list[str] | None = None) -> int:
    """Run one command; 1 where a check fails."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("command", choices=["extract", "update", "new", "check", "status", "compile"])
    parser.add_argument("what", nargs="?", default="")
    parser.add_argument("--root", type=Path, default=ROOT, help=argparse.SUPPRESS)
    chosen = parser.parse_args(arguments)
    root: Path = chosen.root
    folder = root / "locales"
    if chosen.command in ("extract", "update", "new"):
        template = extract(root)
        (folder / f"{DOMAIN}.pot").write_text(serialise(template), encoding="utf-8")
        if chosen.command == "new":
            print(new_catalog(chosen.what, template, folder))
        if chosen.command == "update":
            for tag, path in catalogs(folder).items():
                update_catalog(path, tag, template)
        print(f"{len(template)} texts")
        return 0
    if chosen.command == "status":
        for tag, path in catalogs(folder).items():
            result = load_catalog(path.read_text(encoding="utf-8"), tag)
            if result.catalog is None or tag == SOURCE:
                continue
            cautions = [key for key in result.catalog.texts if key.startswith("caution\x04")]
            confirmed = sum(key in result.catalog.confirmed for key in cautions)
            print(f"{tag:8}{result.translated:5} of {result.total} texts, {confirmed} of {len(cautions)} cautions confirmed")
        return 0
    found = faults(root)
    for fault in found:
        print(fault)
    print(f"{len(found)} faults")
    if found:
        return 1
    if chosen.command == "compile":
        if not chosen.what:
            parser.error("compile needs a folder")
        for tag, path in catalogs(folder).items():
            target = Path(chosen.what) / path.relative_to(folder)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(_header(serialise(_read(path, tag), bare=True), tag), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
