import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.openapitools.client.ApiClient;
import org.openapitools.client.ApiException;
import org.openapitools.client.api.*;
import org.openapitools.client.model.*;

/** Every kind of job through the generated Java client, answers held in its types. */
public class Check {
    interface Step { void run() throws Exception; }

    static final Map<String, String> FILES = new LinkedHashMap<>();
    static ApiClient client;
    static ObjectMapper json;
    static Path data;

    static void hold(boolean condition, Object shown) {
        if (!condition) throw new AssertionError(String.valueOf(shown));
    }

    static <T> T job(String kind, Class<T> type) throws Exception {
        return json.readValue(Files.readString(data.resolve(FILES.get(kind) + ".json")), type);
    }

    /** What an answer of each kind must say, whichever way it came. */
    static void judged(String kind, Object given) {
        switch (kind) {
            case "layout" -> {
                LayoutAnswer answer = (LayoutAnswer) given;
                hold(answer.getVerdict() == Verdict.INCOMPLETE, answer.getVerdict());
                hold(answer.getHooks().size() == 56 && answer.getOptimality().getHooks() == 56, answer.getHooks().size());
                hold(answer.getMissing().size() == 1, answer.getMissing());
                List<Param> params = new ArrayList<>();
                for (Warning warning : answer.getWarnings()) params.addAll(warning.getParams().values());
                hold(!params.isEmpty(), answer.getWarnings());
                for (Param param : params) hold(given(param) == 1, param);
            }
            case "recheck" -> {
                RecheckAnswer answer = (RecheckAnswer) given;
                hold(answer.getVerdict() == Verdict.FAILS, answer.getVerdict());
                hold(answer.getHooks().size() == 32 && answer.getUtilisation().getMax() > 1, answer.getHooks().size());
                hold(answer.getDifference().getMaxUtilisation() > 1, answer.getDifference());
            }
            case "survey" -> {
                SurveyAnswer answer = (SurveyAnswer) given;
                hold(answer.getVerdict() == Verdict.FAILS, answer.getVerdict());
                hold(answer.getSurveyed().size() == 1 && answer.getToMeasure().size() == 3, answer.getToMeasure());
                Levelling rail = answer.getSurveyed().get(0);
                hold(rail.getOutcome() == LevellingOutcome.LEVELLED, rail.getOutcome());
                hold(rail.getHooks().size() == 8, rail.getHooks().size());
            }
            case "actions" -> {
                ActionsAnswer answer = (ActionsAnswer) given;
                hold(answer.getActions().getSnow().getGroundLoadKnPerM2() > 0, answer.getActions().getSnow());
                hold(!answer.getActions().getCombinations().isEmpty() && !answer.getTrace().isEmpty(), answer.getInputDigest());
            }
            case "statement" -> {
                StatementAnswer answer = (StatementAnswer) given;
                hold(!answer.getNeeded().isEmpty() && !answer.getEvidence().isEmpty(), answer.getNeeded());
                hold(answer.getWithoutEvidence().isEmpty(), answer.getWithoutEvidence());
            }
            default -> throw new AssertionError(kind);
        }
    }

    /** How many members are given: a list that is absent is an empty one to the generator. */
    static int given(Param param) {
        int given = 0;
        for (JsonNode member : json.<JsonNode>valueToTree(param)) if (!member.isArray() || !member.isEmpty()) given += 1;
        return given;
    }

    /** What the answer in short must say of a job of this kind. */
    static void inShort(String kind, Object given) {
        AnswerSummary answer = (AnswerSummary) given;
        hold(answer.getOf() == JobKind.fromValue(kind), answer.getOf());
        Verdict verdict = switch (kind) {
            case "layout" -> Verdict.INCOMPLETE;
            case "recheck", "survey" -> Verdict.FAILS;
            default -> null;
        };
        hold(answer.getVerdict() == verdict, answer.getVerdict());
        SummaryCounts counts = answer.getCounts();
        hold(!kind.equals("layout") || counts.getHooks() == 56 && counts.getMissing() == 1, counts);
    }

