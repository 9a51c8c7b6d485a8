"use strict";
// The start page: keeps the small fields and the text of the request alike, computes over the
// public interface, and leads from each fault to its place. Nothing is stored anywhere.

const byId = (id) => document.getElementById(id);
const text = byId("text");
const inputs = [...document.querySelectorAll("[data-pointer]")];

// Where every value of a JSON text begins and ends, by pointer (RFC 6901). Stops quietly where the
// text is not JSON: what was read until then stays known.
function places(source) {
  const found = new Map();
  let at = 0;
  const blank = () => { while (/\s/.test(source[at] || "")) at += 1; };
  const string = () => {
    const start = at;
    for (at += 1; at < source.length && source[at] !== '"'; at += 1) if (source[at] === "\\") at += 1;
    at += 1;
    return JSON.parse(source.slice(start, at));
  };
  const list = (close, item) => {
    at += 1;
    for (let index = 0; ; index += 1) {
      blank();
      if (source[at] === close) { at += 1; return; }
      if (index > 0) { if (source[at] !== ",") throw new Error("comma"); at += 1; blank(); }
      item(index);
    }
  };
  const value = (pointer) => {
    blank();
    const start = at;
    if (source[at] === "{") {
      list("}", () => {
        const name = string();
        blank();
        if (source[at] !== ":") throw new Error("colon");
        at += 1;
        value(pointer + "/" + name.replace(/~/g, "~0").replace(/\//g, "~1"));
      });
    } else if (source[at] === "[") {
      list("]", (index) => value(pointer + "/" + index));
    } else if (source[at] === '"') {
      string();
    } else {
      while (at < source.length && !/[\s,\]}]/.test(source[at])) at += 1;
      if (at === start) throw new Error("value");
    }
    found.set(pointer, [start, at]);
  };
  try { value(""); } catch { /* not JSON from here on */ }
  return found;
}

// The nearest place that exists: a missing member is shown at what should hold it.
function place(pointer) {
  const known = places(text.value);
  for (let p = pointer; ; p = p.slice(0, p.lastIndexOf("/"))) {
    if (known.has(p)) return known.get(p);
    if (p === "") return [0, 0];
  }
}

const lineOf = (offset) => text.value.slice(0, offset).split("\n").length;

function fillFields() {
  const known = places(text.value);
  for (const input of inputs) {
    const range = known.get(input.dataset.pointer);
    input.value = range ? text.value.slice(...range).replace(/^"|"$/g, "") : "";
  }
}

function fieldChanged(input) {
  const range = places(text.value).get(input.dataset.pointer);
  if (!range) return;
  const typed = input.value.trim();
  const number = /^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/.test(typed);
  const json = number ? typed : JSON.stringify(typed);
  text.value = text.value.slice(0, range[0]) + json + text.value.slice(range[1]);
}

function select([from, to]) {
  text.focus();
  text.setSelectionRange(from, to);
  const height = parseFloat(getComputedStyle(text).lineHeight) || 20;
  text.scrollTop = Math.max(0, (lineOf(from) - 6) * height);
}

function clearFaults() {
  byId("problems").hidden = true;
  text.removeAttribute("aria-invalid");
  for (const input of inputs) {
    input.removeAttribute("aria-invalid");
    byId(input.getAttribute("aria-describedby")).textContent = "";
  }
}

function showProblem(problem) {
  const items = (problem.errors || []).map((fault) => {
    const input = inputs.find((i) => i.dataset.pointer === fault.pointer);
    if (input) {
      input.setAttribute("aria-invalid", "true");
      byId(input.getAttribute("aria-describedby")).textContent = fault.detail;
    }
    const range = place(fault.pointer);
    return { name: "Line " + lineOf(range[0]) + ": " + (fault.pointer || "/"), say: fault.detail, go: () => select(range) };
  });
  if (problem.line) {
    const from = text.value.split("\n").slice(0, problem.line - 1).join("\n").length + (problem.line > 1 ? 1 : 0);
    const at = from + Math.max(0, (problem.column || 1) - 1);
    items.push({ name: "Line " + problem.line + ", column " + problem.column, say: problem.detail, go: () => select([at, at + 1]) });
  }
  byId("problems-title").textContent = items.length ? problem.title + ": " + items.length : problem.title + ". " + (problem.detail || "");
  byId("problems").querySelector("ol").replaceChildren(...items.map(({ name, say, go }) => {
    const entry = document.createElement("li");
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = name;
    button.addEventListener("click", go);
    entry.append(button, " ", say);
    return entry;
  }));
  if (items.length) text.setAttribute("aria-invalid", "true");
  byId("problems").hidden = false;
  byId("problems-title").focus();
}

