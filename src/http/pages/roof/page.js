"use strict";
// The page on the roof. It keeps a job with what was measured, ticked and noted on the phone, sends the readings as a
// survey whenever something changed and there is a network, and shows a verdict as the present one only while it is
// that of everything entered.

const byId = (id) => document.getElementById(id);
const say = JSON.parse(byId("texts").textContent);
const language = document.documentElement.lang;
const PLACE = "hookspan.roof";
const KEY = "hookspan.roof.key";
const WAIT_MS = 500;
const AGAIN_MS = 10000;
// Longer than the service takes for a job. A network that is nearly gone may never answer at all.
const LONGEST_MS = 30000;
const key = byId("key");
const readings = [...document.querySelectorAll("[data-reading]")];
const conditions = [...document.querySelectorAll("[name=rafter_condition]")];
const ticks = [...document.querySelectorAll("[data-tick]")];

// job: what a survey asks besides readings. revision: counts what was entered. answered: the last answer, and the
// revision it is of. refused: why the service takes nothing of this revision.
let work = null;
let underWay = false;
let waiting = 0;
// What this page last wrote to, or read from, the phone: anything else there is by another page of the same job.
let keptHere = null;

function element(name, ...content) {
  const made = document.createElement(name);
  made.append(...content);
  return made;
}

// What is on the phone; a browser may have been told to keep nothing.
function stored(place) {
  try { return localStorage.getItem(place); } catch { return null; }
}

function load() {
  keptHere = stored(PLACE);
  try { return JSON.parse(keptHere); } catch { return null; }
}

function keep() {
  const text = JSON.stringify(work);
  try {
    localStorage.setItem(PLACE, text);
    keptHere = text;
    byId("kept").textContent = "";
  } catch {
    byId("kept").textContent = say.not_kept;
  }
}

const time = (at) => new Date(at).toLocaleString(language, { day: "numeric", month: "numeric", hour: "2-digit", minute: "2-digit" });
const figure = (value) => String(Math.round(value * 10) / 10).replace(".", language === "de" ? "," : ".");
const stack = (packers) => packers.length ? packers.map(figure).join(" + ") + " mm" : say.none;

// Takes over what another page of the same job has kept on this phone since, so that neither writes over the other.
function takeOver() {
  const there = stored(PLACE);
  if (there === keptHere) return false;
  if (there === null) { location.reload(); return true; }
  work = load();
  show(work.at, false);
  return true;
}

// A number as people write it: with a comma or a point, a sign, spaces around. NaN where it is none, and where it may
// be another: 1.240 is one and a bit to some, more than a thousand to others. What came with the job is one already.
function number(text) {
  if (typeof text === "number") return text;
  const plain = text.trim().replace(",", ".").replace("−", "-");
  return /^[+-]?\d+(\.\d{1,2})?$/.test(plain) ? Number(plain) : NaN;
}

const isText = (member) => member === "rafter_condition";
const isBlank = (text) => typeof text === "string" && text.trim() === "";
const isRead = ([member, text]) => isText(member) || isBlank(text) || !Number.isNaN(number(text));

const hookAt = (index) => work.job.built.hooks[index];
const entered = (id) => (work.entered[id] ||= { readings: {}, ticks: {}, photos: [], note: "" });

// Hooks at which something was entered that is no number.
const unread = () => Object.entries(work.entered).filter(([, of]) => !Object.entries(of.readings).every(isRead)).map(([id]) => id);

// Only what was measured is sent: a field that is blank is left out. While there is one that is no number, nothing is
// sent at all.
function measured() {
  const hooks = [];
  for (const [id, of] of Object.entries(work.entered)) {
    const told = {};
    for (const [member, text] of Object.entries(of.readings)) {
      if (isBlank(text) || !isRead([member, text])) continue;
      told[member] = isText(member) ? text : number(text);
    }
    const known = Object.keys(of.provenance || {}).length ? { provenance: of.provenance } : {};
    if (Object.keys(told).length) hooks.push({ id, ...told, ...known });
  }
  return { hooks };
}

const request = () => JSON.stringify({ ...work.job, measured: measured() });

