"""Fifteen things people come to do, each in Chromium, Firefox and WebKit.

The figures that the page shows are held against the same engine in CPython, whose own figures are held against
published values elsewhere.
"""

import json
import re
from pathlib import Path

import pytest
from journeys import DIAMETER, METRIC, THICKNESS, Visitor, engine


@pytest.fixture
def visitor(browser, packed_page):
    return Visitor(browser, packed_page)


def view(project, reader=METRIC):
    return engine("view", project=project, reader=reader, want=None)


def strip_of(project, reader=METRIC):
    return {one["label"]: one["text"] for one in view(project, reader)["strip"]}


def test_an_estimate_is_there_when_it_opens(visitor):
    visitor.arrive(asked=False)
    fresh = view('{"format": 1}')
    assert visitor.strip() == {one["label"]: one["text"] for one in fresh["strip"]}
    assert visitor.texts("h1") == [fresh["title"]]
    shown = visitor.look('[...document.querySelectorAll("[data-sheet].sheet")].map((sheet) => sheet.dataset.sheet)')
    assert sorted(shown) == sorted(one["id"] for one in fresh["sheets"])
    assert visitor.look('document.querySelectorAll("#sheet-glance .drawing svg [data-path]").length') > 3
    # three questions make it theirs
    assert visitor.look('document.querySelectorAll("section.first .field").length') == 3
    visitor.type("place.name", "Uplands", prefix="q")
    visitor.until('document.querySelector(".subtitle")?.textContent === "Uplands"')


def test_an_edit_changes_the_figures(visitor):
    visitor.arrive()
    before = visitor.strip()
    visitor.say(DIAMETER, "7.5")
    after = visitor.strip()
    assert after["Blocks"] != before["Blocks"]
    assert after == strip_of(visitor.project())
    visitor.until("document.querySelector('#sheet-glance .drawing svg').textContent.includes('7.50')")
    # what is out of sight follows
    wanted = next(one for one in view(visitor.project())["sheets"] if one["id"] == "briefing" or one["id"] == "buy")
    visitor.until("document.getElementById('sheet-' + given.id).textContent.includes(given.text)", {"id": "buy", "text": after["Bags"]})
    assert wanted


def test_a_refused_value_is_named_and_the_estimate_stays(visitor):
    visitor.arrive()
    before = visitor.strip()
    visitor.type(DIAMETER, "-3")
    visitor.leave()
    told = visitor.until("document.querySelector('.troubles a')?.textContent")
    assert told == visitor.look("document.querySelector('.field.wrong .error').textContent")
    assert "-3" in told.replace("\u2212", "-") or "3" in told
    assert visitor.value(DIAMETER) == "-3", "what was typed stays"
    assert visitor.strip() == before
    described = visitor.look("document.getElementById('f-' + given).getAttribute('aria-describedby')", DIAMETER)
    assert f"f-{DIAMETER}-error" in described.split()
    assert visitor.look("document.getElementById('f-' + given).getAttribute('aria-invalid')", DIAMETER) == "true"
    # the summary leads to the field
    visitor.press(".troubles a")
    assert visitor.look("document.activeElement.id") == f"f-{DIAMETER}"
    visitor.say(DIAMETER, "5")
    visitor.until("!document.querySelector('.troubles')")


def test_a_door_too_tall_is_named_and_the_figures_stay(visitor):
    visitor.arrive()
    before = visitor.strip()
    visitor.say(DIAMETER, "2")
    assert visitor.until("document.querySelector('.troubles .before')?.textContent")
    assert visitor.strip() == before
    named = visitor.look("document.querySelector('.troubles a').dataset.goto")
    assert named.startswith("parts[0].openings[0]")
    visitor.undo()
    visitor.until("!document.querySelector('.troubles')")
    assert visitor.strip() == before


def test_two_readings_are_asked(visitor):
    visitor.arrive()
    visitor.type(DIAMETER, "5.500")
    visitor.leave()
    visitor.until("document.querySelectorAll('#f-' + CSS.escape(given) + '-ask button').length === 2", DIAMETER)
    labels = visitor.texts(f'[id="f-{DIAMETER}-ask"] button')
    assert [re.sub(r"\s", " ", one) for one in labels] == ["5.5 m", "5,500 m"]
    assert visitor.project() == "", "nothing was taken while it was asked"
    visitor.press(f'[id="f-{DIAMETER}-ask"] button')
    visitor.until("document.getElementById('f-' + given).value === '5.5'", DIAMETER)
    visitor.calm()
    assert json.loads(visitor.project())["parts"][0]["inside_diameter_m"] == 5.5


