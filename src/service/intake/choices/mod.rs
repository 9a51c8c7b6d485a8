//! A layout with freedom: what may be chosen, by what it is chosen, and which of it is refused from the start.
//!
//! A choice that cannot be laid, such as one that moves modules off the roof, is no fault of the request: it is
//! found when the choice is looked at. Whatever is wrong with every choice, or with a part by itself, is.

pub mod combination;

use crate::assessment::Verdict;
use crate::wire::choices::{Aim, ChoicesRequest, LeastVerdict, Positions, Rate, Shifts};
use crate::wire::fault::{Fault, FaultCode};

use super::{Notes, take};
use combination::{Combination, PartChosen, to_a_nanometre};

/// Most choices of a request.
const MAX_CHOICES: usize = 10_000;

/// Choices of the table where the caller says no number.
const USUAL_ROWS: u32 = 50;

/// A layout with freedom, understood.
#[derive(Debug, Clone)]
pub struct TakenChoices {
    /// Indices of the fields that each entry of positions moves.
    pub moved: Vec<Vec<usize>>,
    /// Every choice, the job as it stands first.
    pub all: Vec<Combination>,
    /// What is aimed for.
    pub weights: Weights,
    /// Verdict that the best has to have at least.
    pub least: Verdict,
    /// Most rows of the table.
    pub rows: usize,
}

/// What each figure of a layout counts.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Weights {
    /// A hook.
    pub hooks: f64,
    /// A unit of the price.
    pub price: f64,
    /// A kilogram.
    pub mass: f64,
    /// A tile that comes off.
    pub tiles_lifted: f64,
    /// A minute.
    pub minutes: f64,
}

/// Understands a request for a layout with freedom.
///
/// # Errors
/// Every fault that the schema cannot see and that is not one of a choice alone.
pub fn take_choices(request: &ChoicesRequest) -> Result<TakenChoices, Vec<Fault>> {
    let mut notes = Notes::default();
    nothing_fixed(request, &mut notes);
    let moved = moved(request, &mut notes);
    let steps = steps(request, &mut notes);
    told_apart(request, &mut notes);
    let weights = weights(&request.aim, &mut notes);
    rated(request, weights, &mut notes);
    let count = count(request, &steps);
    if count > MAX_CHOICES as u64 {
        let detail = format!(
            "There would be {count} choices to look at; one request may have {MAX_CHOICES}. Take longer steps, or fewer parts."
        );
        notes.fault("/choices", FaultCode::OutOfRange, detail);
    }
    of_every_choice(request, &mut notes);
    if notes.faults.is_empty() {
        Ok(TakenChoices {
            moved,
            all: all(request, &steps),
            weights,
            least: least(request.least_verdict),
            rows: usize::try_from(request.rows.unwrap_or(USUAL_ROWS)).unwrap_or(usize::MAX),
        })
    } else {
        Err(notes.faults)
    }
}

/// The verdict that is asked for, where nothing is said that of a layout that holds.
const fn least(said: Option<LeastVerdict>) -> Verdict {
    match said {
        Some(LeastVerdict::Holds) => Verdict::Holds,
        Some(LeastVerdict::HoldsWithWarnings) | None => Verdict::HoldsWithWarnings,
        Some(LeastVerdict::Incomplete) => Verdict::Incomplete,
    }
}

/// Refuses freedom over what is there already, and over rafters that nobody has seen.
fn nothing_fixed(request: &ChoicesRequest, notes: &mut Notes) {
    if request.job.roof.rafters.unmeasured.is_some() {
        let detail = "Choices are made for rafters that are measured: ask for a layout first.";
        notes.fault("/job/roof/rafters/unmeasured", FaultCode::Contradiction, detail);
    }
    for kind in PartChosen::ALL {
        if request.job.kept.is_some() && kind.listed(request) > 0 {
            let list = format!("/choices/{}s", kind.name());
            let why = "Hooks and rails that are there already have the parts they have.";
            notes.contradiction([&list, "/job/kept"], why);
        }
    }
}