    /** What comes for a job that is sent by itself: the alternative of the reply that its kind names. */
    static Object asked(String kind, AnswerForm form) throws Exception {
        return switch (kind) {
            case "layout" -> new LayoutsApi(client)
                .createLayout(job(kind, LayoutRequest.class), form, null, null, null, null, null).getActualInstance();
            case "recheck" -> new RechecksApi(client)
                .createRecheck(job(kind, RecheckRequest.class), form, null, null, null, null, null).getActualInstance();
            case "survey" -> new SurveysApi(client)
                .createSurvey(job(kind, SurveyRequest.class), form, null, null, null, null, null).getActualInstance();
            case "actions" -> new ActionsApi(client)
                .showActions(job(kind, ActionsRequest.class), form, null, null).getActualInstance();
            case "statement" -> new StatementsApi(client)
                .checkStatement(job(kind, StatementRequest.class), form, null, null).getActualInstance();
            default -> throw new AssertionError(kind);
        };
    }

    /** The transport of the client for what it has no method for. */
    static HttpResponse<String> send(String path, String type, String accept, String body) throws Exception {
        HttpClient http = client.getHttpClient();
        return http.send(
            HttpRequest.newBuilder(URI.create(client.getBaseUri() + path)).header("Content-Type", type)
                .header("Accept", accept).POST(HttpRequest.BodyPublishers.ofString(body)).build(),
            HttpResponse.BodyHandlers.ofString());
    }

    /**
     * All jobs and one with faults as a batch: what came for each line, the end last. The method of the
     * client takes a file and reads one line of the answer, so the text goes through its transport.
     */
    static List<Object> exchange(String query) throws Exception {
        StringBuilder text = new StringBuilder();
        for (String kind : FILES.keySet()) {
            Object job = json.readValue(Files.readString(data.resolve(FILES.get(kind) + ".json")), Object.class);
            String written = json.writeValueAsString(Map.of("id", kind, "kind", kind, "job", job));
            Object line = json.readValue(written, BatchLine.class).getActualInstance();
            Class<?> type = switch (kind) {
                case "layout" -> LayoutLine.class;
                case "recheck" -> RecheckLine.class;
                case "survey" -> SurveyLine.class;
                case "actions" -> ActionsLine.class;
                default -> StatementLine.class;
            };
            hold(line.getClass() == type, line.getClass());
            text.append(json.writeValueAsString(line)).append('\n');
        }
        text.append("{\"id\":\"bad\",\"kind\":\"layout\",\"job\":{}}\n");
        HttpResponse<String> got =
            send("/v1/batches" + query, "application/x-ndjson", "application/x-ndjson", text.toString());
        hold(got.statusCode() == 200, got.body());
        List<Object> answers = new ArrayList<>();
        for (String line : got.body().strip().split("\n")) {
            answers.add(json.readValue(line, BatchOutput.class).getActualInstance());
        }
        hold(answers.size() == FILES.size() + 2, answers.size());
        ProblemLine refused = (ProblemLine) answers.get(FILES.size());
        hold(refused.getLine() == 6 && refused.getId().equals("bad") && refused.getStatus() == 422, refused.getLine());
        hold(refused.getProblem().getCode() == ProblemCode.INVALID_REQUEST, refused);
        hold(refused.getProblem().getErrors().get(0).getCode() == FaultCode.MISSING, refused);
        BatchSummary end = ((EndLine) answers.get(FILES.size() + 1)).getSummary();
        hold(end.getComplete() && end.getAnswered() == 5 && end.getRefused() == 1, end);
        return answers.subList(0, FILES.size());
    }

