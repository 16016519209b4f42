// node opens.mjs BROWSER PAGE: open the page in a Chromium, and fail where it asks for anything or does not come to life.

import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [browser, page] = process.argv.slice(2);
const SECONDS = 120;
const profile = mkdtempSync(join(tmpdir(), "foamwright-"));
const shown = spawn(
  browser,
  [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", `--user-data-dir=${profile}`, "--remote-debugging-pipe",
  ],
  { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] },
);

const waiting = new Map();
const heard = [];
let rest = "";
let next = 1;

shown.stdio[4].on("data", (chunk) => {
  const messages = (rest + chunk).split("\0");
  rest = messages.pop();
  for (const message of messages.map((text) => JSON.parse(text))) {
    if (message.id) waiting.get(message.id)(message);
    else heard.push(message);
  }
});

function send(method, params = {}, sessionId) {
  const id = next++;
  shown.stdio[3].write(`${JSON.stringify({ id, method, params, sessionId })}\0`);
  return new Promise((resolve, reject) => {
    waiting.set(id, ({ result, error }) => (error ? reject(new Error(`${method}: ${error.message}`)) : resolve(result)));
  });
}

async function open() {
  const { targetId } = await send("Target.createTarget", { url: "about:blank" });
  const { sessionId } = await send("Target.attachToTarget", { targetId, flatten: true });
  await send("Network.enable", {}, sessionId);
  await send("Target.setAutoAttach", { autoAttach: true, waitForDebuggerOnStart: false, flatten: true }, sessionId);
  const address = pathToFileURL(page).href;
  await send("Page.navigate", { url: address }, sessionId);
  const begun = performance.now();
  for (;;) {
    const { result } = await send("Runtime.evaluate", { expression: "document.documentElement.dataset.live ?? ''" }, sessionId);
    if (result.value === "1") break;
    if (performance.now() - begun > SECONDS * 1000) throw new Error(`it did not come to life in ${SECONDS} s`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  const asked = heard
    .filter(({ method }) => method === "Network.requestWillBeSent")
    .map(({ params }) => params.request.url)
    .filter((url) => url !== address && !/^(blob|data):/.test(url));
  if (asked.length) throw new Error(`it asks for ${asked.join(", ")}`);
  return ((performance.now() - begun) / 1000).toFixed(1);
}

let code = 0;
try {
  console.log(`comes to life in ${await open()} s and asks for nothing`);
} catch (error) {
  console.error(error.message);
  code = 1;
} finally {
  shown.kill();
  await new Promise((resolve) => shown.once("exit", resolve));
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
}
process.exit(code);
