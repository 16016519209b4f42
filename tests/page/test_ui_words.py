"""Every word comes from the catalogs; figures answer why; the style knows no left and right."""

import json
import re
from pathlib import Path

import pytest
from foamwright.sheets.sources import SOURCES
from journeys import METRIC, Visitor, engine, painful_project

WEB = Path(__file__).resolve().parents[2] / "web"

# Symbols of units as CLDR writes them in English, and codes: no words.
UNITS = {
    "m", "cm", "mm", "kPa", "millimeters", "m²", "m³", "kg", "g", "L", "l", "mL", "ml", "kg/m³", "g/L", "g/l", "min", "mins", "h", "US", "USD", "US$", "COP",
    "ft", "ft²", "ft³", "in", "lb", "oz", "gal", "yd³", "lb/ft³",
    "meters", "centimeters", "square", "cubic", "kilograms", "grams", "liters", "minutes", "per", "percent", "degrees", "and",
}  # fmt: skip

# Titles of documents are no words of the page's either.
TITLES = sorted({source.document for source in SOURCES.values() if source.document}, key=len, reverse=True)

TEXTS = """
    const found = [];
    const put = (text, where) => { if (text && /[A-Za-z]/.test(text)) found.push([text.trim(), where]); };
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const node = walk.currentNode.parentElement;
      if (node.closest("script, style, noscript, #boot, #boot-failed, [translate=no]")) continue;
      // names of languages are their own, those of currencies, months and strength classes are codes or CLDR's,
      // and sources are titles of documents
      if (node.closest("#language, #to-language, select[data-kind=currency], textarea, .source, .why_source, .print-head, #m-numbers")) continue;
      put(walk.currentNode.data, node.getAttribute("class") || node.localName);
    }
    for (const node of document.querySelectorAll("#page *")) {
      for (const name of ["aria-label", "title", "placeholder", "alt", "aria-description"]) put(node.getAttribute(name), name);
    }
    return found;
"""


@pytest.fixture
def visitor(chromium, packed_page):
    return Visitor(chromium, packed_page)


def untranslated(visitor):
    """Texts with an English word that the pseudo-language would have turned into others."""
    left = []
    for text, where in visitor.browser.evaluate(TEXTS):
        text = re.sub("\u202e[^\u202c]*\u202c", "", text)
        for title in TITLES:
            text = text.replace(title, "")
        bare = re.sub(r"Foamwright( \d[\w.]*)?|\d\d\.5[NR]\b", "", text)
        words = [word for word in re.findall(r"[A-Za-z][A-Za-z²³/$.]*", bare) if word not in UNITS and word.rstrip(".") not in UNITS]
        if words and not re.fullmatch(r"[\d.,\s\u2066-\u2069]*", bare):
            left.append((words, text[:120], where))
    return left


@pytest.mark.parametrize("language", ["en-XA", "ar-XB"])
def test_every_text_comes_from_a_catalog(visitor, language):
    """In a language that is made from the source texts, whatever is still plain English was never looked up."""
    visitor.arrive(reader={**METRIC, "language": language}, asked=False)
    visitor.browser.evaluate("for (const node of document.querySelectorAll('.fold[aria-expanded=\"false\"]')) node.click();")
    left = untranslated(visitor)
    for drawer in ("menu", "send"):
        visitor.press(f'.tools [data-drawer="{drawer}"]')
        visitor.calm()
        left += untranslated(visitor)
        visitor.key("Escape")
    for figure in sorted(set(visitor.look("[...document.querySelectorAll('main [data-figure]')].map((one) => one.dataset.figure)"))):
        visitor.press(f'main [data-figure="{figure}"]')
        visitor.until("document.querySelector('.why-value')")
        left += untranslated(visitor)
    visitor.key("Escape")
    visitor.type("parts[0].thickness_m", "--")
    visitor.leave()
    visitor.until("document.querySelector('.troubles')")
    left += untranslated(visitor)
    assert left == []


def test_pseudo_right_to_left_fits(visitor):
    """Longer words, from right to left, at 360 px: nothing sticks out."""
    from test_ui_matrix import SIDEWAYS, UNFOLD

    for language in ("en-XA", "ar-XB"):
        visitor.arrive(reader={**METRIC, "language": language}, asked=False)
        page = visitor.browser.page
        page.set_viewport_size({"width": 360, "height": 740})
        visitor.browser.evaluate(UNFOLD)
        visitor.calm()
        assert visitor.browser.evaluate(SIDEWAYS) == []
        page.set_viewport_size({"width": 1000, "height": 800})