// Refusals are problems (RFC 9457); everything else is no answer, and is tried again.
async function ask(path, accept, body) {
  const patience = new AbortController();
  const late = setTimeout(() => patience.abort(), LONGEST_MS);
  try {
    return await replied(path, accept, body, patience.signal);
  } finally {
    clearTimeout(late);
  }
}

async function replied(path, accept, body, signal) {
  const reply = await fetch(path, {
    method: "POST",
    signal,
    headers: { accept, "accept-language": language, "content-type": "application/json", ...(key.value && { authorization: "Bearer " + key.value }) },
    body,
  });
  if (reply.ok) return await (accept === "text/html" ? reply.text() : reply.json());
  const problem = await reply.json();
  // Whoever is told to come back later, or to a service that is not well, tries again.
  if (reply.status < 500 && reply.status !== 408 && reply.status !== 429) throw problem;
  throw new Error(problem.title);
}

const faultsOf = (problem) => (problem.errors || []).map((fault) => fault.detail).concat(problem.errors ? [] : [problem.detail || problem.title]);

// Something was entered that is no part of a survey.
function touched() {
  work.changed = Date.now();
  keep();
}

function changed() {
  work.revision += 1;
  work.refused = null;
  touched();
  showVerdict();
  clearTimeout(waiting);
  waiting = setTimeout(send, WAIT_MS);
}

// One at a time, the latest wins.
async function send() {
  if (!work || underWay || isToldHere() || work.refused || unread().length) return;
  const of = work;
  const revision = work.revision;
  underWay = true;
  showVerdict();
  try {
    const answer = await ask("/v1/surveys", "application/json", request());
    const { verdict, headline, causes, surveyed, to_measure, suggestion, record } = answer;
    of.answered = { revision, language, at: Date.now(), verdict, headline, causes, surveyed, to_measure, suggestion, record };
    of.refused = null;
  } catch (problem) {
    if (!(problem instanceof Error) && revision === of.revision) of.refused = faultsOf(problem);
  } finally {
    underWay = false;
  }
  // Another page may have kept more in the meantime: then this answer is not of all of it.
  if (of !== work || takeOver()) return;
  keep();
  showVerdict();
  showTold();
  if (revision !== work.revision) { clearTimeout(waiting); waiting = setTimeout(send, WAIT_MS); }
}

const isPresent = () => Boolean(work.answered) && work.answered.revision === work.revision && unread().length === 0;
const isToldHere = () => isPresent() && work.answered.language === language;
const unmeasured = (answered) => answered.to_measure.flatMap((of) => of.hooks);
const isGood = (verdict) => verdict === "holds" || verdict === "holds_with_warnings";

// The old verdict is never shown as the present one.
function showVerdict() {
  const { answered, refused } = work;
  const present = isPresent();
  const told = isToldHere();
  const strange = unread();
  byId("verdict").className = present ? "" : "old";
  let state = say.not_sent;
  if (strange.length) state = say.unread + " " + strange.join(", ") + ".";
  else if (present) state = say.sent + " " + time(answered.at) + ".";
  else if (refused) state = say.refused;
  else if (underWay) state = say.sending;
  byId("state").textContent = state;
  // A plan that holds is no roof that holds: what was not measured is judged as planned.
  const left = present ? unmeasured(answered).length : 0;
  const soFar = left && isGood(answered.verdict) ? say.so_far + " " : "";
  const word = answered && (present ? soFar : say.before_these + " " + time(answered.at) + ": ") + say[answered.verdict];
  byId("word").textContent = word || say.no_verdict;
  byId("unmeasured").textContent = left ? say.not_measured + " " + left + " / " + work.job.built.hooks.length + ". " + say.as_planned : "";
  byId("live").textContent = present ? word : say.not_judged;
  byId("live").className = present ? "" : "old";
  byId("headline").textContent = told ? answered.headline : "";
  const lines = refused && !present ? refused : [];
  const causes = told ? answered.causes.filter((cause) => cause.severity !== "notice").map((cause) => cause.line) : [];
  const list = element("ul", ...[...lines, ...causes].map((line) => element("li", line)));
  const count = list.childElementCount;
  byId("reasons-title").textContent = say.reasons + " (" + count + ")";
  byId("reasons-list").replaceChildren(list);
  byId("reasons").hidden = count === 0;
  // Why it takes nothing has to be seen at once; other reasons would push the hook off the screen.
  if (lines.length) byId("reasons").open = true;
}

