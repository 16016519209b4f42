"""Calls to an engine that runs: faults are answers, the newest wins, and what hangs can be ended."""


def test_an_exception_is_an_answer(engine_page):
    problem = engine_page.evaluate("""
        try { await probe.call("probe_python", {code: "1 / 0"}); } catch (problem) { return problem; }
    """)
    assert problem["code"] == "engine_fault"
    assert "ZeroDivisionError" in problem["params"]["detail"]
    assert engine_page.evaluate('return (await probe.call("hello", {languages: []})).version')


def test_an_unknown_call_is_an_answer(engine_page):
    problem = engine_page.evaluate('try { await probe.call("nothing_such"); } catch (problem) { return problem; }')
    assert set(problem) == {"code", "path", "params"}


def test_python_is_out_of_reach_where_nobody_asked(engine_page):
    """The door that these tests use is shut in an engine that the page itself boots."""
    problem = engine_page.evaluate("""
        const engine = await Foamwright.boot();
        try { await engine.call("probe_python", {code: "1 + 1"}); return null; }
        catch (problem) { return problem; }
        finally { engine.end(); }
    """)
    assert problem is not None


def test_the_newest_wins(engine_page):
    """Of five calls on one channel the first is under way, the next three are overtaken, the last one answers."""
    told = engine_page.evaluate("""
        const asked = [];
        for (let i = 0; i < 5; i++) {
          asked.push(probe.latest("numbers", "probe_python", {code: `import builtins
builtins.asked = getattr(builtins, "asked", 0) + 1
${i}`}));
        }
        const answers = await Promise.all(asked);
        const computed = await probe.call("probe_python", {code: "import builtins\\nbuiltins.__dict__.pop('asked')"});
        return {answers: answers.map((answer) => answer ?? null), computed};
    """)
    assert told["answers"] == [None, None, None, None, 4]
    assert told["computed"] == 2


def test_channels_do_not_overtake_each_other(engine_page):
    told = engine_page.evaluate("""
        return Promise.all(["a", "b"].map((name) => probe.latest(name, "probe_python", {code: `"${name}"`})));
    """)
    assert told == ["a", "b"]


def test_what_hangs_can_be_ended(engine_page):
    told = engine_page.evaluate("""
        const engine = await Foamwright.boot({probe: true});
        const hung = engine.call("probe_python", {code: "while True: pass"}).catch((problem) => problem.code);
        await engine.restart();
        const told = {hung: await hung, hello: await engine.call("hello", {languages: []})};
        engine.end();
        return told;
    """)
    assert told["hung"] == "engine_restarted"
    assert told["hello"]["version"]


def test_the_protocol_names_what_the_engine_answers():
    import re
    from pathlib import Path

    from foamwright import page

    source = (Path(__file__).resolve().parents[2] / "web" / "protocol.js").read_text()
    listed = re.search(r"OPS = Object\.freeze\(\[(.*?)\]\)", source, re.S)[1]
    assert set(re.findall(r'"(\w+)"', listed)) == set(page._CALLS)


def test_a_browser_that_cannot_says_so(engine_page):
    problem = engine_page.evaluate("""
        const { DecompressionStream } = window;
        try {
          window.DecompressionStream = undefined;
          await Foamwright.boot({patience: {}});
        } catch (problem) {
          return problem;
        } finally {
          window.DecompressionStream = DecompressionStream;
        }
    """)
    assert problem == {"code": "browser_unable", "path": "", "params": {"lacks": "DecompressionStream"}}
