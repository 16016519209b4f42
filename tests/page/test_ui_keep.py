"""What is kept, what comes from elsewhere, and what happens when something breaks. In Chromium."""

import copy
import json
import random
import re
import subprocess
import zlib
from pathlib import Path

import pytest
from journeys import DIAMETER, METRIC, THICKNESS, Visitor, engine

ROOT = Path(__file__).resolve().parents[2]
FRESH = '{"format": 1}'

# The page's own start, held back or made to stumble, before its script runs.
HOLD = """
    let real;
    Object.defineProperty(globalThis, "Foamwright", {
      get: () => real,
      set: (given) => { real = {...given, boot: () => new Promise(() => {})}; },
    });
"""
STUMBLE = """
    let real;
    Object.defineProperty(globalThis, "Foamwright", {
      get: () => real,
      set: (given) => {
        real = {...given, boot: async (options) => {
          const engine = await given.boot(options);
          const call = engine.call.bind(engine);
          globalThis.restarts = 0;
          const restart = engine.restart.bind(engine);
          engine.restart = async () => { restarts += 1; return restart(); };
          engine.call = async (op, args) => {
            if (globalThis.stumble === op) { globalThis.stumble = null; throw {code: "engine_dead", path: "", params: {detail: "made to stumble"}}; }
            return call(op, args);
          };
          return engine;
        }};
      },
    });
"""


@pytest.fixture
def visitor(chromium, packed_page):
    return Visitor(chromium, packed_page)


@pytest.fixture
def tab(visitor):
    """Another tab of the same browser, with scripts that run before the page's own."""
    opened = []

    def make(script=""):
        browser = copy.copy(visitor.browser)
        browser.page = visitor.browser._context.new_page()
        browser.page.set_default_timeout(20_000)
        if script:
            browser.page.add_init_script(script)
        opened.append(browser.page)
        return Visitor(browser, visitor.path)

    yield make
    for page in opened:
        page.close()


def painted(visitor):
    visitor.browser.open(visitor.path, getattr(visitor, "fragment", ""))
    visitor.until("performance.getEntriesByName('foamwright-painted').length")


def strip_of(project, reader=METRIC):
    return {one["label"]: one["text"] for one in engine("view", project=project, reader=reader, want=[])["strip"]}


# --- before Python is up -----------------------------------------------------------------------------------------


def test_first_paint_is_the_default_project(visitor, tab):
    visitor.arrive()
    other = tab(HOLD)
    painted(other)
    assert other.strip() == strip_of(FRESH)
    assert len(other.texts(".sheet")) == 13
    assert not other.look("document.documentElement.dataset.live")


@pytest.mark.parametrize("language", ["es", "ar"])
def test_first_paint_is_in_the_readers_language(visitor, tab, language):
    reader = {**METRIC, "language": language}
    visitor.arrive(reader=reader)
    other = tab(HOLD)
    painted(other)
    assert other.look("document.documentElement.lang") == language
    assert other.strip() == strip_of(FRESH, reader)


def test_first_paint_is_the_kept_project(visitor, tab):
    visitor.arrive()
    visitor.say("name", "Kept")
    visitor.say(DIAMETER, "4.4")
    visitor.until("document.querySelector('.kept.saved')")
    visitor.browser.evaluate("await new Promise((go) => setTimeout(go, 700))")  # the sheets are saved after the text
    other = tab(HOLD)
    painted(other)
    assert other.texts("h1") == ["Kept"]
    assert other.strip() == strip_of(visitor.project())


ALTER = """
    const base = await new Promise((done) => { const wish = indexedDB.open("foamwright.projects"); wish.onsuccess = () => done(wish.result); });
    const deal = base.transaction("projects", "readwrite");
    const store = deal.objectStore("projects");
    store.getAll().onsuccess = (event) => {
      for (const record of event.target.result) {
        if (given.engine) record.good.engine = given.engine;
        if (given.good) record.good.text = given.good;
        store.put(record);
      }
    };
    await new Promise((done) => { deal.oncomplete = done; });
    base.close();
"""