    static void batch() throws Exception {
        int number = 0;
        for (Object line : exchange("")) {
            number += 1;
            String kind = List.copyOf(FILES.keySet()).get(number - 1);
            switch (kind) {
                case "layout" -> {
                    LayoutLineAnswer of = (LayoutLineAnswer) line;
                    hold(of.getLine() == number && of.getId().equals(kind), of.getId());
                    judged(kind, of.getResult());
                }
                case "recheck" -> {
                    RecheckLineAnswer of = (RecheckLineAnswer) line;
                    hold(of.getLine() == number && of.getId().equals(kind), of.getId());
                    judged(kind, of.getResult());
                }
                case "survey" -> {
                    SurveyLineAnswer of = (SurveyLineAnswer) line;
                    hold(of.getLine() == number && of.getId().equals(kind), of.getId());
                    judged(kind, of.getResult());
                }
                case "actions" -> {
                    ActionsLineAnswer of = (ActionsLineAnswer) line;
                    hold(of.getLine() == number && of.getId().equals(kind), of.getId());
                    judged(kind, of.getResult());
                }
                default -> {
                    StatementLineAnswer of = (StatementLineAnswer) line;
                    hold(of.getLine() == number && of.getId().equals(kind), of.getId());
                    judged(kind, of.getResult());
                }
            }
        }
    }

    static void summary() throws Exception {
        for (String kind : FILES.keySet()) inShort(kind, asked(kind, AnswerForm.SUMMARY));
        for (Object line : exchange("?answer=summary")) {
            SummaryLine of = (SummaryLine) line;
            inShort(of.getId(), of.getResult());
        }
    }

    static void paper(String accept, String start) throws Exception {
        String body = json.writeValueAsString(job("layout", LayoutRequest.class));
        HttpResponse<String> got = send("/v1/layouts", "application/json", accept, body);
        hold(got.statusCode() == 200, got.body());
        hold(got.headers().firstValue("content-type").orElse("").startsWith(accept), got.headers());
        hold(got.body().contains(start) && got.body().contains("A1-1"), got.body().substring(0, 200));
    }

    static void faults() throws Exception {
        LayoutRequest steep = job("layout", LayoutRequest.class);
        steep.getRoof().setPitchDeg(95.0);
        try {
            new LayoutsApi(client).createLayout(steep, null, null, null, null, null, null);
            throw new AssertionError("no problem");
        } catch (ApiException refused) {
            hold(refused.getCode() == 422, refused.getCode());
            Problem problem = json.readValue(refused.getResponseBody(), Problem.class);
            hold(problem.getCode() == ProblemCode.INVALID_REQUEST && problem.getErrors().size() == 1, problem);
            Fault fault = problem.getErrors().get(0);
            hold(fault.getPointer().equals("/roof/pitch_deg") && fault.getCode() == FaultCode.OUT_OF_RANGE, fault);
        }
    }

    public static void main(String[] arguments) {
        client = new ApiClient();
        client.updateBaseUri(arguments[0]);
        json = client.getObjectMapper();
        data = Path.of(arguments[1]);
        for (String kind : List.of("layout", "recheck", "survey", "actions")) FILES.put(kind, kind + "-barn");
        FILES.put("statement", "statement-trough-hook");

        Map<String, Step> steps = new LinkedHashMap<>();
        for (String kind : FILES.keySet()) steps.put(kind, () -> judged(kind, asked(kind, null)));
        steps.put("batch", Check::batch);
        steps.put("summary", Check::summary);
        steps.put("drawing", () -> paper("image/svg+xml", "<svg "));
        steps.put("sheet", () -> paper("text/html", "<html"));
        steps.put("faults", Check::faults);
        int done = 0;
        for (Map.Entry<String, Step> step : steps.entrySet()) {
            try {
                step.getValue().run();
                done += 1;
                System.out.println("java: " + step.getKey());
            } catch (Throwable error) {
                String said = String.valueOf(error);
                System.err.println("java: " + step.getKey() + " FAILED: " + said.substring(0, Math.min(400, said.length())));
            }
        }
        System.out.println("java: " + done + " of " + steps.size());
        System.exit(done == steps.size() ? 0 : 1);
    }
}
