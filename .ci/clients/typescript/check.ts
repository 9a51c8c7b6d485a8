// Every kind of job through the generated TypeScript client. The compiler holds every member that is
// read against the description; what it says is held at run time.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import createClient from "openapi-fetch";
import type { components, paths } from "./description.js";

type Schemas = components["schemas"];
const [base, data] = process.argv.slice(2) as [string, string];
type Reply =
  | Schemas["LayoutReply"]
  | Schemas["BuildingReply"]
  | Schemas["ChoicesReply"]
  | Schemas["RecheckReply"]
  | Schemas["SurveyReply"]
  | Schemas["ActionsReply"]
  | Schemas["StatementReply"];
const client = createClient<paths>({ baseUrl: base });

const read = <T>(name: string): T => JSON.parse(readFileSync(join(data, `${name}.json`), "utf8")) as T;
const layoutJob = read<Schemas["LayoutRequest"]>("layout-barn");
const recheckJob = read<Schemas["RecheckRequest"]>("recheck-barn");
const buildingJob = read<Schemas["BuildingRequest"]>("building-gable");
const choicesJob = read<Schemas["ChoicesRequest"]>("choices-barn");
const surveyJob = read<Schemas["SurveyRequest"]>("survey-barn");
const actionsJob = read<Schemas["ActionsRequest"]>("actions-barn");
const statementJob = read<Schemas["StatementRequest"]>("statement-trough-hook");

// What an answer of each kind must say, whichever way it came.
const judged = {
  layout(answer: Schemas["LayoutAnswer"]) {
    const verdict: Schemas["Verdict"] = answer.verdict;
    assert.equal(verdict, "incomplete");
    assert.equal(answer.hooks.length, 56);
    assert.equal(answer.optimality.hooks, 56);
    assert.equal(answer.missing.length, 1);
    assert.ok(answer.warnings.some((warning) => warning.code === answer.causes[0].code));
    const params: Schemas["Param"][] = answer.warnings.flatMap((warning) => Object.values(warning.params));
    assert.ok(params.length > 0 && params.every((param) => Object.keys(param).length === 1));
  },
  recheck(answer: Schemas["RecheckAnswer"]) {
    assert.equal(answer.verdict, "fails");
    assert.equal(answer.hooks.length, 32);
    assert.ok(answer.difference && answer.difference.max_utilisation > 1);
    assert.ok(answer.utilisation.max > 1);
  },
  building(answer: Schemas["BuildingAnswer"]) {
    assert.equal(answer.verdict, "holds_with_warnings");
    assert.deepEqual(answer.slopes.map(({ id }) => id), ["south", "north"]);
    const hooks = answer.slopes.reduce((sum, slope) => sum + slope.hooks.length, 0);
    assert.deepEqual([answer.optimality.hooks, answer.utilisation.slope], [hooks, "north"]);
  },
  choices(answer: Schemas["ChoicesAnswer"]) {
    assert.equal(answer.verdict, "holds_with_warnings");
    assert.deepEqual([answer.complete, answer.counts.choices, answer.rows.length], [true, 12, 10]);
    assert.deepEqual([answer.best?.hooks, answer.layout?.hooks.length], [40, 40]);
    assert.deepEqual(answer.edits.slice(0, 2).map(({ path }) => path), ["/components/hook", "/components/screw"]);
  },
  survey(answer: Schemas["SurveyAnswer"]) {
    assert.equal(answer.verdict, "fails");
    assert.deepEqual(answer.surveyed.map(({ outcome, hooks }) => [outcome, hooks.length]), [["levelled", 8]]);
    assert.equal(answer.to_measure.length, 3);
  },
  actions(answer: Schemas["ActionsAnswer"]) {
    assert.ok(answer.actions.combinations.length > 0 && answer.trace.length > 0);
    assert.ok(answer.actions.snow.ground_load_kn_per_m2 > 0);
  },
  statement(answer: Schemas["StatementAnswer"]) {
    assert.ok(answer.needed.length > 0 && answer.evidence.length > 0);
    assert.deepEqual(answer.without_evidence, []);
  },
};