@pytest.mark.parametrize("change", [{"engine": "0.0.1"}, {"good": "{}"}], ids=["another engine", "another text"])
def test_old_sheets_are_not_shown(visitor, tab, change):
    """Sheets of another engine or another text are not this project's: its name and a word instead."""
    visitor.arrive()
    visitor.say("name", "Kept")
    visitor.say(DIAMETER, "4.4")
    visitor.until("document.querySelector('.kept.saved')")
    visitor.browser.evaluate("await new Promise((go) => setTimeout(go, 700))")
    visitor.browser.evaluate(ALTER, change)
    other = tab(HOLD)
    painted(other)
    assert other.texts("h1") == ["Kept"]
    assert other.strip() == {}
    assert other.texts(".sheet") == []
    assert other.texts(".computing") == [engine("furniture", reader=METRIC)["words"]["computing"]]


def test_nothing_of_another_project_while_a_link_opens(visitor, tab):
    visitor.arrive()
    visitor.say("name", "Mine")
    visitor.saved()
    code = visitor.send()["code"]
    other = tab(HOLD)
    other.fragment = f"p={code}&v=read"
    painted(other)
    assert other.strip() == {}
    assert other.texts(".sheet") == []


def test_a_start_that_fails_says_so(visitor, tmp_path):
    from conftest import damaged

    visitor.arrive(reader={**METRIC, "language": "es"})
    broken = tmp_path / "broken.html"
    broken.write_text(damaged(visitor.path.read_text(), "wasm"))
    visitor.browser.open(broken)
    visitor.until("!document.getElementById('boot-failed').hidden", seconds=60)
    words = json.loads(re.search(r'id="boot-words">(.*?)</script>', visitor.path.read_text(), re.S)[1])["es"]
    told = visitor.texts("#boot-failed p")
    assert told == [words["failed"], words["try"]]
    assert "page_damaged" in visitor.texts("#boot-failed pre")[0]
    # the estimate made at build time is still there to be read
    assert visitor.strip() == strip_of(FRESH, {**METRIC, "language": "es"})


# --- keeping -----------------------------------------------------------------------------------------------------


def test_two_tabs_do_not_overwrite_each_other(visitor, tab):
    visitor.arrive()
    visitor.say("name", "First")
    visitor.saved()
    other = tab()
    other.come_back()
    assert other.texts("h1") == ["First"]
    other.say("name", "Second")
    other.saved()
    visitor.browser.page.bring_to_front()
    visitor.say("name", "Third")
    visitor.until("document.querySelector('#notice-conflict')")
    assert visitor.texts("h1") == ["Third"]
    visitor.answer("both")
    visitor.until("document.querySelector('.kept.saved')")
    visitor.menu()
    visitor.until("document.querySelectorAll('.saved-list li').length === 2")
    assert sorted(visitor.look("[...document.querySelectorAll('.saved-list .row')].map((one) => one.textContent)")) == ["Second", "Third"]


def test_a_browser_that_keeps_nothing_is_told_of(visitor, tab):
    visitor.arrive()
    other = tab("Object.defineProperty(globalThis, 'indexedDB', {value: undefined});")
    other.come_back()
    words = engine("furniture", reader=METRIC)["words"]
    assert words["store_missing_words"] in other.texts(".notice")[0]
    other.say(THICKNESS, "18")
    assert other.texts(".kept") == [words["kept_not"]]
    assert other.strip() == strip_of(other.project())


def test_projects_beside_each_other(visitor):
    visitor.arrive()
    visitor.say("name", "One")
    visitor.saved()
    visitor.menu()
    visitor.press('[data-do="new"]')
    visitor.until("document.querySelector('h1').textContent !== 'One'")
    assert visitor.strip() == strip_of(FRESH)
    visitor.say("name", "Two")
    visitor.saved()
    visitor.menu()
    visitor.until("document.querySelectorAll('.saved-list li').length === 2")
    visitor.browser.evaluate("[...document.querySelectorAll('.saved-list [data-do=switch]')].find((one) => one.textContent === 'One').click()")
    visitor.until("document.querySelector('h1').textContent === 'One'")
    visitor.menu()
    visitor.browser.evaluate("[...document.querySelectorAll('.saved-list li')].find((one) => one.textContent.includes('Two')).querySelector('[data-do=delete]').click()")
    visitor.until("document.querySelector('#notice-deleted')")
    assert visitor.texts("h1") == ["One"]
    visitor.answer("undo")
    visitor.until("document.querySelectorAll('.saved-list li').length === 2")
    visitor.come_back()
    assert visitor.texts("h1") == ["One"]


