"""Every kind of job through the generated Python client, answers held in its types."""

import json
import sys
from pathlib import Path

import httpx
from hookspan_client import Client, models
from hookspan_client.api.actions import show_actions
from hookspan_client.api.batches import run_batch
from hookspan_client.api.buildings import create_building
from hookspan_client.api.choices import choose_layout
from hookspan_client.api.layouts import create_layout
from hookspan_client.api.rechecks import create_recheck
from hookspan_client.api.statements import check_statement
from hookspan_client.api.surveys import create_survey

BASE, DATA = sys.argv[1], Path(sys.argv[2])
FILES = {
    "layout": "layout-barn",
    "building": "building-gable",
    "choices": "choices-barn",
    "recheck": "recheck-barn",
    "survey": "survey-barn",
    "actions": "actions-barn",
    "statement": "statement-trough-hook",
}
ANSWERS = {
    "layout": models.LayoutAnswer,
    "building": models.BuildingAnswer,
    "choices": models.ChoicesAnswer,
    "recheck": models.RecheckAnswer,
    "survey": models.SurveyAnswer,
    "actions": models.ActionsAnswer,
    "statement": models.StatementAnswer,
}
# The classes of a batch by kind of job: what is sent and what comes back.
LINES = {kind: getattr(models, f"{kind.capitalize()}Line") for kind in FILES}
LINE_ANSWERS = {kind: getattr(models, f"{kind.capitalize()}LineAnswer") for kind in FILES}
client = Client(base_url=BASE, timeout=httpx.Timeout(60))


def job(kind):
    return json.loads((DATA / f"{FILES[kind]}.json").read_text())


def request(kind):
    """The job in the types of the client, nothing lost or unknown."""
    made = getattr(models, f"{kind.capitalize()}Request").from_dict(job(kind))
    assert made.to_dict() == job(kind), f"{kind}: the request is not what it was"
    return made


def hold(what, condition, *shown):
    assert condition, (what, *shown)


def judged(kind, answer):
    """What an answer of this kind must say, whichever way it came."""
    hold(kind, type(answer) is ANSWERS[kind], type(answer))
    if kind == "layout":
        hold(kind, answer.verdict is models.Verdict.INCOMPLETE, answer.verdict)
        hold(kind, len(answer.hooks) == 56 and answer.optimality.hooks == 56, len(answer.hooks))
        hold(kind, len(answer.missing) == 1, answer.missing)
        hold(kind, any(w.code == answer.causes[0].code for w in answer.warnings), answer.causes[0])
    elif kind == "building":
        hold(kind, answer.verdict is models.Verdict.HOLDS_WITH_WARNINGS, answer.verdict)
        hold(kind, [slope.id for slope in answer.slopes] == ["south", "north"], answer.slopes)
        hold(kind, sum(len(slope.hooks) for slope in answer.slopes) == answer.optimality.hooks, answer.optimality)
        hold(kind, answer.utilisation.slope == "north", answer.utilisation)
    elif kind == "choices":
        hold(kind, answer.verdict is models.Verdict.HOLDS_WITH_WARNINGS, answer.verdict)
        hold(kind, answer.complete and answer.counts.choices == len(answer.rows) + 2 == 12, answer.counts)
        hold(kind, answer.best.hooks == 40 == len(answer.layout.hooks), answer.best)
        hold(kind, [edit.path for edit in answer.edits][:2] == ["/components/hook", "/components/screw"], answer.edits)
    elif kind == "recheck":
        hold(kind, answer.verdict is models.Verdict.FAILS, answer.verdict)
        hold(kind, len(answer.hooks) == 32, len(answer.hooks))
        hold(kind, isinstance(answer.difference, models.Difference), answer.difference)
        hold(kind, answer.utilisation.max_ > 1, answer.utilisation)
    elif kind == "survey":
        hold(kind, answer.verdict is models.Verdict.FAILS, answer.verdict)
        (rail,) = answer.surveyed
        hold(kind, rail.outcome is models.LevellingOutcome.LEVELLED, rail.outcome)
        hold(kind, len(rail.hooks) == 8, rail)
        hold(kind, len(answer.to_measure) == 3, answer.to_measure)
    elif kind == "actions":
        hold(kind, len(answer.actions.combinations) > 0 and len(answer.trace) > 0, answer.actions)
        hold(kind, answer.actions.snow.ground_load_kn_per_m2 > 0, answer.actions.snow)
    else:
        hold(kind, len(answer.needed) > 0 and len(answer.evidence) > 0, answer.needed)
        hold(kind, answer.without_evidence == [], answer.without_evidence)


CALLS = {
    "layout": create_layout,
    "building": create_building,
    "choices": choose_layout,
    "recheck": create_recheck,
    "survey": create_survey,
    "actions": show_actions,
    "statement": check_statement,
}


def alone(kind):
    got = CALLS[kind].sync_detailed(client=client, body=request(kind))
    hold(kind, got.status_code == 200, got)
    judged(kind, got.parsed)
    # What the types do not know is kept aside; there is to be nothing.
    hold(kind, got.parsed.additional_properties == {}, got.parsed.additional_properties)
    hold(kind, got.parsed.to_dict() == json.loads(got.content), "the answer is not what it was")


