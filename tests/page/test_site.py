"""The site view under a thumb: 360 px wide, in Chromium. What is typed, what is said, what is kept."""

import copy
import json

import pytest
from journeys import METRIC, THICKNESS, Visitor, engine
from test_ui_matrix import AXE, SIDEWAYS, SMALL_TARGETS, SMALL_TEXT, violations
from test_ui_words import untranslated

# The page before the diary: one project in a store of the first layout.
OLD_STORE = """
    await new Promise((done) => { const wish = indexedDB.deleteDatabase("foamwright.projects"); wish.onsuccess = wish.onerror = wish.onblocked = done; });
    const base = await new Promise((done, fail) => {
      const wish = indexedDB.open("foamwright.projects", 1);
      wish.onupgradeneeded = () => { wish.result.createObjectStore("projects", {keyPath: "id"}); wish.result.createObjectStore("notes"); };
      wish.onsuccess = () => done(wish.result);
      wish.onerror = () => fail(wish.error);
    });
    const deal = base.transaction(["projects", "notes"], "readwrite");
    deal.objectStore("projects").put(given);
    deal.objectStore("notes").put(given.id, "current");
    await new Promise((done) => { deal.oncomplete = done; });
    base.close();
"""
STORED = """
    const base = await new Promise((done) => { const wish = indexedDB.open("foamwright.projects"); wish.onsuccess = () => done(wish.result); });
    const all = await new Promise((done) => { base.transaction("diary").objectStore("diary").getAll().onsuccess = (event) => done(event.target.result); });
    base.close();
    return all.sort((a, b) => a.order - b.order).map(({ entry }) => entry);
"""


@pytest.fixture
def visitor(chromium, packed_page):
    chromium.resize(360, 740)
    yield Visitor(chromium, packed_page)
    chromium.resize(1000, 800)


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


def go(visitor, tool=None):
    """Open the site view, and a tool in it."""
    if visitor.look("document.documentElement.dataset.place") != "site":
        visitor.press('.tools [data-do="site"]')
    visitor.until("document.querySelector('.site-tools, .site-one')")
    if tool:
        if visitor.look("Boolean(document.querySelector('.site-one'))"):
            back(visitor)
        visitor.press(f'[data-tool="{tool}"]')
        visitor.until("document.querySelector('.site-one .site-save')")
    visitor.calm()


def back(visitor):
    visitor.press('[data-do="site-back"]')
    visitor.until("document.querySelector('.site-tools')")


def fill(visitor, **fields):
    for path, text in fields.items():
        if visitor.look("document.getElementById('d-' + given)?.localName", path) == "select":
            visitor.choose(f"#d-{path}", text)
        else:
            visitor.type(path, text, "d")
    visitor.until("document.querySelector('.verdict:not(.stale)') || document.documentElement.hasAttribute('data-calm')")
    visitor.calm()


def save(visitor):
    """Press Save, and wait for the word; the entry's id."""
    visitor.press('[data-do="site-save"]')
    found = visitor.until("document.querySelector('[data-saved]')?.dataset.saved")
    visitor.calm()
    return found


def stored(visitor):
    return visitor.browser.evaluate(STORED)


def log(visitor):
    return {one: (struck, text) for one, struck, text in visitor.look("[...document.querySelectorAll('[data-entry]')].map((one) => [one.dataset.entry, one.classList.contains('struck'), one.textContent])")}


def tone(visitor):
    return visitor.until("[...(document.querySelector('.verdict:not(.stale)')?.classList ?? [])].find((one) => one !== 'verdict')")


def note(visitor, words):
    go(visitor, "note")
    fill(visitor, text=words)
    return save(visitor)


# --- finding the way ---------------------------------------------------------------------------------------------