def test_undo_reaches_back_to_the_start_and_redo_comes_again(visitor):
    visitor.arrive()
    start = visitor.strip()
    for text in ("6", "6.4", "6.45"):
        visitor.type(DIAMETER, text)
    visitor.until("document.querySelector('#sheet-glance .drawing svg').textContent.includes('6.45')")
    visitor.leave()
    visitor.say(THICKNESS, "25")
    end = visitor.strip()
    visitor.undo()
    visitor.until("document.getElementById('f-' + given).value === '20'", THICKNESS)
    visitor.undo()  # typing in one field is one step
    visitor.until("document.getElementById('f-' + given).value === '6'", DIAMETER)
    assert visitor.strip() == start
    visitor.undo()
    visitor.until("document.querySelector('#notice-end')")
    visitor.press('[data-do="redo"]')
    visitor.until("document.getElementById('f-' + given).value === '6.45'", DIAMETER)
    visitor.press('[data-do="redo"]')
    visitor.until("document.getElementById('f-' + given).value === '25'", THICKNESS)
    assert visitor.strip() == end


def test_what_was_said_is_there_after_a_reload(visitor):
    visitor.arrive()
    visitor.say("name", "Mud & straw <b>barn</b>")
    visitor.say(THICKNESS, "18")
    visitor.saved()
    project, strip = visitor.project(), visitor.strip()
    visitor.come_back()
    assert visitor.texts("h1") == ["Mud & straw <b>barn</b>"], "markup in a name stays text"
    assert visitor.look("document.querySelectorAll('h1 b, svg b').length") == 0
    assert visitor.project() == project
    assert visitor.strip() == strip
    visitor.undo()
    visitor.until("document.getElementById('f-' + given).value === '20'", THICKNESS)


def test_every_answer_says_why_and_leads_to_its_inputs(visitor):
    visitor.arrive()
    visitor.press('#sheet-glance [data-figure="batches.cement_bags"]')
    told = engine("why", project='{"format": 1}', reader=METRIC, figure="batches.cement_bags")
    visitor.until("document.querySelector('.drawer.why .why-value')?.textContent === given", told["value"])
    text = visitor.look("document.querySelector('.drawer').textContent")
    for part in ("rule", "basis", "source", "leaves_out"):
        assert told[part] in text
    assert visitor.look("document.activeElement.id") == "drawer-title"
    # what stands between answers in turn, and the way leads back
    between = next(one for one in told["inputs"] if one.get("figure"))
    visitor.press(f'.drawer [data-figure="{between["figure"]}"]')
    visitor.until("document.querySelector('.why-value')?.textContent === given && document.querySelector('.back')", between["value"])
    visitor.press('.drawer [data-do="why-back"]')
    visitor.until("document.querySelector('.drawer.why .why-value')?.textContent === given", told["value"])
    # it follows the edits while it is open
    visitor.say(DIAMETER, "7")
    visitor.until("document.querySelector('.why-value').textContent !== given", told["value"])
    visitor.press('.drawer [data-goto="market.cement_bag_kg"]')
    visitor.until("document.activeElement.id === 'f-market.cement_bag_kg'")
    visitor.press('#sheet-glance [data-figure="blocks.count"]')
    visitor.until("document.querySelector('.drawer.why .why-value')")
    visitor.key("Escape")
    visitor.until("!document.querySelector('.drawer')")
    assert visitor.look("document.activeElement.dataset.figure") == "blocks.count"