def line_of(kind):
    """The line of a batch that asks for this, in the type of its kind."""
    written = {"id": kind, "kind": kind, "job": job(kind)}
    line = LINES[kind].from_dict(written)
    hold(kind, line.to_dict() == written, "the line is not what it was")
    return line


def exchange(**options):
    """All jobs and one with faults as a batch: the answers as they are decoded, by name of the line.

    The generator takes the body for one line, and the answer for one: the text of many lines goes
    through the transport of the client, and each line of the answer through its decoder.
    """
    lines = [json.dumps(line_of(kind).to_dict()) for kind in FILES]
    lines.append(json.dumps({"id": "bad", "kind": "layout", "job": {}}))
    kwargs = run_batch._get_kwargs(body=line_of("layout"), **options)
    del kwargs["json"]
    got = client.get_httpx_client().request(**kwargs, content="\n".join(lines) + "\n")
    hold("batch", got.status_code == 200, got.text[:500])
    answers = []
    for text in got.text.splitlines():
        answer = run_batch._parse_response(client=client, response=httpx.Response(200, text=text))
        hold("batch", answer.to_dict() == json.loads(text), "the line is not what it was")
        answers.append(answer)
    *jobs, refused, end = answers
    hold("batch", [(a.line, a.id, a.status) for a in jobs] == [(i, k, 200) for i, k in enumerate(FILES, 1)], jobs)
    hold("bad line", type(refused) is models.ProblemLine, type(refused))
    hold("bad line", (refused.line, refused.id, refused.status) == (8, "bad", 422), refused)
    hold("bad line", refused.problem.code is models.ProblemCode.INVALID_REQUEST, refused.problem)
    hold("bad line", {f.code for f in refused.problem.errors} == {models.FaultCode.MISSING}, refused)
    hold("end", type(end) is models.EndLine, type(end))
    account = end.summary
    hold("end", (account.complete, account.answered, account.refused) == (True, 7, 1), account)
    hold("end", (account.verdicts.fails, account.verdicts.incomplete) == (2, 1), account)
    return dict(zip(FILES, jobs))


def batch():
    for kind, answer in exchange().items():
        hold(kind, type(answer) is LINE_ANSWERS[kind], type(answer))
        judged(kind, answer.result)


def in_short(kind, answer):
    """What the answer in short must say of a job of this kind."""
    hold(kind, type(answer) is models.AnswerSummary, type(answer))
    hold(kind, answer.of is models.JobKind(kind), answer.of)
    verdicts = {"layout": "incomplete", "building": "holds_with_warnings", "recheck": "fails", "survey": "fails"}
    verdicts["choices"] = "holds_with_warnings"
    if kind in verdicts:
        hold(kind, answer.verdict is models.Verdict(verdicts[kind]), answer.verdict)
    if kind == "layout":
        hold(kind, answer.counts.hooks == 56 and answer.counts.missing == 1, answer.counts)


def summary():
    for kind in FILES:
        got = CALLS[kind].sync_detailed(client=client, body=request(kind), answer=models.AnswerForm.SUMMARY)
        hold(kind, got.status_code == 200, got)
        in_short(kind, got.parsed)
    for kind, answer in exchange(answer=models.AnswerForm.SUMMARY).items():
        hold(kind, type(answer) is models.SummaryLine, type(answer))
        in_short(kind, answer.result)


def paper(accept, start):
    """Drawing and sheet: the client writes the request, its transport asks for another type."""
    kwargs = create_layout._get_kwargs(body=request("layout"), lang=models.LanguageTag.EN)
    kwargs["headers"]["Accept"] = accept
    got = client.get_httpx_client().request(**kwargs)
    hold(accept, got.status_code == 200, got.text[:500])
    hold(accept, got.headers["content-type"].split(";")[0] == accept, got.headers)
    hold(accept, start in got.text and "A1-1" in got.text, got.text[:200])


def faults():
    body = request("layout")
    body.roof.pitch_deg = 95.0
    got = create_layout.sync_detailed(client=client, body=body)
    hold("faults", got.status_code == 422 and type(got.parsed) is models.Problem, got)
    hold("faults", got.parsed.code is models.ProblemCode.INVALID_REQUEST, got.parsed)
    [fault] = got.parsed.errors
    hold("faults", (fault.pointer, fault.code) == ("/roof/pitch_deg", models.FaultCode.OUT_OF_RANGE), fault)


STEPS = {kind: (alone, kind) for kind in FILES} | {
    "batch": (batch,),
    "summary": (summary,),
    "drawing": (paper, "image/svg+xml", "<svg "),
    "sheet": (paper, "text/html", "<html"),
    "faults": (faults,),
}
done = 0
for name, (step, *arguments) in STEPS.items():
    try:
        step(*arguments)
        done += 1
        print(f"python: {name}")
    except Exception as error:  # every step is run and named
        print(f"python: {name} FAILED: {type(error).__name__}: {str(error)[:400]}", file=sys.stderr)
print(f"python: {done} of {len(STEPS)}")
sys.exit(done != len(STEPS))
