//! Handlers, one file per resource: translation and nothing else. And the table of the kinds of job,
//! from which everything follows that is done with all of them.

pub mod actions;
pub mod batches;
pub mod buildings;
pub mod catalogue;
pub mod choices;
pub mod layouts;
pub mod meta;
pub mod rechecks;
pub mod statements;
pub mod surveys;

use crate::http::forms::Forms;
use crate::http::job::job_kinds;
use crate::http::pages::statement;
use crate::service::building::shown;
use crate::wire::actions::{ActionsAnswer, ActionsRequest};
use crate::wire::building::{BuildingAnswer, BuildingRequest};
use crate::wire::choices::{ChoicesAnswer, ChoicesRequest};
pub use crate::wire::kinds::JobKind;
use crate::wire::layout::{LayoutAnswer, LayoutRequest};
use crate::wire::recheck::{RecheckAnswer, RecheckRequest};
use crate::wire::sheets::SheetPart;
use crate::wire::statement::{StatementAnswer, StatementRequest};
use crate::wire::survey::{SurveyAnswer, SurveyRequest};

job_kinds! {
    /// A layout.
    Layout as LayoutTag: LayoutRequest => LayoutAnswer or LayoutReply,
        line LayoutLine => LayoutLineAnswer, by layouts::create_layout,
        forms Forms::DRAWN,
        about "layouts" "Lay out a job and check it.",
        example "../../../tests/data/layout-barn.json";
    /// A building of several slopes.
    Building as BuildingTag: BuildingRequest => BuildingAnswer or BuildingReply,
        line BuildingLine => BuildingLineAnswer, by buildings::create_building,
        forms Forms::with_all((shown::sheet, &SheetPart::EVERY), shown::drawing),
        about "buildings" "Lay out several slopes of one building, with one order.",
        example "../../../tests/data/building-gable.json";
    /// A layout with freedom.
    Choices as ChoicesTag: ChoicesRequest => ChoicesAnswer or ChoicesReply,
        line ChoicesLine => ChoicesLineAnswer, by choices::choose_layout,
        forms Forms::JSON,
        about "choices" "Find the best of many layouts of one job.",
        example "../../../tests/data/choices-barn.json";
    /// A recheck.
    Recheck as RecheckTag: RecheckRequest => RecheckAnswer or RecheckReply,
        line RecheckLine => RecheckLineAnswer, by rechecks::create_recheck,
        forms Forms::DRAWN,
        about "rechecks" "Check a job as it was built.",
        example "../../../tests/data/recheck-barn.json";
    /// A survey.
    Survey as SurveyTag: SurveyRequest => SurveyAnswer or SurveyReply,
        line SurveyLine => SurveyLineAnswer, by surveys::create_survey,
        forms Forms::DRAWN,
        about "surveys" "Choose packers and slots from what was measured on the roof.",
        example "../../../tests/data/survey-barn.json";
    /// What acts.
    Actions as ActionsTag: ActionsRequest => ActionsAnswer or ActionsReply,
        line ActionsLine => ActionsLineAnswer, by actions::show_actions,
        forms Forms::JSON,
        about "actions" "What acts on a slope.",
        example "../../../tests/data/actions-barn.json";
    /// A maker's statement.
    Statement as StatementTag: StatementRequest => StatementAnswer or StatementReply,
        line StatementLine => StatementLineAnswer, by statements::check_statement,
        forms Forms::with_sheet(statement::sheet),
        about "statements" "What makers state of their parts, and what every figure rests on.",
        example "../../../tests/data/statement-trough-hook.json";
}