def test_a_file_goes_out_and_comes_in(visitor, tmp_path):
    visitor.arrive()
    visitor.say("name", "Filed")
    visitor.say(DIAMETER, "5.5")
    project = visitor.project()
    visitor.menu()
    with visitor.browser.page.expect_download() as waiting:
        visitor.press('.drawer [data-do="save-file"]')
    saved = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(saved)
    assert json.loads(saved.read_text()) == json.loads(project)
    visitor.arrive()
    visitor.say("name", "Other")
    other = visitor.project()
    visitor.menu()
    visitor.give_file("#open-file", saved.read_text()[:-30])
    visitor.until("document.querySelector('#notice-offer.warning li')")
    assert visitor.project() == other, "a damaged file overwrites nothing"
    visitor.menu()
    visitor.give_file("#open-file", saved.read_text())
    visitor.until("document.querySelectorAll('#notice-offer [data-act]').length === 3")
    visitor.answer("beside")
    visitor.until("document.querySelector('h1').textContent === 'Filed'")
    visitor.calm()
    assert visitor.project() == project


def test_history_reaches_the_start_or_says_that_it_does_not():
    """Random edits of random texts, undone to the start and done again; and a history that grows past its limit."""
    import build

    rng = random.Random(1)
    texts = ["{}"]
    for _ in range(400):
        text = texts[-1]
        at = rng.randrange(len(text) + 1)
        texts.append(text[:at] + "".join(rng.choice('aé😀"{}12') for _ in range(rng.randrange(1, 9))) + text[at + rng.randrange(4) :])
    script = f"""
        import {{ readFileSync }} from "node:fs";
        import {{ History }} from {json.dumps((ROOT / "web" / "ui" / "history.js").as_uri())};
        const texts = JSON.parse(readFileSync(0, "utf8"));
        const story = new History();
        for (let at = 1; at < texts.length; at += 1) story.note(texts[at - 1], texts[at], at % 3 ? "field" : null, at % 3 ? "stay" : null);
        let text = texts.at(-1), steps = 0;
        for (let found; (found = story.undo(text)); steps += 1) text = found.text;
        const start = text;
        for (let found; (found = story.redo(text)); ) text = found.text;
        const large = new History(JSON.parse(JSON.stringify(story.kept())));
        let now = texts.at(-1);
        for (let at = 0; at < 400; at += 1) {{ const next = String(at).repeat(2000); large.note(now, next, null); now = next; }}
        console.log(JSON.stringify({{start, end: text, steps, trimmed: story.trimmed, late: large.trimmed, size: JSON.stringify(large.kept()).length}}));
    """
    said = subprocess.run([str(build.node()), "--input-type=module", "-e", script], input=json.dumps(texts), capture_output=True, text=True, check=True)
    told = json.loads(said.stdout)
    assert told["start"] == texts[0]
    assert told["end"] == texts[-1]
    assert 100 < told["steps"] < 400, "typing in one field is one step"
    assert told["trimmed"] is False
    assert told["late"] is True
    assert told["size"] * 2 <= 1_100_000, "at most 1 MB, as browsers store two bytes a character"


