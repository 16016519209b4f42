"""Every sheet in every language at every width: no axe violation, no scrolling sideways, nothing too small.

axe-core checks WCAG 2.2, levels A and AA, and the contrast of level AAA (7:1, success criterion 1.4.6). Targets of
44 px are success criterion 2.5.5; 17 px for the smallest text is this page's own rule.
"""

import json
from pathlib import Path

import pytest
from journeys import METRIC, Visitor, painful_project

ROOT = Path(__file__).resolve().parents[2]
AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"
LANGUAGES = ("en", "es", "ar")
WIDTHS = (360, 768, 1280)
SHEETS = (
    "glance", "structure", "permission", "drawings", "mix", "finishes", "buy", "landowner", "batch", "foam", "lay", "patterns", "briefing",
)  # fmt: skip

RUN_AXE = """
    const found = await axe.run(given.css ? {include: [[given.css]]} : document, {
      runOnly: {type: "tag", values: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]},
      rules: {"color-contrast-enhanced": {enabled: true}, "target-size": {enabled: true}},
      resultTypes: ["violations"],
    });
    return found.violations.map((one) => one.id + ": " + one.help + "\\n  " + one.nodes.slice(0, 3).map((node) => node.html.slice(0, 200) + "\\n  " + node.failureSummary).join("\\n  "));
"""

# What sticks out at the side, apart from what only screen readers are to find.
SIDEWAYS = """
    const wide = document.documentElement.clientWidth;
    if (document.scrollingElement.scrollWidth <= wide) return [];
    return [...document.querySelectorAll("body *")].filter((node) => {
      const box = node.getBoundingClientRect();
      return box.width > 0 && (box.right > wide + 1 || box.left < -1) && !node.closest(".unseen");
    }).slice(0, 5).map((node) => node.outerHTML.slice(0, 160));
"""

SMALL_TEXT = """
    const found = new Set();
    const walk = document.createTreeWalker(document.getElementById("page"), NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const node = walk.currentNode.parentElement;
      if (!walk.currentNode.data.trim() || !node.checkVisibility() || node.closest(".unseen, .print-head")) continue;
      let size = parseFloat(getComputedStyle(node).fontSize);
      const drawing = node.closest(".drawing svg");
      if (drawing) size = Number(node.getAttribute("font-size")) * drawing.getScreenCTM().a * Number(drawing.style.getPropertyValue("--grow") || 1);
      if (size < (drawing ? 13.5 : 17) - 0.05) found.add(size.toFixed(1) + " " + node.outerHTML.slice(0, 120));
    }
    return [...found];
"""

SMALL_TARGETS = """
    const found = [];
    for (const node of document.querySelectorAll("#page button, #page input:not([type=file]), #page select, #page textarea, #page summary, #page .row")) {
      if (!node.checkVisibility() || node.closest(".unseen")) continue;
      const box = node.getBoundingClientRect();
      if (box.height < 43.5 || box.width < 43.5) found.push(box.width.toFixed(0) + " x " + box.height.toFixed(0) + " " + node.outerHTML.slice(0, 140));
    }
    return found;
"""

UNFOLD = """
    for (const node of document.querySelectorAll(".fold[aria-expanded='false']")) node.click();
    for (const node of document.querySelectorAll("#page details")) node.open = true;
"""


@pytest.fixture(scope="module")
def visitor(chromium, packed_page):
    visitor = Visitor(chromium, packed_page)
    visitor.arrive()
    visitor.browser.page.evaluate(AXE.read_text())
    return visitor


def put(visitor, language, width):
    page = visitor.browser.page
    if page.viewport_size["width"] != width:
        page.set_viewport_size({"width": width, "height": 800})
    if visitor.look("document.documentElement.lang") != language:
        visitor.language(language)
    visitor.browser.evaluate(UNFOLD)
    visitor.calm()


def violations(visitor, css=""):
    return visitor.browser.evaluate(RUN_AXE, {"css": css})


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("sheet", SHEETS)
def test_sheet(visitor, width, language, sheet):
    put(visitor, language, width)
    assert visitor.look(f"document.querySelector('#sheet-{sheet}').checkVisibility()")
    assert violations(visitor, f"#sheet-{sheet}") == []


def test_the_matrix_has_every_sheet_and_language(visitor):
    """A new sheet or language must join the matrix above."""
    shown = visitor.look("[...document.querySelectorAll('.sheet')].map((one) => one.dataset.sheet)")
    assert sorted(shown) == sorted(SHEETS)
    offered = visitor.look("[...document.getElementById('language').options].map((one) => one.value)")
    assert sorted(offered) == sorted(LANGUAGES)


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("width", WIDTHS)
def test_page_around_the_sheets(visitor, width, language):
    put(visitor, language, width)
    assert violations(visitor) == []
    assert visitor.browser.evaluate(SIDEWAYS) == []
    assert visitor.browser.evaluate(SMALL_TEXT) == []
    assert visitor.browser.evaluate(SMALL_TARGETS) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_drawers_and_errors(visitor, language):
    put(visitor, language, 360)
    visitor.key("Escape")
    for name in ("menu", "send"):
        visitor.press(f'.tools [data-drawer="{name}"]')
        visitor.calm()
        visitor.browser.evaluate(UNFOLD)
        assert violations(visitor, "#drawer") == []
        assert visitor.look("(() => { const body = document.querySelector('.drawer-body'); return body.scrollWidth - body.clientWidth; })()") <= 0
        assert visitor.browser.evaluate(SMALL_TARGETS) == []
        visitor.key("Escape")
    visitor.press("main [data-figure]")
    visitor.until("document.querySelector('.why-value')")
    assert violations(visitor, "#drawer") == []
    visitor.key("Escape")
    visitor.type("parts[0].thickness_m", "x")
    visitor.leave()
    visitor.until("document.querySelector('.troubles')")
    visitor.browser.evaluate(UNFOLD)
    assert violations(visitor) == []
    assert visitor.browser.evaluate(SIDEWAYS) == []
    visitor.undo()
    visitor.until("!document.querySelector('.troubles')")


@pytest.mark.parametrize("language", LANGUAGES)
def test_dark(visitor, language):
    put(visitor, language, 360)
    visitor.browser.page.emulate_media(color_scheme="dark")
    try:
        assert violations(visitor) == []
    finally:
        visitor.browser.page.emulate_media(color_scheme="light")


def test_data_that_hurts_fits(visitor):
    """A name of 80 characters in one word, twelve openings, a cost of nine digits and more."""
    visitor.menu()
    visitor.give_file("#open-file", painful_project())
    visitor.until("document.querySelector('h1').textContent.startsWith('WWWW')")
    for language in LANGUAGES:
        for width in WIDTHS:
            put(visitor, language, width)
            assert visitor.browser.evaluate(SIDEWAYS) == [], (language, width)
            rows = visitor.look("new Set([...document.querySelectorAll('.strip li')].filter((one) => !one.hidden).map((one) => one.offsetTop)).size")
            assert rows <= 2, (language, width)
            assert visitor.browser.evaluate(SMALL_TARGETS) == [], (language, width)
    put(visitor, "en", 360)
    assert violations(visitor) == []
    shown = json.loads(visitor.project())
    assert len(shown["parts"][0]["openings"]) == 12
    assert METRIC["language"] == "en"