def test_there_and_back_by_the_browsers_own_button(visitor):
    visitor.arrive()
    visitor.press('.tools [data-do="site"]')
    visitor.until("document.querySelector('.site-tool')")
    assert visitor.browser.page.url.endswith("#site")
    assert not visitor.look("document.getElementById('sheet-glance').checkVisibility()")
    visitor.press('[data-tool="note"]')
    assert visitor.browser.page.url.endswith("#site=note")
    visitor.browser.page.go_back()
    visitor.until("document.querySelector('.site-tools')")
    visitor.browser.page.go_back()
    visitor.until("document.getElementById('sheet-glance').checkVisibility()")
    assert not visitor.look("document.querySelector('.on-site')")
    # the page's own way back does the same, and from a page that was opened in the site view too
    visitor.come_back("site=note")
    visitor.until("document.querySelector('.site-one')")
    back(visitor)
    visitor.press('[data-do="site-back"]')
    visitor.until("document.getElementById('sheet-glance').checkVisibility()")
    assert "#" not in visitor.browser.page.url


def test_three_taps_with_the_real_keyboard(visitor):
    """After the site view is open: the tool, the number typed, Save. The field has the focus without a tap."""
    visitor.arrive()
    go(visitor)
    page = visitor.browser.page
    page.locator('[data-tool="note"]').click()
    page.keyboard.type("Rain since ten")
    page.locator('[data-do="site-save"]').click()
    visitor.until("document.querySelector('[data-saved]')")
    visitor.calm()
    assert [one["text"] for one in stored(visitor)] == ["Rain since ten"]
    assert not visitor.look("document.querySelector('.site-one textarea').value")


@pytest.mark.parametrize("language", ["en", "ar"])
@pytest.mark.parametrize("light", ["light", "dark"])
def test_fits_a_thumb_and_the_sun(visitor, language, light):
    """axe (WCAG 2.2, contrast 7:1), nothing sideways, targets of 44 px, pictures of tools of 64 px and more."""
    visitor.arrive(reader={**METRIC, "language": language}, light=light)
    visitor.browser.page.evaluate(AXE.read_text())
    note(visitor, "ب" * 90 if language == "ar" else "W" * 90)

    def sound():
        visitor.browser.evaluate("for (const node of document.querySelectorAll('.on-site details')) node.open = true;")
        assert violations(visitor) == []
        for script in (SIDEWAYS, SMALL_TARGETS, SMALL_TEXT):
            assert visitor.browser.evaluate(script) == []

    sound()
    back(visitor)
    sound()
    tools = visitor.look("[...document.querySelectorAll('.site-tool')].map((one) => [one.dataset.tool, one.offsetHeight, Boolean(one.querySelector('svg'))])")
    assert len(tools) >= 12
    for name, height, picture in tools:
        assert height >= 64 and picture, name
        go(visitor, name)
        sound()


def test_half_typed_text_waits_for_its_tool(visitor):
    visitor.arrive()
    go(visitor, "note")
    fill(visitor, text="half a sen")
    go(visitor, "foam")
    go(visitor, "note")
    assert visitor.look("document.querySelector('.site-one textarea').value") == "half a sen"
    save(visitor)
    assert [one["text"] for one in stored(visitor)] == ["half a sen"]
    assert not visitor.look("document.querySelector('.site-one textarea').value")


@pytest.mark.parametrize("language", ["en-XA", "ar-XB"])
def test_every_text_of_the_site_view_comes_from_a_catalog(visitor, language):
    """In a language that is made from the source texts, whatever is still plain English was never looked up."""
    visitor.arrive(reader={**METRIC, "language": language})
    go(visitor)
    left = untranslated(visitor)
    assert len(visitor.texts(".site-tool")) >= 12
    for tool in visitor.look("[...document.querySelectorAll('.site-tool')].map((one) => one.dataset.tool)"):
        go(visitor, tool)
        left += untranslated(visitor)
        assert visitor.browser.evaluate(SIDEWAYS) == []
    assert left == []


# --- what is weighed ---------------------------------------------------------------------------------------------

# A litre of foam at 95 g/L in the middle of the default window of 90-100 g/L (common practice, no source); 130 g/L outside.
GOOD, BAD = "295", "330"


def foam(visitor, gross):
    fill(visitor, volume_l="1", empty_g="200", gross_g=gross)