// What the service says of the hook that is worked on, and of all. What it said before the last entry stays away.
function showTold() {
  const { id, rail } = hookAt(work.at);
  const answered = isPresent() ? work.answered : null;
  const along = answered && answered.surveyed.find((of) => of.rail === rail);
  const setting = along && along.hooks.find((of) => of.id === id);
  const rows = [
    [say.packers_now, setting ? stack(setting.packers_mm) : say.not_yet],
    [say.slot_now, setting ? figure(setting.slot_mm) + " mm" : say.not_yet],
  ];
  const told = [element("dl", ...rows.flatMap(([name, value]) => [element("dt", name), element("dd", value)]))];
  if (along) told.push(element("p", along.may_close ? say.may_close : say.stays_open));
  const next = answered && unmeasured(answered).find((of) => of.id !== id);
  if (next) {
    const go = element("button", say.next_to_measure + ": " + next.id);
    go.type = "button";
    go.id = "to-measure";
    go.addEventListener("click", () => show(work.job.built.hooks.findIndex((hook) => hook.id === next.id), true));
    told.push(go);
  }
  byId("told").replaceChildren(...told);
  showClosed(answered);
  const suggested = answered && answered.suggestion;
  const lines = suggested
    ? [
        ...suggested.take_off.map((hook) => say.take_off + " " + hook),
        ...suggested.refit.map((foot) => foot.hook + ": " + say.set_anew + " " + stack(foot.packers_mm) + ", " + figure(foot.screw_length_mm) + " mm"),
        ...suggested.add.map((hook) => say.add + ": " + hook.rail + ", " + say.rafter + " " + (hook.rafter + 1) + ", x " + figure(hook.x_mm) + " mm"),
      ]
    : [];
  const help = lines.length ? [element("h3", say.suggested + ": " + say[suggested.verdict]), element("ul", ...lines.map((line) => element("li", line)))] : [];
  byId("suggested").replaceChildren(...help);
}

// Hooks that are ticked as closed though their rail is to stay open, or though nobody can say yet. Of all rails: a
// reading at one hook may be what keeps another open.
function showClosed(answered) {
  const closed = work.job.built.hooks.filter(({ id }) => work.entered[id] && work.entered[id].ticks.closed);
  const along = (rail) => answered && answered.surveyed.find((of) => of.rail === rail);
  const early = closed.filter(({ rail }) => along(rail) && !along(rail).may_close);
  const unsure = closed.filter(({ rail }) => !along(rail));
  const line = (text, hooks) => (hooks.length ? [text + " " + hooks.map(({ id }) => id).join(", ") + "."] : []);
  byId("closed-too-soon").textContent = [...line(say.closed_too_soon, early), ...line(say.closed_unsure, unsure)].join(" ");
}

function showPhotos() {
  const of = entered(hookAt(work.at).id);
  byId("photos").replaceChildren(...of.photos.map((name, index) => {
    const remove = element("button", say.remove + ": " + name);
    remove.type = "button";
    remove.addEventListener("click", () => { of.photos.splice(index, 1); touched(); showPhotos(); });
    return element("li", remove);
  }));
}

// A mark before each hook at which something was measured.
function listHooks() {
  byId("hooks").replaceChildren(...work.job.built.hooks.map(({ id }, index) => {
    const of = work.entered[id];
    const begun = of && (Object.values(of.readings).some((text) => !isBlank(text)) || Object.values(of.ticks).some((tick) => tick));
    const option = element("option", (begun ? "✓ " : "") + id);
    option.value = String(index);
    option.selected = index === work.at;
    return option;
  }));
}