// What came, where there is no problem; otherwise the problem is the failure.
function answered<T>(got: { data?: T; error?: unknown; response: Response }): T {
  assert.equal(got.response.status, 200, JSON.stringify(got.error));
  assert.ok(got.data !== undefined);
  return got.data;
}

// The same of an operation that can draw or write a sheet as well, which it does only when asked.
function json<T>(got: { data?: T; error?: unknown; response: Response }): Exclude<T, string> {
  const data = answered(got);
  assert.ok(typeof data !== "string");
  return data as Exclude<T, string>;
}

// The answer of the kind that is expected; the compiler knows its type by its kind.
function ofKind<A extends { kind: string }, K extends A["kind"]>(kind: K, answer: A): Extract<A, { kind: K }> {
  assert.equal(answer.kind, kind);
  return answer as Extract<A, { kind: K }>;
}

// The answer in short must say what the full one says.
function inShort(of: Schemas["JobKind"], answer: Reply): void {
  const short = ofKind("summary", answer);
  assert.equal(short.of, of);
  const verdicts: Partial<Record<Schemas["JobKind"], Schemas["Verdict"]>> = {
    layout: "incomplete",
    building: "holds_with_warnings",
    choices: "holds_with_warnings",
    recheck: "fails",
    survey: "fails",
  };
  assert.equal(short.verdict, verdicts[of]);
  if (of === "layout") assert.deepEqual([short.counts.hooks, short.counts.missing], [56, 1]);
}

const lines: Schemas["BatchLine"][] = [
  { id: "layout", kind: "layout", job: layoutJob },
  { id: "building", kind: "building", job: buildingJob },
  { id: "choices", kind: "choices", job: choicesJob },
  { id: "recheck", kind: "recheck", job: recheckJob },
  { id: "survey", kind: "survey", job: surveyJob },
  { id: "actions", kind: "actions", job: actionsJob },
  { id: "statement", kind: "statement", job: statementJob },
  // Meant to be refused.
  { id: "bad", kind: "layout", job: {} as Schemas["LayoutRequest"] },
];

// All lines as a batch. The type of the body is that of one line, and so is that of the answer: the
// text of many is written by the serialiser and read line by line.
async function exchange(answer?: Schemas["AnswerForm"]): Promise<Schemas["BatchOutput"][]> {
  const text = answered(
    await client.POST("/v1/batches", {
      params: { query: { answer } },
      body: lines[0],
      bodySerializer: () => lines.map((line) => `${JSON.stringify(line)}\n`).join(""),
      headers: { "Content-Type": "application/x-ndjson" },
      parseAs: "text",
    }),
  ) as unknown as string;
  const answers = text.trimEnd().split("\n").map((line) => JSON.parse(line) as Schemas["BatchOutput"]);
  assert.equal(answers.length, lines.length + 1);
  lines.forEach(({ id }, i) => {
    const line = answers[i];
    assert.ok(line.kind !== "end");
    assert.deepEqual([line.line, line.id], [i + 1, id]);
  });
  return answers;
}

// What each line says; the compiler narrows by `kind` and holds that no kind is left out.
function heard(line: Schemas["BatchOutput"]): void {
  switch (line.kind) {
    case "layout":
      judged.layout(line.result);
      break;
    case "building":
      judged.building(line.result);
      break;
    case "choices":
      judged.choices(line.result);
      break;
    case "recheck":
      judged.recheck(line.result);
      break;
    case "survey":
      judged.survey(line.result);
      break;
    case "actions":
      judged.actions(line.result);
      break;
    case "statement":
      judged.statement(line.result);
      break;
    case "summary":
      assert.equal(line.id, line.result.of);
      inShort(line.result.of, line.result);
      break;
    case "problem":
      assert.deepEqual([line.id, line.status, line.problem.code], ["bad", 422, "invalid_request"]);
      assert.equal(line.problem.errors?.[0].code, "missing");
      break;
    case "end":
      assert.deepEqual([line.summary.complete, line.summary.answered, line.summary.refused], [true, 7, 1]);
      assert.deepEqual([line.summary.verdicts.fails, line.summary.verdicts.incomplete], [2, 1]);
      break;
    default: {
      const never: never = line;
      assert.fail(JSON.stringify(never).slice(0, 300));
    }
  }
}