def test_foam_good_and_bad(visitor):
    visitor.arrive()
    go(visitor, "foam")
    assert visitor.texts(".aim-text")[0]
    size = visitor.look("parseFloat(getComputedStyle(document.querySelector('.aim-text')).fontSize)")
    assert size >= 40
    foam(visitor, GOOD)
    assert tone(visitor) == "good"
    assert stored(visitor) == [], "nothing is put down while somebody types"
    word = visitor.texts(".verdict strong")
    foam(visitor, BAD)
    assert tone(visitor) == "bad"
    assert visitor.texts(".verdict strong") != word
    assert visitor.look("Boolean(document.querySelector('.verdict svg'))")
    save(visitor)
    assert [(one["kind"], one["gross_g"]) for one in stored(visitor)] == [("foam", 330)]


def test_a_scale_in_ounces_is_asked_about(visitor):
    """10.4 typed on a scale in ounces is 295 g (1 oz = 28.349523 g, NIST SP 811, appendix B.8)."""
    visitor.arrive()
    for each in (GOOD, GOOD):
        go(visitor, "foam")
        foam(visitor, each)
        save(visitor)
    go(visitor, "foam")
    fill(visitor, volume_l="1", empty_g="7.05", gross_g="10.4")
    visitor.press('[data-do="site-save"]')
    visitor.until("document.querySelector('.site-question button')")
    assert len(stored(visitor)) == 2, "what is doubtful is not swallowed"


def test_an_impossible_weight_is_named_at_its_field(visitor):
    visitor.arrive()
    go(visitor, "foam")
    foam(visitor, "150")
    visitor.press('[data-do="site-save"]')
    visitor.until("document.querySelector('.on-site .error, .site-question')")
    assert stored(visitor) == []
    assert visitor.look("document.getElementById('d-gross_g').value") == "150", "what was typed stays"


def test_arabic_digits(visitor):
    visitor.arrive(reader={**METRIC, "language": "ar", "digits": "native"})
    go(visitor, "foam")
    foam(visitor, "٢٩٥")
    assert tone(visitor) == "good"
    save(visitor)
    assert stored(visitor)[0]["gross_g"] == 295
    assert any("٠" <= letter <= "٩" for letter in "".join(visitor.texts(".site-log time")))


# --- what is kept ------------------------------------------------------------------------------------------------


def test_entries_outlive_the_page_and_are_struck_not_erased(visitor):
    visitor.arrive()
    first = note(visitor, "first words")
    second = note(visitor, "second words")
    visitor.press('.site-done [data-do="site-strike"]')
    visitor.until("document.querySelector('[data-entry].struck')")
    visitor.calm()
    assert log(visitor)[second][0] and not log(visitor)[first][0]
    visitor.come_back("site")
    visitor.until("document.querySelectorAll('[data-entry]').length >= 2")
    assert log(visitor)[second][0] and "second words" in log(visitor)[second][1]
    assert not log(visitor)[first][0]
    kinds = [one["kind"] for one in stored(visitor)]
    assert kinds == ["note", "note", "undo"]


def test_numbers_of_a_device_are_given_once(visitor):
    """Not again after a project and its diary were deleted, nor where localStorage or the store was emptied alone."""
    visitor.arrive()
    seen = [note(visitor, "one")]
    visitor.browser.page.goto("about:blank")
    visitor.come_back()
    visitor.menu()
    visitor.press('[data-do="delete"]')
    visitor.until("document.querySelector('#notice-deleted')")
    visitor.calm()
    assert stored(visitor) == []
    seen.append(note(visitor, "two"))
    visitor.browser.evaluate("localStorage.removeItem('foamwright.tally')")
    seen.append(note(visitor, "three"))
    visitor.browser.evaluate(
        "await new Promise((done) => { const wish = indexedDB.deleteDatabase('foamwright.projects'); wish.onsuccess = wish.onerror = wish.onblocked = done; });"
    )
    visitor.come_back()
    seen.append(note(visitor, "four"))
    assert len(set(seen)) == 4
    assert len({one.split("-")[0] for one in seen}) == 1
    counts = [int(one.split("-")[1]) for one in seen]
    assert counts == sorted(counts)


