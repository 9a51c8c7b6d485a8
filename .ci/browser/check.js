// Start page, drawings and sheets in a real browser: they load, can be used with the keyboard
// alone, show each fault beside its place, and have no serious fault of markup or accessibility.
//
// Needs the service built, Chromium on the path (or CHROMIUM), and this folder's packages.
// Screenshots go to the folder named by SHOTS, if it is set.

import assert from "node:assert/strict";
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { createServer } from "node:net";
import { createRequire } from "node:module";
import { join } from "node:path";
import { HtmlValidate } from "html-validate";
import puppeteer from "puppeteer-core";
import { changed } from "./jobs.js";

const root = join(import.meta.dirname, "../..");
const data = (name) => readFileSync(join(root, "tests/data", `${name}.json`), "utf8");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const chromium =
  process.env.CHROMIUM || ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(existsSync);
assert.ok(chromium, "no Chromium was found; name one in CHROMIUM");

function freePort() {
  return new Promise((done) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => done(port));
    });
  });
}

const port = await freePort();
const origin = `http://127.0.0.1:${port}`;
const binary = process.env.HOOKSPAN || join(process.env.CARGO_TARGET_DIR || join(root, "target"), "debug/hookspan");
const service = spawn(binary, ["--bind", `127.0.0.1:${port}`, "--log", "error"], { stdio: "inherit" });
const browser = await puppeteer.launch({
  executablePath: chromium,
  headless: true,
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"],
});

let checks = 0;
async function check(name, work) {
  await work();
  checks += 1;
  console.log(`ok  ${name}`);
}

const kinds = { layout: "/v1/layouts", building: "/v1/buildings", recheck: "/v1/rechecks", survey: "/v1/surveys" };

async function asked(accept, { kind, body }, query = "", language = "en") {
  return fetch(`${origin}${kinds[kind]}${query}`, {
    method: "POST",
    headers: { accept, "accept-language": language, "content-type": "application/json" },
    body,
  });
}

async function shown(accept, job, query, language) {
  const reply = await asked(accept, job, query, language);
  assert.equal(reply.status, 200, await reply.clone().text());
  return reply.text();
}

const given = (kind, name) => ({ kind, name: `${kind}-${name}`, body: data(`${kind}-${name}`) });

async function shot(page, name) {
  if (!process.env.SHOTS) return;
  mkdirSync(process.env.SHOTS, { recursive: true });
  await page.screenshot({ path: join(process.env.SHOTS, `${name}.png`), fullPage: true });
}

const markup = new HtmlValidate({
  extends: ["html-validate:standard"],
  rules: {
    // Both ways are HTML: the writer of the pages chooses one, and long lines are no fault.
    "void-style": "off",
    "doctype-style": "off",
    "attribute-boolean-style": "off",
    "no-trailing-whitespace": "off",
    "long-title": "off",
    // Drawings are SVG, which has attributes and elements of its own.
    "no-inline-style": "off",
  },
});

async function valid(html) {
  const report = await markup.validateString(html);
  const said = report.results.flatMap((r) => r.messages.map((m) => `${m.ruleId} ${m.line}:${m.column} ${m.message}`));
  assert.deepEqual([...new Set(said)].slice(0, 10), []);
}