def test_language_units_and_digits_come_back_to_the_same_project(visitor):
    visitor.arrive()
    visitor.say(DIAMETER, "6.35")
    project, strip = visitor.project(), visitor.strip()
    paths = "[...document.querySelectorAll('#sheet-glance .drawing svg path')].map((one) => one.getAttribute('d'))"
    drawn = visitor.look(paths)
    visitor.units("us")
    visitor.language("ar")
    assert visitor.look("document.documentElement.dir") == "rtl"
    assert visitor.look("document.activeElement.id") == "language", "the focus stays on the choice"
    assert visitor.look(paths) == drawn, "a mirrored plan is a wrong building"
    visitor.menu()
    visitor.choose("#m-digits", "native")
    visitor.until("/[٠-٩]/.test(document.querySelector('.strip').textContent)")
    visitor.choose("#m-digits", "auto")
    visitor.key("Escape")
    visitor.language("es")
    visitor.units("imperial")
    visitor.language("en")
    visitor.units("metric")
    visitor.until("document.querySelector('.strip').textContent.includes(given)", strip["Bags"])
    assert visitor.project() == project
    assert visitor.strip() == strip


def test_the_bag_changes_everywhere_and_can_be_taken_back(visitor):
    visitor.arrive()
    start = visitor.strip()
    visitor.press('.bags [data-value="50.0"]')
    visitor.until("document.getElementById('f-market.cement_bag_kg').value === '50'")
    assert visitor.strip() == strip_of(visitor.project())
    assert visitor.strip()["Bags"] != start["Bags"]
    made = engine("act", project='{"format": 1}', reader=METRIC, action={"name": "bag", "kg": 50}, want=[])
    assert json.loads(visitor.project()) == json.loads(made["project"])
    # half-typed masses leave no trace: each starts from what stood there
    for text in ("4", "42", "42.", "42.5"):
        visitor.type("market.cement_bag_kg", text)
    typed = engine("edit", project=made["project"], reader=METRIC, path="market.cement_bag_kg", text="42.5", want=[])
    visitor.until("JSON.parse(JSON.parse(document.getElementById('carried').textContent).text).market.cement_bag_kg === 42.5")
    assert json.loads(visitor.project()) == json.loads(typed["project"])
    visitor.leave()
    visitor.undo()
    visitor.until("document.getElementById('f-market.cement_bag_kg').value === '50'")
    visitor.undo()
    visitor.until("document.querySelector('.strip').textContent.includes(given)", start["Bags"])
    assert visitor.strip() == start


def test_a_new_currency_asks_what_becomes_of_the_prices(visitor):
    visitor.arrive()
    visitor.press('[data-do="add"][data-path="market.prices"]')
    visitor.until("document.getElementById('f-market.prices[0].price')")
    visitor.choose('[id="f-market.prices[0].item"]', "cement")
    visitor.choose('[id="f-market.prices[0].unit"]', "bag")
    visitor.say("market.prices[0].price", "12")
    priced = visitor.project()
    visitor.choose('[id="f-market.currency"]', "EUR")
    visitor.until("document.querySelectorAll('[id=\"f-market.currency-ask\"] [data-how]').length === 3")
    assert visitor.project() == priced, "never silently"
    visitor.press('[data-do="exchange-not"]')
    visitor.until("document.getElementById('f-market.currency').value === 'USD'")
    visitor.choose('[id="f-market.currency"]', "EUR")
    visitor.until("document.querySelector('[data-how=\"convert\"]')")
    visitor.browser.evaluate("""
        document.getElementById("f-market.currency-rate").value = "0.5";
        document.getElementById("f-market.currency-date").value = "2024-05-17";
    """)
    visitor.press('[data-how="convert"]')
    visitor.until("JSON.parse(JSON.parse(document.getElementById('carried').textContent).text).market.currency === 'EUR'")
    market = json.loads(visitor.project())["market"]
    assert market["prices"][0]["price"] == 6
    assert market["converted"] == {"from_currency": "USD", "rate": 0.5, "date": "2024-05-17"}
    visitor.undo()
    visitor.until("document.getElementById('f-market.currency').value === 'USD'")
    assert visitor.project() == priced