def test_a_deleted_project_comes_back_with_its_diary(visitor):
    visitor.arrive()
    visitor.say("name", "Gone")
    note(visitor, "kept words")
    visitor.come_back()
    visitor.menu()
    visitor.press('[data-do="delete"]')
    visitor.until("document.querySelector('#notice-deleted')")
    assert stored(visitor) == []
    visitor.answer("undo")
    visitor.until("document.querySelector('.saved-list li')")
    assert [one["text"] for one in stored(visitor)] == ["kept words"]


def test_each_project_has_its_own_diary(visitor):
    visitor.arrive()
    visitor.say("name", "One")
    note(visitor, "of one")
    visitor.come_back()
    visitor.menu()
    visitor.press('[data-do="new"]')
    visitor.until("document.querySelector('h1').textContent !== 'One'")
    visitor.calm()
    go(visitor)
    assert log(visitor) == {}
    note(visitor, "of two")
    assert len(log(visitor)) == 1
    visitor.come_back()
    visitor.menu()
    visitor.press('.saved-list li:last-child [data-do="switch"]')
    visitor.until("document.querySelector('h1').textContent === 'One'")
    visitor.calm()
    go(visitor)
    assert ["of one" in text for _, text in log(visitor).values()] == [True]


def test_the_store_of_the_page_before_is_carried_over(visitor):
    visitor.arrive()
    visitor.say("name", "From before")
    project = visitor.project()
    visitor.browser.evaluate(OLD_STORE, {"id": "old-1", "name": "From before", "text": project, "revision": 3, "saved": 1, "history": None})
    visitor.come_back()
    assert visitor.texts("h1") == ["From before"]
    assert visitor.project() == project
    note(visitor, "new words")
    visitor.come_back("site")
    visitor.until("document.querySelector('[data-entry]')")
    assert visitor.project() == project


def test_a_store_that_fails_says_so_and_the_entry_stays_to_be_copied(visitor, tab):
    visitor.arrive()
    other = tab("IDBObjectStore.prototype.add = () => { throw new DOMException('made to fail', 'QuotaExceededError'); };")
    other.come_back("site=note")
    other.until("document.querySelector('.site-one textarea')")
    fill(other, text="hard won words")
    other.press('[data-do="site-save"]')
    other.until("document.querySelector('#notice-diary.warning textarea')")
    other.calm()
    assert "hard won words" in other.look("document.querySelector('#notice-diary textarea').value")
    assert other.look("document.querySelector('.site-one textarea').value") == "hard won words"
    assert not other.look("document.querySelector('[data-saved]')")
    assert log(other) == {}
    assert stored(visitor) == []


def test_a_browser_that_keeps_nothing_never_says_saved(visitor, tab):
    visitor.arrive()
    other = tab("Object.defineProperty(globalThis, 'indexedDB', {value: undefined});")
    other.come_back("site=note")
    other.until("document.querySelector('.site-one textarea')")
    fill(other, text="nowhere to go")
    other.press('[data-do="site-save"]')
    other.until("document.querySelector('#notice-diary.warning textarea')")
    assert not other.look("document.querySelector('[data-saved]')")


def test_entries_of_another_tab_appear(visitor, tab):
    visitor.arrive()
    note(visitor, "of this tab")
    other = tab()
    other.come_back("site")
    other.until("document.querySelectorAll('[data-entry]').length === 1")
    note(other, "of the other tab")
    visitor.browser.evaluate("dispatchEvent(new Event('focus'))")
    visitor.until("document.querySelectorAll('[data-entry]').length === 2")
    # and the numbers of one device do not meet
    note(visitor, "of this tab again")
    assert len({one["id"] for one in stored(visitor)}) == 3


def test_a_saved_copy_of_the_page_carries_the_diary(visitor, tmp_path):
    visitor.arrive()
    visitor.say("name", "Carried")
    note(visitor, "carried words")
    carried = visitor.look("document.getElementById('carried').textContent")
    assert "carried words" in carried
    saved = tmp_path / "copy.html"
    empty = '<script type="application/json" id="carried"></script>'
    text = visitor.path.read_text()
    assert text.count(empty) == 1
    saved.write_text(text.replace(empty, empty.replace("></", f">{carried}</")))
    visitor.arrive()
    assert stored(visitor) == []
    visitor.come_back("site", path=saved)
    visitor.until("document.querySelector('[data-entry]')")
    assert ["carried words" in text for _, text in log(visitor).values()] == [True]
    # opened again it is not doubled
    visitor.come_back("site", path=saved)
    visitor.until("document.querySelector('[data-entry]')")
    assert len(stored(visitor)) == 1