function show(index, focus) {
  work.at = Math.max(0, Math.min(index, work.job.built.hooks.length - 1));
  keep();
  const hook = hookAt(work.at);
  const of = entered(hook.id);
  byId("begin").hidden = true;
  byId("work").hidden = false;
  byId("steps").hidden = false;
  byId("hook-title").textContent = say.hook + " " + hook.id + " " + say.of_rail + " " + hook.rail;
  const planned = [[say.planned_x, figure(hook.x_mm) + " mm"], [say.planned_packers, stack(hook.packers_mm || [])]];
  byId("planned").replaceChildren(...planned.flatMap(([name, value]) => [element("dt", name), element("dd", value)]));
  for (const input of readings) {
    const reading = of.readings[input.dataset.reading] ?? "";
    input.value = typeof reading === "number" ? String(reading).replace(".", language === "de" ? "," : ".") : reading;
    judge(input, reading);
  }
  for (const input of conditions) input.checked = input.value === (of.readings.rafter_condition || "");
  for (const input of ticks) input.checked = Boolean(of.ticks[input.dataset.tick]);
  byId("note").value = of.note;
  byId("previous").disabled = work.at === 0;
  byId("next").disabled = work.at === work.job.built.hooks.length - 1;
  listHooks();
  showPhotos();
  showVerdict();
  showTold();
  if (focus) {
    byId("hook-title").scrollIntoView();
    byId("hook-title").focus();
  }
}

function judge(input, reading) {
  const bad = !isRead([input.dataset.reading, reading]);
  input.toggleAttribute("aria-invalid", bad);
  if (bad) input.setAttribute("aria-invalid", "true");
  byId(input.id + "-fault").textContent = bad ? say.no_number : "";
}

// Of a layout, what a survey takes too. Rail by rail, along each.
const ONLY_OF_LAYOUTS = ["capacity", "remedies", "savings", "room_to_move", "kept", "measured", "recorded", "event"];

// Enough of rails and hooks to show them; all else is for the service to judge.
function hasHooks({ rails, hooks }) {
  const named = (list) => Array.isArray(list) && list.length > 0 && list.every((of) => of && typeof of.id === "string");
  return named(rails) && named(hooks) && hooks.every((hook) => Number.isFinite(hook.x_mm));
}

async function begin(text) {
  const state = byId("begin-state");
  let job;
  try { job = JSON.parse(text); } catch { job = null; }
  if (!job || typeof job !== "object" || !job.roof) { state.textContent = say.not_a_job; return; }
  if (!job.built) {
    state.textContent = say.planning;
    try {
      const answer = await ask("/v1/layouts", "application/json", text);
      job.built = answer.record.built;
    } catch (problem) {
      state.textContent = problem instanceof Error ? say.cannot_plan : say.refused_job + " " + faultsOf(problem).join(" ");
      return;
    }
  }
  if (!hasHooks(job.built)) { state.textContent = say.no_hooks; return; }
  const known = job.measured && Array.isArray(job.measured.hooks) ? job.measured.hooks : [];
  for (const member of ONLY_OF_LAYOUTS) delete job[member];
  const rails = job.built.rails.map((rail) => rail.id);
  const place = (hook) => [rails.indexOf(hook.rail), hook.y_mm === undefined ? hook.x_mm : hook.y_mm];
  job.built.hooks.sort((a, b) => place(a)[0] - place(b)[0] || place(a)[1] - place(b)[1]);
  work = { job, entered: {}, at: 0, revision: 1, changed: Date.now(), answered: null, refused: null };
  for (const { id, provenance, ...values } of known) {
    for (const [member, value] of Object.entries(values)) entered(id).readings[member] = typeof value === "number" ? value : String(value);
    if (provenance) entered(id).provenance = provenance;
  }
  state.textContent = "";
  show(0, true);
  send();
}

function recordFile() {
  const { job, entered: all, answered, changed: last } = work;
  const hooks = job.built.hooks.map(({ id }) => {
    const { readings: texts, ticks: done, photos, note } = all[id] || { readings: {}, ticks: {}, photos: [], note: "" };
    const strange = Object.entries(texts).filter((reading) => !isRead(reading));
    return { hook: id, ticks: done, photos, note, ...(strange.length && { no_numbers: Object.fromEntries(strange) }) };
  });
  return {
    kind: "roof_record",
    written_at: new Date().toISOString(),
    last_entry_at: new Date(last).toISOString(),
    verdict_is_of_all_entered: isPresent(),
    not_measured: isPresent() ? unmeasured(answered).map((hook) => hook.id) : null,
    verdict: answered && { verdict: answered.verdict, headline: answered.headline, at: new Date(answered.at).toISOString(), record: answered.record },
    survey: JSON.parse(request()),
    hooks,
  };
}