# --- bad input ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed",
    ["NaN", "Infinity", "1e5", "1_000", "--5", "-0.2", "6,", ".", "<img src=x onerror=alert(1)>", "\ud800", "6" * 5000, "٦", "\u22126", "0x10", " 6 ", "𝟞"],
    ids=repr,
)
def test_whatever_is_typed_is_answered(visitor, typed):
    """Taken, asked or refused by a sentence; never a fault, and what was typed stays."""
    if not visitor.browser.evaluate("return Boolean(document.documentElement.dataset.live && document.querySelector('main'))"):
        visitor.arrive()
    visitor.type(THICKNESS, typed)
    visitor.leave()
    visitor.calm()
    assert visitor.texts("#notice-fault") == []
    answered = engine("edit", project=visitor.project() or FRESH, reader=METRIC, path=THICKNESS, text=typed, want=[])
    if answered["outcome"] == "refused":
        visitor.until("document.querySelector('.field.wrong .error')")
        assert visitor.texts(".troubles a") == [answered["problem"]["text"]]
        visitor.undo()
    visitor.until("!document.querySelector('.troubles')")
    assert visitor.look("document.querySelectorAll('img').length") == 0


def bomb():
    from foamwright.project import link

    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    return link._seal(bytes([3]) + packer.compress(bytes(50_000_000)) + packer.flush())


@pytest.mark.parametrize(
    "code",
    [lambda: "fw1" + "z" * 10_000_000, bomb, lambda: "fw9abcdefghijklmn", lambda: "hello", lambda: "", lambda: "\ud800", lambda: "<b>fw1</b>"],
    ids=["ten megabytes", "bomb", "newer", "no code", "empty", "lone surrogate", "markup"],
)
def test_a_bad_code_is_refused_kindly(visitor, code):
    visitor.arrive()
    visitor.say("name", "Mine")
    mine = visitor.project()
    visitor.menu()
    visitor.browser.evaluate("document.querySelector('.drawer details').open = true; document.getElementById('paste-code').value = given", code())
    visitor.press('[data-do="paste-code"]')
    visitor.until("document.querySelector('#notice-offer.warning li')")
    assert visitor.texts("#notice-fault") == []
    assert len(visitor.texts("#notice-offer li")[0]) < 400
    assert visitor.project() == mine


def test_a_damaged_link_with_nothing_at_hand(visitor):
    visitor.arrive("p=fw1zzzzzzzzzzzz")
    visitor.until("document.querySelector('#notice-offer.warning')")
    assert visitor.strip() == strip_of(FRESH)


@pytest.mark.parametrize("op", ["edit", "view", "why"])
def test_an_engine_that_stumbles_is_started_anew(visitor, tab, op):
    visitor.arrive()
    other = tab(STUMBLE)
    other.come_back()
    before = other.strip()
    other.browser.evaluate(f"globalThis.stumble = '{op}'")
    if op == "why":
        other.press("main [data-figure]")
    else:
        other.type(DIAMETER, "5.1")
    other.until("document.querySelector('#notice-fault')")
    assert "made to stumble" in other.look("document.getElementById('notice-fault-details').value")
    words = engine("furniture", reader=METRIC)["words"]
    assert words["fault_words"] in other.texts("#notice-fault")[0]
    assert other.look("restarts") == 1
    assert set(other.strip()) == set(before)
    other.say(DIAMETER, "5.2")
    assert other.strip() == strip_of(other.project())


# --- translators, print, hands -----------------------------------------------------------------------------------


def test_a_translator_sees_an_unfinished_catalog(visitor):
    source = (ROOT / "locales" / "es" / "LC_MESSAGES" / "foamwright.po").read_text()
    assert 'msgid "Saved on this device"' in source
    tried = re.sub(r'(msgid "Saved on this device"\nmsgstr )".*"', r'\1"Guardado, a prueba"', source)
    visitor.arrive()
    visitor.say(THICKNESS, "18")
    project = visitor.project()
    visitor.menu()
    visitor.give_file("#open-catalog", tried, "es.po")
    visitor.until("document.querySelector('.kept')?.textContent === 'Guardado, a prueba'")
    assert visitor.look("document.documentElement.lang") == "es"
    assert visitor.project() == project
    visitor.menu()
    visitor.press('[data-do="drop-catalog"]')
    visitor.until("document.documentElement.lang === 'en'")
    visitor.menu()
    visitor.give_file("#open-catalog", "no catalog at all", "x.po")
    visitor.until("document.querySelector('#notice-catalog.warning')")
    assert visitor.look("document.documentElement.lang") == "en"