def test_a_link_never_overwrites_without_asking(visitor):
    visitor.arrive()
    visitor.say("name", "Theirs")
    visitor.say(DIAMETER, "4.5")
    code = visitor.send()["code"]
    theirs = visitor.project()
    # with nothing at hand it simply opens
    visitor.arrive(f"p={code}")
    visitor.until("document.querySelector('h1').textContent === 'Theirs'")
    visitor.saved()
    assert visitor.project() == theirs
    # with a project at hand it asks
    visitor.arrive()
    visitor.say("name", "Mine")
    visitor.saved()
    mine = visitor.project()
    visitor.come_back(f"p={code}")
    visitor.until("document.querySelectorAll('#notice-offer [data-act]').length === 3")
    assert visitor.texts("h1") == ["Mine"]
    visitor.answer("keep")
    visitor.until("!document.querySelector('#notice-offer')")
    assert visitor.project() == mine
    visitor.menu()
    visitor.look("document.querySelector('.drawer details').open = true")
    visitor.look("document.getElementById('paste-code').value = given", f"Dear neighbour,\n{code}\n")
    visitor.press('[data-do="paste-code"]')
    visitor.until("document.querySelector('#notice-offer')")
    visitor.answer("replace")
    visitor.until("document.querySelector('h1').textContent === 'Theirs'")
    visitor.undo()
    visitor.until("document.querySelector('h1').textContent === 'Mine'")
    assert visitor.project() == mine


def test_the_landowner_reads_first_and_can_come_to_edit(visitor):
    visitor.arrive()
    visitor.say("name", "Sent")
    code = visitor.send()["code"]
    visitor.arrive(f"p={code}&v=read", {**METRIC, "language": "es", "units": "us"})
    visitor.until("document.querySelector('h1').textContent === 'Sent'")
    assert visitor.look("document.querySelectorAll('.field [data-path]').length") == 0
    assert visitor.look("document.documentElement.lang") == "es"
    assert visitor.look("document.querySelectorAll('svg [data-path], svg [tabindex]').length") == 0
    assert visitor.look("document.querySelector('#sheet-landowner .sheet-body').checkVisibility()")
    visitor.press('[data-do="edit"]')
    visitor.until("document.querySelectorAll('.field [data-path]').length > 10")
    assert visitor.texts("h1") == ["Sent"]


def test_what_is_kept_and_damaged_is_told_and_left_alone(visitor):
    visitor.arrive()
    visitor.say("name", "Precious")
    visitor.saved()
    damage = """
        const base = await new Promise((done) => { const wish = indexedDB.open("foamwright.projects"); wish.onsuccess = () => done(wish.result); });
        const all = await new Promise((done) => { base.transaction("projects").objectStore("projects").getAll().onsuccess = (event) => done(event.target.result); });
        if (given) {
          const deal = base.transaction("projects", "readwrite");
          deal.objectStore("projects").put({...all[0], text: given, good: null});
          await new Promise((done) => { deal.oncomplete = done; });
        }
        base.close();
        return all.map(({id, text}) => ({id, text}));
    """
    broken = '{"format": 1, "name": "Preci'
    visitor.browser.evaluate(damage, broken)
    visitor.come_back()
    visitor.until("document.querySelector('#notice-damaged')")
    assert broken[:20] in visitor.look("JSON.parse(document.getElementById('notice-damaged-details').value).text")
    assert visitor.strip() == strip_of('{"format": 1}')
    visitor.say("name", "New one")
    visitor.saved()
    kept = visitor.browser.evaluate(damage, "")
    assert broken in [one["text"] for one in kept]
    assert len(kept) == 2


def test_a_saved_copy_of_the_page_works_again(visitor, tmp_path: Path):
    visitor.arrive()
    visitor.say("name", "Carried along")
    visitor.say(DIAMETER, "5.2")
    visitor.language("es")
    visitor.press('#sheet-glance [data-figure="blocks.count"]')
    visitor.until("document.querySelector('.drawer.why .why-value')")
    project = visitor.project()
    copy = tmp_path / "copy.html"
    copy.write_text("<!doctype html>\n" + visitor.look("document.documentElement.outerHTML"))
    visitor.browser.evaluate("localStorage.clear(); indexedDB.deleteDatabase('foamwright.projects');")
    visitor.come_back(path=copy)
    assert visitor.look("document.querySelectorAll('main, .bar, .drawer').length") == 2, "nothing stands twice"
    assert visitor.texts("h1") == ["Carried along"]
    assert visitor.project() == project
    visitor.choose("#units", "metric")
    visitor.say(DIAMETER, "5.6")
    visitor.language("ar")
    assert json.loads(visitor.project())["parts"][0]["inside_diameter_m"] == 5.6