const steps: Record<string, () => Promise<void>> = {
  async layout() {
    judged.layout(ofKind("layout", json(await client.POST("/v1/layouts", { body: layoutJob }))));
  },
  async building() {
    judged.building(ofKind("building", json(await client.POST("/v1/buildings", { body: buildingJob }))));
  },
  async choices() {
    judged.choices(ofKind("choices", json(await client.POST("/v1/choices", { body: choicesJob }))));
  },
  async recheck() {
    judged.recheck(ofKind("recheck", json(await client.POST("/v1/rechecks", { body: recheckJob }))));
  },
  async survey() {
    judged.survey(ofKind("survey", json(await client.POST("/v1/surveys", { body: surveyJob }))));
  },
  async actions() {
    judged.actions(ofKind("actions", json(await client.POST("/v1/actions", { body: actionsJob }))));
  },
  async statement() {
    judged.statement(ofKind("statement", json(await client.POST("/v1/statements", { body: statementJob }))));
  },
  async batch() {
    const answers = await exchange();
    const kinds = answers.map(({ kind }) => kind);
    assert.deepEqual(kinds, ["layout", "building", "choices", "recheck", "survey", "actions", "statement", "problem", "end"]);
    answers.forEach(heard);
  },
  async summary() {
    const params = { query: { answer: "summary" } } as const;
    inShort("layout", json(await client.POST("/v1/layouts", { params, body: layoutJob })));
    inShort("building", json(await client.POST("/v1/buildings", { params, body: buildingJob })));
    inShort("choices", json(await client.POST("/v1/choices", { params, body: choicesJob })));
    inShort("recheck", json(await client.POST("/v1/rechecks", { params, body: recheckJob })));
    inShort("survey", json(await client.POST("/v1/surveys", { params, body: surveyJob })));
    inShort("actions", json(await client.POST("/v1/actions", { params, body: actionsJob })));
    inShort("statement", json(await client.POST("/v1/statements", { params, body: statementJob })));
    const answers = await exchange("summary");
    const kinds = answers.map(({ kind }) => kind);
    assert.deepEqual(kinds, [...Array(7).fill("summary"), "problem", "end"]);
    answers.forEach(heard);
  },
  async drawing() {
    const got = await client.POST("/v1/layouts", { body: layoutJob, headers: { Accept: "image/svg+xml" }, parseAs: "text" });
    const svg = answered(got) as string;
    assert.equal(got.response.headers.get("content-type")?.split(";")[0], "image/svg+xml");
    assert.match(svg, /<svg [^]*A1-1/);
  },
  async sheet() {
    const got = await client.POST("/v1/layouts", { body: layoutJob, headers: { Accept: "text/html" }, parseAs: "text" });
    const html = answered(got) as string;
    assert.equal(got.response.headers.get("content-type")?.split(";")[0], "text/html");
    assert.match(html, /<html[^]*A1-1/);
  },
  async faults() {
    const steep: Schemas["LayoutRequest"] = { ...layoutJob, roof: { ...layoutJob.roof, pitch_deg: 95 } };
    const { error, response } = await client.POST("/v1/layouts", { body: steep });
    assert.equal(response.status, 422);
    const problem: Schemas["Problem"] | undefined = error;
    assert.equal(problem?.code, "invalid_request");
    assert.deepEqual(problem?.errors?.map((fault) => [fault.pointer, fault.code]), [["/roof/pitch_deg", "out_of_range"]]);
  },
};

let done = 0;
for (const [name, step] of Object.entries(steps)) {
  try {
    await step();
    done += 1;
    console.log(`typescript: ${name}`);
  } catch (error) {
    console.error(`typescript: ${name} FAILED: ${error instanceof Error ? error.message.slice(0, 400) : error}`);
  }
}
console.log(`typescript: ${done} of ${Object.keys(steps).length}`);
process.exit(done === Object.keys(steps).length ? 0 : 1);