def pages(pdf):
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_print(visitor, paper):
    """Each sheet starts a page of its own with name, date and version on it; alone, it is alone."""
    visitor.arrive()
    visitor.say("name", "On paper")
    page = visitor.browser.page
    everything = pages(page.pdf(format=paper))
    assert 13 <= everything <= 40
    page.emulate_media(media="print")
    try:
        hidden = visitor.look("[...document.querySelectorAll('.bar, .tools, .top, .field, .fold .icon, .drawer')].filter((one) => one.checkVisibility()).length")
        assert hidden == 0
        for head in visitor.look("[...document.querySelectorAll('.sheet .print-head')].map((one) => [one.checkVisibility(), one.textContent])"):
            assert head[0]
            assert "On paper" in head[1] and "Foamwright 0." in head[1] and "20" in head[1]
        colours = visitor.look("[...new Set([...document.querySelectorAll('.sheet *')].map((one) => getComputedStyle(one).color))]")
        for colour in colours:
            red, green, blue = map(int, re.findall(r"\d+", colour)[:3])
            assert red == green == blue, "black and white"
    finally:
        page.emulate_media(media="null")
    # the button on one sheet prints that sheet
    visitor.browser.evaluate("globalThis.print = () => { globalThis.printed = document.documentElement.dataset.print; };")
    visitor.press('[data-do="print"][data-sheet="briefing"]')
    visitor.until("globalThis.printed === 'one'")
    assert pages(page.pdf(format=paper)) == 1, "a briefing is one page"
    visitor.browser.evaluate("dispatchEvent(new Event('afterprint'))")
    # cutting patterns, of which there are many, come with their own button alone
    visitor.press('[data-do="print"][data-sheet="patterns"]')
    patterns = visitor.look("document.querySelectorAll('#sheet-patterns .true-size').length")
    assert patterns > 20 and patterns <= pages(page.pdf(format=paper)) <= patterns + 6
    visitor.browser.evaluate("dispatchEvent(new Event('afterprint'))")
    assert pages(page.pdf(format=paper)) == everything
    # also where each caution stands in two languages
    visitor.language("ar")
    visitor.press('[data-do="print"][data-sheet="briefing"]')
    visitor.calm()
    assert visitor.look("document.querySelectorAll('#sheet-briefing .source[lang=en]').length") > 10
    assert pages(page.pdf(format=paper)) == 1