/// The fields that each entry of positions moves.
fn moved(request: &ChoicesRequest, notes: &mut Notes) -> Vec<Vec<usize>> {
    let fields = &request.job.array.fields;
    let mut moved: Vec<Vec<usize>> = Vec::new();
    for (entry, positions) in request.choices.positions.iter().enumerate() {
        let pointer = format!("/choices/positions/{entry}");
        let mut own = Vec::new();
        if positions.fields.is_empty() {
            own.extend((0..fields.len()).map(|field| (pointer.clone(), field)));
        }
        for (at, name) in positions.fields.iter().enumerate() {
            let pointer = format!("{pointer}/fields/{at}");
            if let Some(field) = fields.iter().position(|field| field.id == *name) {
                own.push((pointer, field));
            } else {
                let detail = format!("No field of the job is called \"{name}\".");
                notes.fault(pointer, FaultCode::UnknownValue, detail);
            }
        }
        let mut indices = Vec::with_capacity(own.len());
        for (pointer, field) in own {
            let name = &fields[field].id;
            if indices.contains(&field) || moved.iter().flatten().any(|other| *other == field) {
                let detail = format!("Field \"{name}\" is moved twice.");
                notes.fault(pointer.clone(), FaultCode::Contradiction, detail);
            }
            if fields[field].fill.is_some() {
                let detail = format!("Field \"{name}\" is filled: where its modules lie is found.");
                notes.fault(pointer, FaultCode::Contradiction, detail);
            }
            indices.push(field);
        }
        moved.push(indices);
    }
    moved
}

/// The shifts of each entry of positions, to the right and up the slope.
fn steps(request: &ChoicesRequest, notes: &mut Notes) -> Vec<[Vec<f64>; 2]> {
    let of = |(entry, positions): (usize, &Positions)| {
        let pointer = format!("/choices/positions/{entry}");
        if positions.right.is_none() && positions.up.is_none() {
            let detail = "Give shifts to the right, up the slope, or both.";
            notes.fault(pointer.clone(), FaultCode::ChooseOne, detail);
        }
        let ways = [("right", positions.right), ("up", positions.up)];
        ways.map(|(name, shifts)| match shifts {
            Some(shifts) => in_steps(shifts, &format!("{pointer}/{name}"), notes),
            None => vec![0.0],
        })
    };
    request.choices.positions.iter().enumerate().map(of).collect()
}

/// Shifts from the first to the last.
fn in_steps(shifts: Shifts, pointer: &str, notes: &mut Notes) -> Vec<f64> {
    let Shifts { from_mm, to_mm, step_mm } = shifts;
    if to_mm < from_mm {
        let detail = format!("{to_mm} is less than {from_mm}, where the shifts begin.");
        notes.fault(format!("{pointer}/to_mm"), FaultCode::OutOfRange, detail);
        return vec![from_mm];
    }
    let shifts = (0_u32..).map(|k| to_a_nanometre(from_mm + step_mm * f64::from(k)));
    // More than a request may have are refused: there is no need for all of them.
    let shifts = shifts.take_while(|shift| *shift <= to_a_nanometre(to_mm));
    shifts.take(MAX_CHOICES + 1).collect()
}

/// No two parts of a kind have the same id: rows of the answer tell them apart by it.
fn told_apart(request: &ChoicesRequest, notes: &mut Notes) {
    for kind in PartChosen::ALL {
        for part in 1..=kind.listed(request) {
            let id = kind.id(request, part);
            if (0..part).any(|other| kind.id(request, other) == id) {
                let pointer = format!("{}/{}", kind.listed_at(part - 1), kind.name());
                let name = kind.name();
                let detail = format!("Another {name} is already called \"{id}\".");
                notes.fault(pointer, FaultCode::Contradiction, detail);
            }
        }
    }
}

