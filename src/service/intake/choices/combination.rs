//! A choice, and the job with it: as a request in hand, and as edits for whoever asked.

use crate::components;
use crate::wire::choices::{Choice, ChoicesRequest};
use crate::wire::components::{ClampChoice, Components, HookChoice, RailChoice, ScrewChoice};
use crate::wire::layout::LayoutRequest;
use crate::wire::remedies::{Edit, EditOperation, EditValue};
use crate::wire::short::Completion;

/// A kind of part that may be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartChosen {
    /// The hook.
    Hook,
    /// The screw.
    Screw,
    /// The rail.
    Rail,
    /// The clamp.
    Clamp,
}

impl PartChosen {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Hook, Self::Screw, Self::Rail, Self::Clamp];

    /// Its member of `components`, and of an alternative.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hook => "hook",
            Self::Screw => "screw",
            Self::Rail => "rail",
            Self::Clamp => "clamp",
        }
    }

    /// How many parts of the kind a request lists beside that of the job.
    #[must_use]
    pub const fn listed(self, request: &ChoicesRequest) -> usize {
        let choices = &request.choices;
        match self {
            Self::Hook => choices.hooks.len(),
            Self::Screw => choices.screws.len(),
            Self::Rail => choices.rails.len(),
            Self::Clamp => choices.clamps.len(),
        }
    }

    /// Where a listed part stands, counted from 0.
    #[must_use]
    pub fn listed_at(self, place: usize) -> String {
        format!("/choices/{}s/{place}", self.name())
    }

    /// Id of a part of the kind: 0 is that of the job, 1 the first that is listed.
    #[must_use]
    pub fn id(self, request: &ChoicesRequest, part: usize) -> &str {
        let own = &request.job.components;
        let choices = &request.choices;
        match self {
            Self::Hook => match listed(&choices.hooks, part).map_or(&own.hook, |of| &of.hook) {
                HookChoice::Id(id) => id,
                HookChoice::Inline(hook) => &hook.id,
            },
            Self::Screw => match listed(&choices.screws, part).map_or(&own.screw, |of| &of.screw) {
                ScrewChoice::Id(id) => id,
                ScrewChoice::Inline(screw) => &screw.id,
            },
            Self::Rail => match listed(&choices.rails, part).map_or(&own.rail, |of| &of.rail) {
                RailChoice::Id(id) => id,
                RailChoice::Inline(rail) => &rail.id,
            },
            Self::Clamp => match listed(&choices.clamps, part).map_or(&own.clamp, |of| &of.clamp) {
                ClampChoice::Id(id) => id,
                ClampChoice::Inline(clamp) => &clamp.id,
            },
        }
    }
}

/// The part of a list that is meant; nothing where it is that of the job.
pub fn listed<T>(list: &[T], part: usize) -> Option<&T> {
    list.get(part.checked_sub(1)?)
}

/// A choice by its places.
#[derive(Debug, Clone, PartialEq)]
pub struct Combination {
    /// How far the fields of each entry of positions are shifted, to the right and up the slope, mm.
    pub shifts: Vec<[f64; 2]>,
    /// Which part of each kind: 0 is that of the job, 1 the first that is listed.
    pub parts: [usize; PartChosen::ALL.len()],
}

impl Combination {
    /// The job as it stands.
    #[must_use]
    pub fn as_asked(positions: usize) -> Self {
        Self { shifts: vec![[0.0; 2]; positions], parts: [0; PartChosen::ALL.len()] }
    }

    /// The job as it stands with another part.
    #[must_use]
    pub fn with_part(positions: usize, kind: PartChosen, part: usize) -> Self {
        let mut other = Self::as_asked(positions);
        other.parts[kind as usize] = part;
        other
    }

    /// Which part of a kind.
    #[must_use]
    pub const fn part(&self, kind: PartChosen) -> usize {
        self.parts[kind as usize]
    }

    /// The choice as an answer has it.
    #[must_use]
    pub fn told(&self, request: &ChoicesRequest) -> Choice {
        let id = |kind: PartChosen| kind.id(request, self.part(kind)).to_owned();
        Choice {
            shifts_mm: self.shifts.clone(),
            hook: id(PartChosen::Hook),
            screw: id(PartChosen::Screw),
            rail: id(PartChosen::Rail),
            clamp: id(PartChosen::Clamp),
        }
    }

    /// A pointer into the job with this choice, as it leads into the request.
    #[must_use]
    pub fn pointer(&self, in_job: &str) -> String {
        for kind in PartChosen::ALL {
            let own = format!("/components/{}", kind.name());
            let rest = in_job.strip_prefix(&own);
            let within = rest.filter(|rest| rest.is_empty() || rest.starts_with('/'));
            if let (Some(rest), Some(place)) = (within, self.part(kind).checked_sub(1)) {
                return format!("{}/{}{rest}", kind.listed_at(place), kind.name());
            }
        }
        format!("/job{in_job}")
    }