async function accessible(page) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  const grave = result.violations.filter((v) => ["serious", "critical"].includes(v.impact));
  assert.deepEqual(grave.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 160)}`), []);
  assert.ok(result.passes.length > 10, "axe looked at next to nothing");
}

// What is wrong with the labels of the drawings of a page, by the boxes the browser itself gives
// them: labels over each other, and labels that leave their drawing.
function misplaced() {
  const drawings = [...document.querySelectorAll("svg")].filter((svg) => !svg.parentElement.closest("svg"));
  let count = 0;
  const found = [];
  for (const svg of drawings) {
    const paper = svg.getBoundingClientRect();
    const scale = paper.width / svg.viewBox.baseVal.width;
    const boxes = [...svg.querySelectorAll("text")].map((text) => {
      const { left, right, top, bottom } = text.getBoundingClientRect();
      // The box of a line of text is higher than its letters.
      const [x, y] = text.hasAttribute("transform") ? [right - left, 0] : [0, bottom - top];
      return { say: text.textContent, left: left + x * 0.16, right: right - x * 0.16, top: top + y * 0.16, bottom: bottom - y * 0.16 };
    });
    count += boxes.length;
    const hair = 0.5 * scale;
    boxes.forEach((a, i) => {
      if (a.left < paper.left - hair || paper.right + hair < a.right || a.top < paper.top - hair || paper.bottom + hair < a.bottom) {
        found.push(`${a.say} leaves ${svg.getAttribute("aria-label")}`);
      }
      for (const b of boxes.slice(i + 1)) {
        if (a.left + hair < b.right && b.left + hair < a.right && a.top + hair < b.bottom && b.top + hair < a.bottom) found.push(`${a.say} | ${b.say}`);
      }
    });
  }
  return { count, drawings: drawings.length, found };
}

const widths = { desktop: { width: 1280, height: 900 }, phone: { width: 390, height: 844, isMobile: true, hasTouch: true, deviceScaleFactor: 2 } };

try {
  for (let tries = 0; ; tries += 1) {
    try { await fetch(`${origin}/readyz`); break; } catch (error) {
      if (tries > 100) throw error;
      await new Promise((done) => setTimeout(done, 100));
    }
  }
  const page = await browser.newPage();
  const elsewhere = [];
  const complaints = [];
  page.on("request", (request) => { if (!/^(data|blob|about):/.test(request.url()) && !request.url().startsWith(origin)) elsewhere.push(request.url()); });
  page.on("console", (message) => { if (message.type() === "error") complaints.push(message.text()); });
  page.on("pageerror", (error) => complaints.push(String(error)));
  const text = (selector) => page.$eval(selector, (node) => node.textContent);
  const settled = () => page.waitForFunction(() => !document.querySelector("[aria-busy=true]"));

  await check("the start page loads whole and is valid", async () => {
    await page.setViewport({ width: 1280, height: 900 });
    await page.goto(origin, { waitUntil: "networkidle0" });
    assert.match(await text("#summary"), /Incomplete/);
    assert.ok(await page.$("#drawing svg"));
    await valid(await (await fetch(origin)).text());
    await accessible(page);
    await shot(page, "page-desktop");
  });

  await check("it fits a phone without scrolling sideways, also in the dark", async () => {
    await page.setViewport({ width: 390, height: 844, isMobile: true, hasTouch: true });
    await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }]);
    await page.reload({ waitUntil: "networkidle0" });
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth));
    await accessible(page);
    await shot(page, "page-phone-dark");
    await page.emulateMediaFeatures([]);
    await shot(page, "page-phone");
    await page.setViewport({ width: 1280, height: 900 });
  });

  await check("with the keyboard alone a changed value gives a new verdict", async () => {
    await page.reload({ waitUntil: "networkidle0" });
    const focused = () => page.evaluate(() => document.activeElement.dataset.pointer || document.activeElement.id);
    for (let presses = 0; (await focused()) !== "/components/hook/resistance/lift_kn"; presses += 1) {
      assert.ok(presses < 40, "the field cannot be reached");
      await page.keyboard.press("Tab");
    }
    await page.keyboard.type("0.4");
    await page.keyboard.press("Enter");
    await settled();
    await page.waitForFunction(() => document.querySelector("#summary dd").textContent === "Fails");
    assert.match(await page.$eval("#text", (node) => node.value), /"lift_kn": 0\.4/);
    assert.match(await text("#drawing"), /loaded beyond its limit/);
    await shot(page, "page-fails");
  });

  await check("a bad value shows its problem beside the field, and the list leads to its line", async () => {
    await page.reload({ waitUntil: "networkidle0" });
    const pitch = await page.$('[data-pointer="/roof/pitch_deg"]');
    await pitch.click({ clickCount: 3 });
    await page.keyboard.type("95");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => !document.querySelector("#problems").hidden);
    assert.equal(await pitch.evaluate((node) => node.getAttribute("aria-invalid")), "true");
    assert.match(await text("#fault-0"), /95/);
    assert.match(await text("#problems li"), /Line \d+: \/roof\/pitch_deg/);
    await accessible(page);
    await shot(page, "page-problem");
    await page.focus("#problems li button");
    await page.keyboard.press("Enter");
    const chosen = await page.$eval("#text", (node) => node.value.slice(node.selectionStart, node.selectionEnd));
    assert.equal(chosen, "95");
    assert.equal(await page.evaluate(() => document.activeElement.id), "text");
  });

  await check("what is no JSON is shown with its line", async () => {
    await page.$eval("#text", (node) => { node.value = '{\n  "rules": ,\n}'; });
    await page.focus("#text");
    await page.keyboard.down("Control");
    await page.keyboard.press("Enter");
    await page.keyboard.up("Control");
    await page.waitForFunction(() => /Line 2, column/.test(document.querySelector("#problems").textContent));
  });

  await check("section, wind and language change the drawing, the sheet opens", async () => {
    await page.reload({ waitUntil: "networkidle0" });
    await page.click("#section");
    await page.waitForFunction(() => /Section through hook/.test(document.querySelector("#drawing").textContent));
    await settled();
    await page.click("#wind");
    await page.waitForFunction(() => /Wind from behind the slope/.test(document.querySelector("#drawing").textContent));
    await settled();
    await page.click("#section");
    await settled();
    await page.select("#language", "de");
    await page.waitForFunction(() => /Schnitt durch Dachhaken/.test(document.querySelector("#drawing").textContent));
    await settled();
    const opened = new Promise((done) => browser.once("targetcreated", done));
    await page.click("#sheet");
    const sheet = await (await opened).page();
    await sheet.waitForFunction(() => /Für die Montage/.test(document.body.textContent));
    await sheet.close();
  });

  // The page on the roof: at the width of a phone, with and without a network.
  const roofPage = async (language) => {
    const context = await browser.createBrowserContext();
    const phone = await context.newPage();
    phone.on("request", (request) => { if (!/^(data|blob|about):/.test(request.url()) && !request.url().startsWith(origin)) elsewhere.push(request.url()); });
    await phone.setViewport(widths.phone);
    await phone.goto(`${origin}/roof/${language}`, { waitUntil: "networkidle0" });
    const read = (selector) => phone.$eval(selector, (node) => node.textContent);
    const present = () => phone.waitForFunction(() => document.querySelector("#verdict").className === "" && document.querySelector("#word").textContent);
    const enter = async (id, value) => {
      await phone.focus(`#${id}`);
      await phone.$eval(`#${id}`, (node) => node.select());
      await phone.keyboard.type(value);
    };
    // Of the page and of its worker, over one session each: what one has cut off no other can give back.
    const sessions = new Map();
    const network = async (there) => {
      for (const target of context.targets()) {
        if (!["page", "service_worker"].includes(target.type())) continue;
        if (!sessions.has(target)) sessions.set(target, await target.createCDPSession());
        await sessions.get(target).send("Network.enable");
        await sessions.get(target).send("Network.emulateNetworkConditions", { offline: !there, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });
      }
    };
    return { context, phone, read, present, enter, network };
  };
  // Fingers in gloves, eyes in the sun, and nothing beside the screen.
  const fitsHand = async (phone) => {
    const small = await phone.evaluate(() => {
      const seen = (node) => node.getClientRects().length > 0;
      const target = (node) => node.closest("label.pick, label.file") || node;
      const found = [...document.querySelectorAll("main button, main input, main select, main textarea, main summary, nav button, nav select, nav a, header a")].filter(seen);
      const low = found.filter((node) => { const { width, height } = target(node).getBoundingClientRect(); return Math.min(width, height) < 48; });
      const fine = found.filter((node) => parseFloat(getComputedStyle(node).fontSize) < 16);
      return [...low, ...fine].map((node) => node.id || node.outerHTML.slice(0, 60));
    });
    assert.deepEqual(small, []);
    assert.ok(await phone.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), "it scrolls sideways");
  };
  const words = { en: { holds: /Holds|Fails|Incomplete/, unsent: /Not sent yet/, old: /Last verdict, before/ }, de: { holds: /erfüllt|Nicht eingehalten|Unvollständig/, unsent: /Noch nicht gesendet/, old: /Letztes Ergebnis, vor/ } };
  for (const language of ["en", "de"]) {
    await check(`on the roof, ${language}: readings are judged, kept without a network and sent again`, async () => {
      const { context, phone, read, present, enter, network } = await roofPage(language);
      await valid(await (await fetch(`${origin}/roof/${language}`)).text());
      await accessible(phone);
      await fitsHand(phone);
      await shot(phone, `roof-begin-${language}`);
      await phone.click("#example");
      await present();
      assert.match(await read("#word"), words[language].holds);
      await accessible(phone);
      await fitsHand(phone);
      await shot(phone, `roof-work-${language}`);

      // What is entered is in the verdict that follows.
      const before = await read("#told");
      await enter("clearance_mm", "9,5");
      await present();
      await phone.waitForFunction((told) => document.querySelector("#told").textContent !== told, {}, before);
      await enter("level_mm", "much");
      assert.equal(await phone.$eval("#level_mm", (node) => node.getAttribute("aria-invalid")), "true");
      await enter("level_mm", "0");
      await phone.click("[name=rafter_condition][value=rotten]");
      await present();
      assert.match(await read("#word"), /✗/);
      await shot(phone, `roof-fails-${language}`);

      await phone.waitForFunction(() => navigator.serviceWorker.controller);
      await network(false);
      await phone.click("[name=rafter_condition][value=sound]");
      await phone.click("[data-tick=screwed]");
      await phone.waitForFunction(() => document.querySelector("#verdict").className === "old");
      await new Promise((done) => setTimeout(done, 1500));
      assert.match(await read("#state"), words[language].unsent);
      assert.match(await read("#word"), words[language].old);
      assert.equal(await read("#headline"), "", "nothing of it is shown as the present");
      await accessible(phone);
      await shot(phone, `roof-without-network-${language}`);
      await phone.reload();
      await phone.waitForFunction(() => !document.querySelector("#work").hidden);
      assert.equal(await phone.$eval("[name=rafter_condition][value=sound]", (node) => node.checked), true);
      assert.equal(await phone.$eval("[data-tick=screwed]", (node) => node.checked), true);
      assert.equal(await phone.$eval("#clearance_mm", (node) => node.value), "9,5");
      assert.match(await read("#word"), words[language].old);
      await network(true);
      await phone.evaluate(() => window.dispatchEvent(new Event("online")));
      await present();
      assert.doesNotMatch(await read("#word"), words[language].old);

      // Moving on keeps what was entered, and the record has it.
      const [first, second] = await phone.$$eval("#hooks option", (all) => all.slice(0, 2).map((node) => node.textContent.replace("✓ ", "")));
      await phone.click("#next");
      assert.ok((await read("#hook-title")).includes(second));
      await phone.click("#previous");
      assert.ok((await read("#hook-title")).includes(first));
      const file = await phone.evaluate(() => recordFile());
      assert.equal(file.verdict_is_of_all_entered, true);
      assert.deepEqual(file.hooks[0].ticks, { screwed: true });
      assert.equal(file.survey.measured.hooks.find((hook) => hook.id === first).clearance_mm, 9.5);
      const again = await fetch(`${origin}/v1/surveys`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(file.survey) });
      assert.equal((await again.json()).verdict, file.verdict.verdict);
      await phone.$eval("#record-title", (node) => node.scrollIntoView());
      await shot(phone, `roof-record-${language}`);
      await context.close();
    });
  }

  // Where nothing is measured, the verdict is that of a plan; where something cannot be read, there is none.
  const planned = JSON.parse(data("layout-terrace"));
  planned.built = JSON.parse(await shown("application/json", given("layout", "terrace"))).record.built;
  const everywhere = (of) => ({ ...planned, measured: { hooks: planned.built.hooks.map(({ id }) => ({ id, clearance_mm: 8, level_mm: 0, ...of(id) })) } });
  const [firstHook] = planned.built.hooks.map(({ id }) => id);
  const begun = async (job, language = "en") => {
    const roof = await roofPage(language);
    await roof.phone.evaluate((text) => begin(text), JSON.stringify(job));
    await roof.present();
    return roof;
  };

  await check("on the roof a plan that holds is no roof that holds", async () => {
    const { context, phone, read } = await begun(planned);
    const hooks = planned.built.hooks.length;
    assert.match(await read("#word"), /^So far: ✓/);
    assert.ok((await read("#unmeasured")).includes(` ${hooks} / ${hooks}.`), await read("#unmeasured"));
    assert.equal((await phone.evaluate(() => recordFile())).not_measured.length, hooks);
    await fitsHand(phone);
    await accessible(phone);
    await shot(phone, "roof-planned-en");
    await context.close();
    const whole = await begun(everywhere(() => ({})));
    assert.match(await whole.read("#word"), /^✓ Holds/);
    assert.equal(await whole.read("#live"), await whole.read("#word"));
    assert.equal(await whole.read("#unmeasured"), "");
    await whole.context.close();
  });

  for (const [text, language] of [["1 240", "en"], ["1.240", "de"], ["1,240", "en"], ["12,", "de"]]) {
    await check(`on the roof "${text}" is no number, and nothing is judged with it`, async () => {
      const { context, phone, read, present, enter } = await begun(everywhere(() => ({})), language);
      await enter("rafter_x_mm", text);
      await phone.waitForFunction(() => document.querySelector("#verdict").className === "old");
      await phone.click("#next");
      await new Promise((done) => setTimeout(done, 1500));
      assert.equal(await phone.$eval("#verdict", (node) => node.className), "old");
      assert.ok((await read("#state")).includes(firstHook), await read("#state"));
      assert.doesNotMatch(await read("#live"), /✓/);
      const file = await phone.evaluate(() => recordFile());
      assert.equal(file.verdict_is_of_all_entered, false);
      assert.deepEqual(file.hooks[0].no_numbers, { rafter_x_mm: text });
      await phone.click("#sheet");
      assert.ok((await read("#record-state")).includes(firstHook));
      if (text === "1.240") { await accessible(phone); await shot(phone, "roof-no-number-de"); }
      await phone.click("#previous");
      await enter("rafter_x_mm", "1000");
      await present();
      await context.close();
    });
  }

  await check("on the roof what a job says of how a reading is known is sent with it, until it is measured", async () => {
    const job = everywhere((id) => (id === firstHook ? { level_mm: 0.125, provenance: { clearance: "assumed" } } : {}));
    const { context, phone, read, present, enter } = await begun(job);
    assert.deepEqual((await phone.evaluate(() => measured())).hooks[0], job.measured.hooks[0]);
    const told = await (await asked("application/json", { kind: "survey", body: JSON.stringify(job) })).json();
    assert.equal((await phone.evaluate(() => recordFile())).verdict.verdict, told.verdict);
    assert.equal(told.verdict, "incomplete");
    assert.match(await read("#word"), /^\?/);
    await enter("clearance_mm", "8");
    await present();
    assert.match(await read("#word"), /^✓/);
    await context.close();
  });

  await check("on the roof two pages of one job do not write over each other", async () => {
    const { context, phone, enter } = await begun(planned);
    const other = await context.newPage();
    await other.setViewport(widths.phone);
    await other.goto(`${origin}/roof/de`, { waitUntil: "networkidle0" });
    // Each page is told in its own language, also where nothing was entered since.
    await other.waitForFunction(() => document.querySelector("#headline").textContent.startsWith("Nachweis"));
    await phone.bringToFront();
    await enter("clearance_mm", "7");
    await other.bringToFront();
    await other.waitForFunction(() => document.querySelector("#clearance_mm").value === "7");
    await other.focus("#level_mm");
    await other.keyboard.type("2");
    await phone.waitForFunction(() => document.querySelector("#level_mm").value === "2");
    assert.deepEqual((await phone.evaluate(() => measured())).hooks, [{ id: firstHook, clearance_mm: 7, level_mm: 2 }]);
    await context.close();
  });

  await check("on the roof a file without hooks is said to be one", async () => {
    const { context, phone, read } = await roofPage("en");
    for (const built of [{}, { rails: [], hooks: [] }, { rails: [{ id: "A1" }], hooks: [null] }]) {
      await phone.evaluate((text) => begin(text), JSON.stringify({ ...planned, built }));
      assert.match(await read("#begin-state"), /no rails and hooks/);
    }
    assert.equal(await phone.evaluate(() => localStorage.getItem("hookspan.roof")), null);
    await context.close();
  });

  await check("on the roof tiles that are ticked as closed too soon are named at every hook", async () => {
    const { context, phone, read, present } = await begun(everywhere(() => ({})));
    await phone.click("[data-tick=closed]");
    assert.equal(await read("#closed-too-soon"), "");
    await phone.click("#next");
    await phone.click("[name=rafter_condition][value=rotten]");
    await phone.waitForFunction((id) => document.querySelector("#closed-too-soon").textContent.includes(id), {}, firstHook);
    await present();
    assert.match(await read("#word"), /^✗/);
    assert.match(await read("#closed-too-soon"), new RegExp(`should still be open: ${firstHook}`));
    assert.match(await read("#live"), /^✗/);
    await context.close();
  });

  await check("on the roof the page opens from where it began, and where a gateway says that nothing is there", async () => {
    const { phone, context } = await begun(planned);
    await phone.waitForFunction(() => navigator.serviceWorker.controller);
    const worker = await (await context.waitForTarget((target) => target.type() === "service_worker")).worker();
    // As the worker sees a gateway without a service behind it.
    await worker.evaluate(() => { self.fetch = async () => new Response("nothing is there", { status: 502 }); });
    for (const path of ["/roof", "/roof/de"]) {
      await phone.goto(origin + path);
      await phone.waitForFunction(() => !document.querySelector("#work").hidden);
      assert.match(phone.url(), /\/roof\/(en|de)$/);
    }
    await context.close();
  });

  await check("on the roof a job is begun, measured and left with the keyboard alone", async () => {
    const { context, phone, read, present } = await roofPage("en");
    const reach = async (id) => {
      for (let presses = 0; (await phone.evaluate(() => document.activeElement.id)) !== id; presses += 1) {
        assert.ok(presses < 60, `${id} cannot be reached`);
        await phone.keyboard.press("Tab");
      }
    };
    await reach("example");
    await phone.keyboard.press("Enter");
    await present();
    await reach("clearance_mm");
    await phone.keyboard.press("End");
    await phone.keyboard.type("1");
    await present();
    await reach("next");
    const before = await read("#hook-title");
    await phone.keyboard.press("Enter");
    assert.notEqual(await read("#hook-title"), before);
    assert.equal(await phone.evaluate(() => document.activeElement.id), "hook-title");
    await context.close();
  });

  assert.deepEqual(elsewhere, [], "something was fetched from elsewhere");
  // The browser reports the refusals that were asked for above; nothing else may be among them.
  assert.deepEqual(complaints.filter((say) => !/status of 4\d\d/.test(say)), []);

  // A check that cannot fail is none.
  await check("labels over each other and beyond the paper are found", async () => {
    const label = (x, say) => `<text x="${x}" y="50" font-size="14">${say}</text>`;
    await page.setContent(`<svg viewBox="0 0 200 100" width="200" height="100" aria-label="test">${label(10, "one")}${label(20, "two")}${label(190, "three")}</svg>`);
    const { found } = await page.evaluate(misplaced);
    assert.deepEqual(found, ["one | two", "three leaves test"]);
  });

  const jobs = [
    ...["barn", "cottage", "stable"].map((name) => given("layout", name)),
    given("building", "gable"),
    given("building", "farmhouse"),
    given("recheck", "barn"),
    given("survey", "barn"),
  ];
  const examples = jobs.length;
  const built = JSON.parse(data("recheck-barn"));
  for (const hook of built.built.hooks) hook.id += "-named-on-the-second-visit";
  jobs.push({ kind: "recheck", name: "recheck-long-names", body: JSON.stringify(built) });
  const drawnFrom = ["barn", "cottage"].map((name) => JSON.parse(data(`layout-${name}`)));
  for (let seed = 1; jobs.length < examples + 1 + 12; seed += 1) {
    assert.ok(seed < 40, "too few of the jobs are taken");
    const body = JSON.stringify(changed(drawnFrom[seed % 2], seed));
    const job = { kind: "layout", name: `seed-${seed}`, body };
    const reply = await asked("image/svg+xml", job);
    if (reply.status === 200) jobs.push(job);
    else assert.equal(reply.status, 422, await reply.text());
  }
  const views = { slope: "", section: "?view=section", wind: "?view=wind" };
  for (const job of jobs) {
    for (const language of ["en", "de"]) {
      await check(`drawings and sheet of ${job.name}, ${language}: no label over another or off the paper`, async () => {
        const files = [];
        for (const [view, query] of Object.entries(views)) files.push([view, await shown("image/svg+xml", job, query, language)]);
        const sheet = await shown("text/html", job, "", language);
        for (const [device, viewport] of Object.entries(widths)) {
          await page.setViewport(viewport);
          for (const [view, file] of files) {
            await page.setContent(`<meta name="viewport" content="width=device-width"><style>svg { max-width: 100%; height: auto }</style>${file.replace(/^<\?xml.*\?>/, "")}`);
            // No smaller than on the pages of the service.
            await page.$eval("svg", (svg) => { svg.style.minWidth = `${0.7 * svg.viewBox.baseVal.width}px`; });
            const { count, found } = await page.evaluate(misplaced);
            assert.ok(count > 15, `${view}: only ${count} labels`);
            assert.deepEqual(found, [], `${view}, ${device}`);
            await shot(page, `${view}-${job.name}-${language}-${device}`);
          }
          await page.setContent(sheet);
          const { drawings, found } = await page.evaluate(misplaced);
          assert.ok(drawings > 4, `the sheet has only ${drawings} drawings`);
          assert.deepEqual(found, [], `sheet, ${device}`);
          assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth + 1), `the sheet scrolls sideways, ${device}`);
        }
      });
    }
  }
  await page.setViewport(widths.desktop);

  for (const [job, language] of ["en", "de"].flatMap((language) => jobs.slice(0, examples).map((job) => [job, language]))) {
    await check(`the sheet of ${job.name} is valid, accessible and prints, ${language}`, async () => {
      const html = await shown("text/html", job, "", language);
      await valid(html);
      const sheet = await browser.newPage();
      await sheet.setViewport({ width: 1280, height: 900 });
      await sheet.setContent(html);
      await accessible(sheet);
      await shot(sheet, `sheet-${job.name}-${language}-desktop`);
      const pdf = await sheet.pdf({ preferCSSPageSize: true, path: process.env.SHOTS && join(process.env.SHOTS, `sheet-${job.name}-${language}.pdf`) });
      assert.ok(pdf.length > 20_000);
      // A page turned into a phone's is loaded anew, and what was set is gone.
      await sheet.setViewport({ width: 390, height: 844, isMobile: true });
      await sheet.setContent(html);
      assert.ok((await sheet.$$("tr")).length > 40);
      assert.ok(await sheet.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth + 1));
      await shot(sheet, `sheet-${job.name}-${language}-phone`);
      await sheet.close();
    });
  }

  // What many answers come to, an event and a line that is no answer among them.
  const event = { ...JSON.parse(data("recheck-barn")), event: { snow_on_roof_kn_per_m2: 3 } };
  const bears = { ...JSON.parse(data("recheck-terrace")), capacity: true };
  const batch = [
    ...jobs.slice(0, examples).map(({ kind, name, body }) => ({ id: name, kind, job: JSON.parse(body) })),
    { id: "snow", kind: "recheck", job: event },
    { id: "bears", kind: "recheck", job: bears },
    { id: "odd", kind: "recheck", job: {} },
  ];
  const answered = spawnSync(binary, ["solve", "--jobs", "-"], { input: batch.map((line) => `${JSON.stringify(line)}\n`).join(""), maxBuffer: 1 << 26 });
  assert.equal(answered.status, 1, String(answered.stderr));
  for (const language of ["en", "de"]) {
    await check(`the report on many answers is valid, accessible and prints, ${language}`, async () => {
      const made = spawnSync(binary, ["report", "-", "--html", "--lang", language], { input: `${answered.stdout}no answer\n`, maxBuffer: 1 << 26 });
      assert.equal(made.status, 1, String(made.stderr));
      const html = String(made.stdout);
      await valid(html);
      const report = await browser.newPage();
      for (const [device, viewport] of Object.entries(widths)) {
        await report.setViewport(viewport);
        await report.setContent(html);
        const { drawings, count, found } = await report.evaluate(misplaced);
        assert.ok(drawings > 2 && count > 40, `${drawings} plots with ${count} labels`);
        assert.deepEqual(found, [], device);
        assert.ok(await report.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth + 1), `it scrolls sideways, ${device}`);
        await shot(report, `report-${language}-${device}`);
      }
      await report.setViewport({ width: 1280, height: 900 });
      await report.setContent(html);
      await accessible(report);
      assert.ok((await report.pdf({ preferCSSPageSize: true })).length > 20_000);
      await report.close();
    });
  }
  console.log(`${checks} checks passed`);
} finally {
  await browser.close();
  service.kill();
}