fn weights(aim: &Aim, notes: &mut Notes) -> Weights {
    let Aim { hooks, price, mass, tiles_lifted, minutes } = *aim;
    let weights = Weights {
        hooks: hooks.unwrap_or_default(),
        price: price.unwrap_or_default(),
        mass: mass.unwrap_or_default(),
        tiles_lifted: tiles_lifted.unwrap_or_default(),
        minutes: minutes.unwrap_or_default(),
    };
    if weights == Weights::default() {
        notes.fault("/aim", FaultCode::ChooseOne, "Give one of the figures a weight above 0.");
    }
    weights
}

/// What one costs and how long it takes, and what the figure is called.
type Figure = (&'static str, fn(&Rate) -> Option<f64>);

const PRICE: Figure = ("price", |rate| rate.price);
const MINUTES: Figure = ("minutes", |rate| rate.minutes);

/// Parts of a kind are compared with each other: either all of them have a price, or none; and where price is aimed
/// for, all of them and something at all. The same of minutes.
fn rated(request: &ChoicesRequest, weights: Weights, notes: &mut Notes) {
    for ((name, figure), weight) in [(PRICE, weights.price), (MINUTES, weights.minutes)] {
        let mut missing = Vec::new();
        let mut any = request.rates.as_ref().is_some_and(|rates| rates.any(figure));
        for kind in PartChosen::ALL.into_iter().filter(|kind| kind.listed(request) > 0) {
            let of_kind = 0..=kind.listed(request);
            let given: Vec<bool> = of_kind
                .map(|part| rate(request, kind, part).is_some_and(|of| figure(&of).is_some()))
                .collect();
            any |= given.contains(&true);
            if weight <= 0.0 && !given.contains(&true) {
                continue;
            }
            for (part, _) in given.iter().enumerate().filter(|(_, given)| !**given) {
                let pointer = match part.checked_sub(1) {
                    Some(place) => format!("{}/{name}", kind.listed_at(place)),
                    None => format!("/rates/{}/{name}", kind.name()),
                };
                missing.push((pointer, kind));
            }
        }
        if weight > 0.0 && !any {
            let detail =
                format!("\"{name}\" is aimed for, and nothing has any: give it in \"rates\".");
            notes.fault("/rates", FaultCode::Missing, detail);
            continue;
        }
        for (pointer, kind) in missing {
            let detail = format!(
                "\"{name}\" is required and is not there: a {} is compared with others by it.",
                kind.name()
            );
            notes.fault(pointer, FaultCode::Missing, detail);
        }
    }
}

/// What a part of a kind costs and how long it takes: 0 is that of the job, 1 the first that is listed.
#[must_use]
pub fn rate(request: &ChoicesRequest, kind: PartChosen, part: usize) -> Option<Rate> {
    use combination::listed;
    let choices = &request.choices;
    if part == 0 {
        let rates = request.rates.as_ref()?;
        return match kind {
            PartChosen::Hook => rates.hook,
            PartChosen::Screw => rates.screw,
            PartChosen::Rail => rates.rail,
            PartChosen::Clamp => rates.clamp,
        };
    }
    let (price, minutes) = match kind {
        PartChosen::Hook => listed(&choices.hooks, part).map(|of| (of.price, of.minutes)),
        PartChosen::Screw => listed(&choices.screws, part).map(|of| (of.price, of.minutes)),
        PartChosen::Rail => listed(&choices.rails, part).map(|of| (of.price, of.minutes)),
        PartChosen::Clamp => listed(&choices.clamps, part).map(|of| (of.price, of.minutes)),
    }?;
    Some(Rate { price, minutes })
}

/// How many choices there are.
fn count(request: &ChoicesRequest, steps: &[[Vec<f64>; 2]]) -> u64 {
    let positions = steps.iter().flatten().map(|shifts| shifts.len() as u64);
    let parts = PartChosen::ALL.into_iter().map(|kind| kind.listed(request) as u64 + 1);
    let grid = positions.chain(parts).fold(1_u64, u64::saturating_mul);
    let is_there = steps.iter().flatten().all(|shifts| shifts.contains(&0.0));
    grid.saturating_add(u64::from(!is_there))
}

/// Every choice: the job as it stands, then the others, positions in the order of their shifts and at each the parts.
fn all(request: &ChoicesRequest, steps: &[[Vec<f64>; 2]]) -> Vec<Combination> {
    let as_asked = Combination::as_asked(steps.len());
    let mut all = vec![Combination { shifts: Vec::new(), ..as_asked.clone() }];
    for [right, up] in steps {
        all = all
            .into_iter()
            .flat_map(|so_far| {
                let at = right.iter().flat_map(|x| up.iter().map(move |y| [*x, *y]));
                at.map(move |shift| {
                    let mut further = so_far.clone();
                    further.shifts.push(shift);
                    further
                })
            })
            .collect();
    }
    for kind in PartChosen::ALL {
        let parts = kind.listed(request);
        all = all
            .into_iter()
            .flat_map(|so_far| {
                (0..=parts).map(move |part| {
                    let mut further = so_far.clone();
                    further.parts[kind as usize] = part;
                    further
                })
            })
            .collect();
    }
    all.retain(|choice| *choice != as_asked);
    all.insert(0, as_asked);
    all
}

/// Faults that every choice has, and those of parts by themselves. Where fields lie is a matter of each choice if
/// they may be moved.
fn of_every_choice(request: &ChoicesRequest, notes: &mut Notes) {
    let may_move = !request.choices.positions.is_empty();
    let of_position = |fault: &Fault| may_move && fault.pointer.starts_with("/array/fields");
    let positions = request.choices.positions.len();
    let as_asked = Combination::as_asked(positions);
    if request.job.roof.rafters.unmeasured.is_some() {
        // What else is wrong is found once they are measured.
        return;
    }
    if let Err(faults) = take(&request.job) {
        let of_all = faults.into_iter().filter(|fault| !of_position(fault));
        notes.faults.extend(of_all.map(|fault| in_request(fault, &as_asked)));
    }
    for kind in PartChosen::ALL {
        let own = format!("/components/{}", kind.name());
        for part in 1..=kind.listed(request) {
            let with = Combination::with_part(positions, kind, part);
            let moved = vec![Vec::new(); positions];
            let Err(faults) = take(&with.made(request, &moved).0) else { continue };
            let of_part = |fault: &Fault| {
                let rest = fault.pointer.strip_prefix(&own);
                rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
            };
            let of_part = faults.into_iter().filter(of_part);
            notes.faults.extend(of_part.map(|fault| in_request(fault, &with)));
        }
    }
}

/// A fault of the job with a choice, as it is one of the request.
#[must_use]
pub fn in_request(fault: Fault, choice: &Combination) -> Fault {
    Fault { pointer: choice.pointer(&fault.pointer), ..fault }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shifts_end_where_they_are_said_to() {
        let shifts = |from_mm, to_mm, step_mm| {
            let mut notes = Notes::default();
            let shifts = in_steps(Shifts { from_mm, to_mm, step_mm }, "", &mut notes);
            (shifts, notes.faults.len())
        };
        assert_eq!(shifts(-20.0, 20.0, 10.0), (vec![-20.0, -10.0, 0.0, 10.0, 20.0], 0));
        assert_eq!(shifts(0.0, 25.0, 10.0), (vec![0.0, 10.0, 20.0], 0));
        assert_eq!(shifts(5.0, 5.0, 10.0), (vec![5.0], 0));
        // In binary three steps of 1.1 are a little more than 3.3.
        assert_eq!(shifts(0.0, 3.3, 1.1).0.len(), 4);
        assert_eq!(shifts(5.0, 4.0, 10.0), (vec![5.0], 1));
    }
}