def test_every_word_that_the_page_asks_for_is_there():
    """Keys used by the scripts against the words that the engine serves and the list for the translators."""
    told = engine("furniture", reader=METRIC)["words"]
    listed = json.loads((WEB / "ui" / "words.json").read_text())
    scripts = "\n".join(file.read_text() for file in [WEB / "app.js", *sorted((WEB / "ui").glob("*.js"))])
    keys = set(re.findall(r'\bsay\(\s*"([a-z_]+)"', scripts))
    keys |= {key for pair in re.findall(r'\bsay\([^"()]*\? "([a-z_]+)" : "([a-z_]+)"', scripts) for key in pair}
    keys |= set(re.findall(r'\bpart\("(why_[a-z_]+)"', scripts))
    assert len(keys) > 80
    assert keys - set(told) == set()
    assert keys - set(listed) == set()
    assert {key: one["text"] for key, one in listed.items()}.items() <= told.items()
    # stages of the start and states are asked for by names that are put together
    for key in (*(f"boot_{stage}" for stage in ("unpack", "compile", "restore", "ready")), *(f"light_{one}" for one in ("auto", "light", "dark")),
                *(f"kept_{one}" for one in ("none", "saving", "saved", "not"))):  # fmt: skip
        assert told[key]


def test_scripts_hold_no_sentence():
    """No text for people in the scripts: strings with two words and more are class names, selectors or settings."""
    allowed = re.compile(r'''^(?:[a-z0-9 _\-\[\].#:,>~="'*()$%|+]*|no IndexedDB|IndexedDB does not answer)$''')
    for file in [WEB / "app.js", *sorted((WEB / "ui").glob("*.js"))]:
        code = re.sub(r"^\s*//.*$|/\*.*?\*/", "", file.read_text(), flags=re.M | re.S)
        code = re.sub(r"`[^`]*`", "``", code)
        for said in re.findall(r'"((?:[^"\\]|\\.)*)"', code):
            if re.search(r"[A-Z]?[a-z]+ [a-z]+ [a-z]+", said):
                assert allowed.match(said), f"{file.name}: {said}"


def test_the_style_knows_no_left_and_right():
    """Logical properties only: the page reads from both sides."""
    style = re.sub(r"/\*.*?\*/", "", (WEB / "style.css").read_text(), flags=re.S)
    physical = re.compile(
        r"(?:^|[;{\s])(?:margin|padding|border|inset)?-?(?:left|right|top|bottom)(?:-[a-z]+)*\s*:|text-align\s*:\s*(?:left|right)|float\s*:\s*(?:left|right)"
        r"|(?:^|[;{\s])(?:width|height|min-width|max-width|min-height|max-height)\s*:",
        re.M,
    )
    assert [match.group(0).strip() for match in physical.finditer(style)] == []
    assert physical.search("a { margin-left: 1px; }") and physical.search("b { left: 0; }") and physical.search("c { width: 1px; }")


@pytest.mark.parametrize("project", ['{"format": 1}', painful_project()], ids=["default", "painful"])
def test_every_figure_answers_why(visitor, project):
    """Each button of a figure opens an answer with a rule and a source; each large number and each number cell is such a button."""
    visitor.arrive()
    if project != '{"format": 1}':
        visitor.menu()
        visitor.give_file("#open-file", project)
        visitor.until("document.querySelector('h1').textContent.startsWith('WWWW')")
    visitor.calm()
    without = visitor.look("[...document.querySelectorAll('.figures .figure:not([data-figure]), td.number:not(.empty) > .cell-text')].map((one) => one.outerHTML)")
    assert without == []
    figures = sorted(set(visitor.look("[...document.querySelectorAll('main [data-figure]')].map((one) => one.dataset.figure)")))
    assert len(figures) > 40
    for figure in figures:
        told = engine("why", project=project, reader=METRIC, figure=figure)
        assert told["rule"] and told["source"] and told["basis"], figure
        visitor.press(f'main [data-figure="{figure}"]')
        visitor.until("document.querySelector('.why-value')?.textContent === given.value && document.querySelector('#drawer-title').textContent === given.title", told)
        assert visitor.look("document.querySelectorAll('.drawer-body section').length") >= 3