def test_the_diary_is_in_no_link(visitor):
    visitor.arrive()
    visitor.say("name", "Linked")
    note(visitor, "not for sending")
    visitor.come_back()
    sent = visitor.send()
    opened = engine("open_code", code=sent["code"], reader=METRIC)
    assert "not for sending" not in opened["project"] and "not for sending" not in sent["message"]


# --- two phones, and the estimate --------------------------------------------------------------------------------


def test_two_phones_merge_without_doubles(visitor, tmp_path):
    visitor.arrive()
    mine = note(visitor, "words of the first phone")
    back(visitor)
    with visitor.browser.page.expect_download() as waiting:
        visitor.press('[data-do="site-out"]')
    name = waiting.value.suggested_filename
    assert name.endswith(".csv")
    waiting.value.save_as(tmp_path / name)
    text = (tmp_path / name).read_text(encoding="utf-8-sig")
    assert "words of the first phone" in text
    visitor.arrive()  # another phone: nothing kept, another tag
    other = note(visitor, "words of the second phone")
    assert other.split("-")[0] != mine.split("-")[0]
    back(visitor)
    for _ in range(2):
        visitor.give_file("#diary-in", text, name)
        visitor.until("document.querySelector('#notice-diary-in')")
        visitor.calm()
        assert set(log(visitor)) == {mine, other}
        assert len(stored(visitor)) == 2
        visitor.answer("close")
    visitor.give_file("#diary-in", "not a diary", "x.csv")
    visitor.until("document.querySelector('#notice-diary-in.warning')")
    assert len(stored(visitor)) == 2


def test_a_batch_that_is_off_says_how_to_rescue_it(visitor):
    visitor.arrive()
    go(visitor, "batch")
    # a bucket of 10 L full of foamed concrete at 900 kg/m3, far above any wanted density of the default mix
    fields = set(visitor.look("[...document.querySelectorAll('.site-one [data-path]')].map((one) => one.dataset.path)"))
    wanted = {"volume_l": "10", "empty_g": "500", "gross_g": "9500"}
    assert set(wanted) <= fields
    fill(visitor, **wanted)
    assert tone(visitor) in ("bad", "unsure")
    said = engine("site", project='{"format": 1}', reader=METRIC, entries=[], now="2026-05-01T08:00:00+00:00")
    assert any(tool["id"] == "batch" and tool["aim"] for tool in said["tools"])
    assert len(visitor.texts(".site-one .site-part")) >= 1


def test_what_was_learnt_is_taken_and_can_be_undone(visitor):
    visitor.arrive()
    visitor.say(THICKNESS, "21")
    for _ in range(4):
        go(visitor, "blocks")
        fill(visitor, made="20", broken="4")
        save(visitor)
    back(visitor)
    visitor.until("document.querySelector('.site-edit')")
    before = visitor.project()
    edits = visitor.look("document.querySelectorAll('.site-edit[aria-checked=true]').length")
    assert edits >= 1
    for one in range(edits):  # none is chosen: nothing is taken
        visitor.browser.evaluate("document.querySelectorAll('.site-edit')[given].click()", one)
    visitor.press('[data-do="site-take"]')
    visitor.calm()
    assert visitor.project() == before
    for one in range(edits):
        visitor.browser.evaluate("document.querySelectorAll('.site-edit')[given].click()", one)
    visitor.press('[data-do="site-take"]')
    visitor.until("document.querySelector('#notice-taken li')")
    visitor.calm()
    after = visitor.project()
    assert json.loads(after) != json.loads(before)
    visitor.press('[data-do="site-back"]')
    visitor.until("document.getElementById('sheet-glance').checkVisibility()")
    visitor.undo()
    visitor.calm()
    assert json.loads(visitor.project()) == json.loads(before)
