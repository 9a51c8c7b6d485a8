//! What the requests, and the answers, of all kinds of job on a whole roof have in common: their members
//! and the order of these, so that one document can be read next to another.

/// Declares the request of a kind of job: what describes the job, then what is asked of it, then what the
/// verdict is on, then what stands on the roof.
macro_rules! job_request {
    (
        $(#[$attribute:meta])+
        pub struct $name:ident {
            $(#[$of_wishes:meta])+
            wishes,
            asks { $($asks:tt)* }
            holds { $($holds:tt)* }
        }
    ) => {
        $(#[$attribute])+
        pub struct $name {
            /// What of it was completed before it was read: no member of its own.
            #[serde(skip)]
            #[schema(ignore)]
            pub completions: Vec<$crate::wire::short::Completion>,
            /// The caller's own name of the job; echoed.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, max_length = 200, example = "mill-barn-south")]
            pub reference: Option<String>,
            /// Rules to compute by.
            pub rules: RulesChoice,
            /// The place.
            pub site: Site,
            /// The roof.
            pub roof: Roof,
            /// The array.
            pub array: ModuleArray,
            /// The parts.
            pub components: Components,
            $(#[$of_wishes])+
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub wishes: Option<Wishes>,
            $($asks)*
            /// What the verdict is asked on; everything where it is left out. `fixing`, `rail`, `covering`
            /// and `data` are always asked. A scope that is not asked reads `not_assessed`.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, max_items = 6, example = json!(["fixing", "rail", "modules", "covering", "data"]))]
            pub scopes: Option<Vec<ScopeName>>,
            /// Checks that cannot run here and that somebody else answers for.
            #[serde(default, skip_serializing_if = "Vec::is_empty")]
            #[schema(max_items = 50)]
            pub declarations: Vec<Declaration>,
            $($holds)*
        }
    };
}

/// Declares the answer to a kind of job: what it is and what computed it, the judgement, what is told of this
/// kind, what acts and what stands on the roof, what to order and to keep, then what was found and what all
/// of it rests on.
macro_rules! job_answer {
    (
        $(#[$attribute:meta])+
        pub struct $name:ident {
            is { $($is:tt)* }
            $(#[$of_digest:meta])+
            input_digest,
            $(#[$of_verdict:meta])+
            verdict,
            tells { $($tells:tt)* }
            $(#[$of_hooks:meta])+
            hooks,
            orders { $($orders:tt)* }
        }
    ) => {
        $(#[$attribute])+
        pub struct $name {
            $($is)*
            /// Echo of the request's reference.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub reference: Option<String>,
            /// What computed this.
            pub engine: Engine,
            $(#[$of_digest])+
            pub input_digest: String,
            /// SHA-256 that names the job, hexadecimal: the same for a layout, a survey and a recheck of
            /// it, whatever its reference, whatever stands on the roof, and whether or not what the service
            /// assumed is spelled out.
            pub job_key: String,
            /// Id of the part that the hooks are, as the request names or describes it.
            #[schema(example = "plain-tile-side-hook-12")]
            pub hook_part: String,
            $(#[$of_verdict])+
            pub verdict: Verdict,
            /// The verdict and its reason, in one sentence.
            #[schema(example = "Fails: A1-3: screws 134.0 % in 7.")]
            pub headline: String,
            /// The verdict by scope; the verdict is the worst of those that were asked.
            pub verdicts: Verdicts,
            /// Checks that did not run and that somebody declared to answer for.
            pub declarations: Vec<TakenOver>,
            /// Highest utilisation of the job.
            pub utilisation: JobUtilisation,
            $($tells)*
            /// How much snow and wind it bears; on request.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub capacity: Option<CapacityAnswer>,
            /// The actions.
            pub actions: Actions,
            /// The covering as computed.
            pub covering: CoveringAnswer,
            /// The rails.
            pub rails: Vec<RailAnswer>,
            $(#[$of_hooks])+
            pub hooks: Vec<HookAnswer>,
            /// The rafters that carry hooks.
            pub rafters: Vec<RafterAnswer>,
            /// The modules.
            pub modules: Vec<ModuleAnswer>,
            $($orders)*
            /// What was found, one line a cause, most serious first.
            pub causes: Vec<Cause>,
            /// What the reader must know, place by place, most serious first.
            pub warnings: Vec<Warning>,
            /// Cautions that go with every answer.
            pub cautions: Vec<Caution>,
            /// What figures of the parts rest on, where their makers say so, with what tests give.
            #[serde(skip_serializing_if = "Vec::is_empty")]
            pub evidence: Vec<EvidenceAnswer>,
            /// Every value and every choice of model the service made for the caller.
            pub assumptions: Vec<Assumption>,
            /// The weakest provenance it rests on, where the request marks how its values are known. What the service
            /// assumed itself is among `assumptions`.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub provenance: Option<WeakestProvenance>,
            /// Every quantity with symbol, value, unit and clause; on request with `?trace=full`.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub trace: Option<Vec<TraceLine>>,
        }
    };
}

pub(crate) use {job_answer, job_request};