    /// The job with this choice, `moved` being the fields of each entry of positions; and the edits that make it.
    #[must_use]
    pub fn made(
        &self,
        request: &ChoicesRequest,
        moved: &[Vec<usize>],
    ) -> (LayoutRequest, Vec<Edit>) {
        let mut made = request.job.clone();
        let mut edits = Vec::new();
        self.take_parts(request, &mut made.components, &mut edits);
        let other_parts = self.parts.iter().any(|part| *part > 0);
        if other_parts {
            forget_declarations(&mut made, &mut edits);
        }
        let other_clamp = self.part(PartChosen::Clamp) > 0;
        if other_clamp {
            gaps_of_clamp(&mut made);
        }
        let mut shifts = vec![[0.0; 2]; made.array.fields.len()];
        for (fields, shift) in moved.iter().zip(&self.shifts) {
            for field in fields {
                shifts[*field] = *shift;
            }
        }
        for (field, shift) in shifts.into_iter().enumerate() {
            // Where the service put the field in the middle of the slope, another clamp would move it.
            let stays = !(other_clamp && made.completions.contains(&Completion::Origin(field)));
            if shift.iter().all(|by| *by == 0.0) && stays {
                continue;
            }
            let [x, y] = request.job.array.fields[field].origin_mm;
            let moved =
                |from: f64, by: f64| if by == 0.0 { from } else { to_a_nanometre(from + by) };
            let origin = [moved(x, shift[0]), moved(y, shift[1])];
            made.array.fields[field].origin_mm = origin;
            made.completions.retain(|completion| *completion != Completion::Origin(field));
            let path = format!("/array/fields/{field}/origin_mm");
            add(&mut edits, path, EditValue::Numbers(origin.to_vec()));
        }
        (made, edits)
    }

    fn take_parts(&self, request: &ChoicesRequest, parts: &mut Components, edits: &mut Vec<Edit>) {
        let choices = &request.choices;
        if let Some(of) = listed(&choices.hooks, self.part(PartChosen::Hook)) {
            parts.hook = of.hook.clone();
            let value = match &of.hook {
                HookChoice::Id(id) => EditValue::Id(id.clone()),
                HookChoice::Inline(hook) => EditValue::Hook(hook.clone()),
            };
            add(edits, "/components/hook", value);
        }
        if let Some(of) = listed(&choices.screws, self.part(PartChosen::Screw)) {
            parts.screw = of.screw.clone();
            let value = match &of.screw {
                ScrewChoice::Id(id) => EditValue::Id(id.clone()),
                ScrewChoice::Inline(screw) => EditValue::Screw(screw.clone()),
            };
            add(edits, "/components/screw", value);
        }
        if let Some(of) = listed(&choices.rails, self.part(PartChosen::Rail)) {
            parts.rail = of.rail.clone();
            let value = match &of.rail {
                RailChoice::Id(id) => EditValue::Id(id.clone()),
                RailChoice::Inline(rail) => EditValue::Rail(rail.clone()),
            };
            add(edits, "/components/rail", value);
        }
        if let Some(of) = listed(&choices.clamps, self.part(PartChosen::Clamp)) {
            parts.clamp = of.clamp.clone();
            let value = match &of.clamp {
                ClampChoice::Id(id) => EditValue::Id(id.clone()),
                ClampChoice::Inline(clamp) => EditValue::Clamp(clamp.clone()),
            };
            add(edits, "/components/clamp", value);
        }
    }
}

/// Shifts in decimal steps leave the last digits of a double behind.
#[must_use]
pub fn to_a_nanometre(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6 + 0.0
}

fn add(edits: &mut Vec<Edit>, path: impl Into<String>, value: EditValue) {
    edits.push(Edit { op: EditOperation::Add, path: path.into(), value });
}

/// Areas of findings that are about parts, or about how they suit the roof.
const OF_PARTS: [&str; 10] =
    ["bolt", "clamp", "clearance", "covering", "foot", "hook", "layers", "parts", "rail", "screw"];

/// Takes away what somebody declared of parts: nobody answers for others.
fn forget_declarations(request: &mut LayoutRequest, edits: &mut Vec<Edit>) {
    let is_of_parts =
        |check: &str| check.split('.').next().is_some_and(|area| OF_PARTS.contains(&area));
    let before = request.declarations.len();
    request.declarations.retain(|declared| !is_of_parts(&declared.check));
    if request.declarations.len() < before {
        add(edits, "/declarations", EditValue::Declarations(request.declarations.clone()));
    }
}

/// Gaps that nobody gives are those that the clamp takes.
fn gaps_of_clamp(request: &mut LayoutRequest) {
    let gap = match &request.components.clamp {
        ClampChoice::Inline(clamp) => Some(clamp.mid_gap_mm),
        ClampChoice::Id(id) => components::clamp(id).map(|clamp| clamp.mid_gap_mm),
    };
    let Some(gap) = gap else { return };
    for (index, field) in request.array.fields.iter_mut().enumerate() {
        if request.completions.contains(&Completion::ColumnGap(index)) {
            field.column_gap_mm = gap;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_with_a_part_that_is_listed_is_wrong_where_it_is_listed() {
        let as_asked = Combination::as_asked(0);
        let second_hook = Combination::with_part(0, PartChosen::Hook, 2);
        let cases = [
            ("/components/hook", "/job/components/hook", "/choices/hooks/1/hook"),
            (
                "/components/hook/arm/reach_mm",
                "/job/components/hook/arm/reach_mm",
                "/choices/hooks/1/hook/arm/reach_mm",
            ),
            ("/components/hooks", "/job/components/hooks", "/job/components/hooks"),
            ("/components/screw", "/job/components/screw", "/job/components/screw"),
            ("/roof/edges/0", "/job/roof/edges/0", "/job/roof/edges/0"),
            ("", "/job", "/job"),
        ];
        for (in_job, own, other) in cases {
            assert_eq!(as_asked.pointer(in_job), own);
            assert_eq!(second_hook.pointer(in_job), other);
        }
    }

    #[test]
    fn kinds_of_part_are_in_the_order_of_their_numbers() {
        for (i, kind) in PartChosen::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, i);
        }
    }
}