def test_real_keys(visitor):
    """The keyboard alone: skip link, a field, undo, an answer, and out again."""
    visitor.arrive()
    page = visitor.browser.page
    page.keyboard.press("Tab")
    assert visitor.look("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    assert visitor.look("document.activeElement.id") == "main"
    page.locator(f'[id="f-{DIAMETER}"]').focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("7.25", delay=15)
    visitor.until("document.querySelector('#sheet-glance .drawing svg').textContent.includes('7.25')")
    assert visitor.value(DIAMETER) == "7.25"
    page.keyboard.press("Backspace")
    page.keyboard.type(".")
    assert visitor.value(DIAMETER) == "7.2.", "half-typed text is left alone"
    assert visitor.texts(".troubles") == [], "nothing is flagged while somebody types"
    page.keyboard.press("Backspace")
    page.keyboard.press("Tab")
    visitor.calm()
    page.keyboard.press("Control+z")
    visitor.until("document.getElementById('f-' + given).value === '6'", DIAMETER)
    page.keyboard.press("Control+Shift+z")
    visitor.until("document.getElementById('f-' + given).value === '7.2'", DIAMETER)
    page.locator("#sheet-glance .drawing [data-path]").first.focus()
    path = visitor.look("document.activeElement.dataset.path")
    page.keyboard.press("Enter")
    visitor.until("document.activeElement.id === 'f-' + given", path)
    page.locator("main [data-figure]").first.focus()
    page.keyboard.press("Enter")
    visitor.until("document.activeElement.id === 'drawer-title'")
    page.keyboard.press("Tab")
    assert visitor.look("Boolean(document.activeElement.closest('#drawer'))")
    page.keyboard.press("Escape")
    visitor.until("!document.querySelector('#drawer')")
    assert visitor.look("Boolean(document.activeElement.dataset.figure)")


def test_a_touch_beside_a_dimension_means_it(visitor):
    visitor.arrive()
    page = visitor.browser.page
    box = page.locator(f'#sheet-glance .drawing [data-path="{THICKNESS}"] .plate').bounding_box()
    page.mouse.click(box["x"] + box["width"] + 12, box["y"] + box["height"] / 2)
    assert visitor.look("document.activeElement.id") == f"f-{THICKNESS}"


def test_the_newest_text_wins_and_no_field_is_lost(visitor):
    """Fast typing in one field, then another: both are taken, each with its last text."""
    visitor.arrive()
    visitor.browser.evaluate("""
        const type = (path, text) => {
          const field = document.getElementById("f-" + path);
          field.value = text;
          field.dispatchEvent(new Event("input", {bubbles: true}));
        };
        for (const text of ["7", "7.", "7.1", "7.12"]) type("parts[0].inside_diameter_m", text);
        for (const text of ["1", "18", "18.5"]) type("parts[0].thickness_m", text);
    """)
    visitor.calm()
    part = json.loads(visitor.project())["parts"][0]
    assert (part["inside_diameter_m"], part["thickness_m"]) == (7.12, 0.185)




def test_what_is_half_typed_outlives_a_change_of_language(visitor):
    visitor.arrive()
    visitor.type(THICKNESS, "19")
    visitor.calm()
    visitor.language("es")
    assert visitor.texts(".troubles") == [], "what was taken is not flagged"
    assert visitor.value(THICKNESS) == "19"
    visitor.type(THICKNESS, "19x")
    visitor.leave()
    visitor.until("document.querySelector('.troubles')")
    visitor.language("ar")
    assert visitor.value(THICKNESS) == "19x", "what was typed stays"
    words = engine("furniture", reader={**METRIC, "language": "ar"})["words"]
    assert visitor.texts(".field.wrong .error") == [words["not_taken"]]
    assert json.loads(visitor.project())["parts"][0]["thickness_m"] == 0.19


def test_the_landowner_gets_a_link_in_their_language(visitor):
    """A page with an address of its own makes a link that opens to be read, in the language and units chosen for it."""
    visitor.arrive()
    visitor.say("name", "Linked")
    code = visitor.send()["code"]
    visitor.browser.evaluate("localStorage.clear(); indexedDB.deleteDatabase('foamwright.projects');")
    visitor.come_back(f"p={code}&v=read&l=ar&u=imperial")
    visitor.until("document.querySelector('h1').textContent === 'Linked'")
    assert visitor.look("[document.documentElement.lang, document.getElementById('units').value]") == ["ar", "imperial"]
    assert visitor.texts(".field") == []
    visitor.saved()
    # it stays to be read until somebody wants to change it
    visitor.come_back()
    assert visitor.texts("h1") == ["Linked"]
    assert visitor.texts(".field") == []
    visitor.press('[data-do="edit"]')
    visitor.until("document.querySelector('.field')")
    visitor.say(THICKNESS, "6")
    visitor.saved()
    visitor.come_back()
    assert len(visitor.texts(".field")) > 10


def test_a_saved_copy_with_another_project_asks_once(visitor, tmp_path):
    visitor.arrive()
    visitor.say("name", "In the copy")
    copied = tmp_path / "copied.html"
    copied.write_text("<!doctype html>\n" + visitor.look("document.documentElement.outerHTML"))
    visitor.arrive()
    visitor.say("name", "Mine")
    visitor.saved()
    visitor.come_back(path=copied)
    visitor.until("document.querySelectorAll('#notice-offer [data-act]').length === 3")
    assert visitor.texts("h1") == ["Mine"]
    visitor.answer("keep")
    visitor.come_back(path=copied)
    assert visitor.texts("h1") == ["Mine"]
    assert visitor.texts(".notice") == []