for (const input of readings) {
  input.addEventListener("input", () => {
    const of = entered(hookAt(work.at).id);
    of.readings[input.dataset.reading] = input.value;
    // What the job said of how it is known was said of the reading before.
    if (of.provenance) delete of.provenance[input.dataset.reading.replace(/_mm$/, "")];
    judge(input, input.value);
    changed();
    showTold();
    listHooks();
  });
}
for (const input of conditions) {
  input.addEventListener("change", () => {
    entered(hookAt(work.at).id).readings.rafter_condition = input.value;
    changed();
    showTold();
    listHooks();
  });
}
for (const input of ticks) {
  input.addEventListener("change", () => {
    entered(hookAt(work.at).id).ticks[input.dataset.tick] = input.checked;
    touched();
    showTold();
    listHooks();
  });
}
byId("note").addEventListener("input", () => { entered(hookAt(work.at).id).note = byId("note").value; touched(); });
byId("photo").addEventListener("change", () => {
  entered(hookAt(work.at).id).photos.push(...[...byId("photo").files].map((file) => file.name));
  byId("photo").value = "";
  touched();
  showPhotos();
});
byId("previous").addEventListener("click", () => show(work.at - 1, true));
byId("next").addEventListener("click", () => show(work.at + 1, true));
byId("hooks").addEventListener("change", () => show(Number(byId("hooks").value), true));
byId("file").addEventListener("change", async () => {
  const [file] = byId("file").files;
  if (file) await begin(await file.text());
  byId("file").value = "";
});
byId("example").addEventListener("click", async () => {
  try {
    await begin(await (await fetch("/roof/example.json")).text());
  } catch {
    byId("begin-state").textContent = say.cannot_plan;
  }
});
byId("save").addEventListener("click", () => {
  const address = URL.createObjectURL(new Blob([JSON.stringify(recordFile(), null, 2)], { type: "application/json" }));
  const link = element("a");
  link.href = address;
  link.download = (work.job.reference || "job") + "-as-built.json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
});
byId("sheet").addEventListener("click", async () => {
  const strange = unread();
  if (strange.length) { byId("record-state").textContent = say.unread + " " + strange.join(", ") + "."; return; }
  // Opened at once, or the browser takes it for a window nobody asked for.
  const page = window.open("", "_blank");
  byId("record-state").textContent = "";
  try {
    const sheet = await ask("/v1/surveys?part=crew", "text/html", request());
    const address = URL.createObjectURL(new Blob([sheet], { type: "text/html" }));
    if (page) page.location = address; else window.location = address;
  } catch (problem) {
    if (page) page.close();
    byId("record-state").textContent = problem instanceof Error ? say.failed_sheet : say.refused + " " + faultsOf(problem).join(" ");
  }
});
// Twice, so that no glove does it.
byId("forget").addEventListener("click", () => {
  const button = byId("forget");
  if (button.dataset.surely) {
    localStorage.removeItem(PLACE);
    location.reload();
    return;
  }
  button.dataset.surely = "yes";
  button.textContent = say.forget_surely;
  setTimeout(() => { delete button.dataset.surely; button.textContent = say.forget; }, 5000);
});

key.value = stored(KEY) || "";
key.addEventListener("change", () => {
  try { localStorage.setItem(KEY, key.value); } catch { /* It is asked for again. */ }
  if (work) { work.refused = null; send(); }
});
byId("access").addEventListener("submit", (event) => event.preventDefault());

window.addEventListener("online", send);
window.addEventListener("storage", (event) => { if (event.key === PLACE) takeOver(); });
document.addEventListener("visibilitychange", () => {
  if (document.hidden) return;
  takeOver();
  send();
});
setInterval(send, AGAIN_MS);
if ("serviceWorker" in navigator) navigator.serviceWorker.register("/roof/worker.js", { scope: "/roof" });

work = load();
if (work) {
  show(work.at, false);
  send();
}