async function ask(accept, query) {
  const reply = await fetch("/v1/layouts" + query, {
    method: "POST",
    headers: { accept, "content-type": "application/json" },
    body: text.value,
  });
  if (reply.ok) return reply;
  throw await reply.json();
}

async function attempt(work) {
  byId("result").setAttribute("aria-busy", "true");
  clearFaults();
  try {
    await work();
  } catch (problem) {
    showProblem(problem instanceof Error ? { title: "The service did not answer", detail: problem.message } : problem);
  } finally {
    byId("result").removeAttribute("aria-busy");
  }
}

const language = () => byId("language").value;
const views = ["slope", "section", "wind"];
const pressed = () => views.find((view) => byId(view).getAttribute("aria-pressed") === "true");

async function draw() {
  const reply = await ask("image/svg+xml", "?view=" + pressed() + "&lang=" + language());
  const drawing = new DOMParser().parseFromString(await reply.text(), "image/svg+xml");
  byId("drawing").replaceChildren(document.importNode(drawing.documentElement, true));
  keepReadable();
}

// A drawing is made no smaller than its labels can be read; what does not fit is scrolled.
function keepReadable() {
  const drawing = byId("drawing").querySelector("svg");
  if (drawing) drawing.style.minWidth = 0.7 * drawing.viewBox.baseVal.width + "px";
}

const verdicts = { holds: "Holds", holds_with_warnings: "Holds, with warnings", fails: "Fails", incomplete: "Incomplete: not everything is verified" };
const severities = { failure: "✗ Failure.", incomplete: "? Not verified.", warning: "! Warning.", notice: "· Notice." };

function element(name, ...content) {
  const made = document.createElement(name);
  made.append(...content);
  return made;
}

function notAssessed(verdicts) {
  const without = Object.keys(verdicts).filter((scope) => verdicts[scope] === "not_assessed");
  return without.join(", ") || "–";
}

function showAnswer(answer) {
  const used = answer.utilisation;
  const figures = [
    ["Verdict", verdicts[answer.verdict]],
    ["Not assessed", notAssessed(answer.verdicts)],
    ["Highest utilisation", (Math.ceil(used.max * 1000 - 1e-6) / 10).toFixed(1) + " % (" + used.element + ", " + used.check + ")"],
    ["Hooks", answer.hooks.length + (answer.optimality.proven ? ", fewest for this position of the field, these parts and this pattern, proven" : "")],
    ["Rails", String(answer.rails.length)],
    ["Snow on the roof", answer.actions.snow.roof_load_kn_per_m2.toFixed(2) + " kN/m²"],
    ["Peak wind pressure", answer.actions.wind.peak_pressure_kn_per_m2.toFixed(2) + " kN/m²"],
  ];
  const list = element("dl", ...figures.map(([name, value]) => element("div", element("dt", name), element("dd", value))));
  const headline = element("p", answer.headline);
  headline.className = "headline";
  const warnings = element("ul", ...answer.causes.map((cause) =>
    element("li", element("strong", severities[cause.severity]), " " + cause.line + " ", element("code", cause.code))));
  warnings.className = "warnings";
  const declared = element("ul", ...answer.declarations.map((taken) =>
    element("li", element("strong", taken.who), " answers for ", element("code", taken.check), " (" + taken.by + ", " + taken.document + "), instead of: " + taken.instead_of.join(" "))));
  declared.className = "warnings";
  byId("summary").replaceChildren(headline, list, declared, warnings);
  byId("reference").textContent = answer.reference || "";
}

function compute() {
  return attempt(async () => {
    const reply = await ask("application/json", "");
    showAnswer(await reply.json());
    await draw();
    byId("result-title").focus();
  });
}

byId("job").addEventListener("submit", (event) => { event.preventDefault(); compute(); });
text.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) { event.preventDefault(); compute(); }
});
text.addEventListener("input", fillFields);
for (const input of inputs) input.addEventListener("input", () => fieldChanged(input));
for (const view of views) {
  byId(view).addEventListener("click", () => {
    for (const other of views) byId(other).setAttribute("aria-pressed", String(other === view));
    attempt(draw);
  });
}
byId("language").addEventListener("change", () => attempt(draw));
byId("sheet").addEventListener("click", () => {
  // Opened at once, or the browser takes it for a window nobody asked for.
  const page = window.open("", "_blank");
  attempt(async () => {
    try {
      const reply = await ask("text/html", "?lang=" + language());
      const address = URL.createObjectURL(new Blob([await reply.text()], { type: "text/html" }));
      if (page) page.location = address; else window.location = address;
    } catch (problem) {
      if (page) page.close();
      throw problem;
    }
  });
});
fillFields();
keepReadable();
