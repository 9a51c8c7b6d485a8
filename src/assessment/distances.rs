//! How far the array stays from edges of the slope and from party walls.

use crate::geometry::{Point, Rect};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::rail_lines::RailLine;
use crate::roof::{ArrayPart, Edge, EdgeDistance, PartyWall};
use crate::units::Length;

use super::value::{PartName, SideName};
use super::{Fact, Findings, Place};

/// A place a tenth of a millimetre too near is as near as its drawing.
const DRAWN: Length = Length::from_mm(0.1);

/// Every distance that is asked for.
pub(super) fn distances(job: &Job, layout: &Layout, out: &mut Findings) {
    for asked in &job.roof.distances.edges {
        from_edge(job, layout, asked, out);
    }
    for wall in &job.roof.distances.party_walls {
        from_party_wall(job, layout, wall, out);
    }
}

/// A part of the array, by name and place.
struct Part {
    of: ArrayPart,
    name: String,
    rect: Rect,
}

/// Everything of one kind, or of all that may not come near.
fn parts(job: &Job, layout: &Layout, of: ArrayPart) -> Vec<Part> {
    let part = |name: String, rect| Part { of, name, rect };
    match of {
        ArrayPart::Modules => {
            let modules = layout.modules.iter();
            modules.map(|m| part(job.module_name(&m.placed), m.placed.rect)).collect()
        }
        ArrayPart::Rails => {
            let half = job.rail.depth / 2.0;
            let rail = |line: &RailLine| part(line.id.clone(), line.rect(half));
            layout.rails.iter().map(|r| rail(&r.line)).collect()
        }
        ArrayPart::Hooks => {
            let hooks = layout.hooks().map(|(at, place)| {
                let rect =
                    job.hook.footprint(place.x, layout.rails[at[0]].line.height_at(place.at));
                part(layout.hook_name(at).to_owned(), rect)
            });
            hooks.collect()
        }
    }
}

/// The part nearest to a line, and how near it is.
fn nearest(parts: Vec<Part>, line: [Point; 2]) -> Option<(Part, Length)> {
    let each = parts.into_iter().map(|part| {
        let have = Length::from_mm(part.rect.distance(line));
        (part, have)
    });
    each.reduce(|least, next| if next.1 < least.1 { next } else { least })
}

fn from_edge(job: &Job, layout: &Layout, asked: &EdgeDistance, out: &mut Findings) {
    let edges = job.roof.edges.iter().enumerate();
    let sides = edges.filter(|(_, edge)| **edge == asked.edge).map(|(side, _)| side);
    let near = sides.filter_map(|side| {
        let (part, have) = nearest(parts(job, layout, asked.part), job.roof.side(side))?;
        Some((side, part, have))
    });
    let near = near.reduce(|least, next| if next.2 < least.2 { next } else { least });
    let Some((side, part, have)) = near.filter(|near| near.2 < asked.least - DRAWN) else {
        return;
    };
    let (element, edge, need) = (part.name, side_name(asked.edge), asked.least);
    let fact = match &asked.source {
        None => Fact::NearEdge { edge, side, element, have, need },
        Some(stated) => {
            let (part, stated) = (part_name(asked.part), stated.clone());
            Fact::InsideEdgeDistance { part, edge, side, element, have, need, stated }
        }
    };
    out.add(place(asked.part), fact);
}

fn from_party_wall(job: &Job, layout: &Layout, wall: &PartyWall, out: &mut Findings) {
    let mut all = parts(job, layout, ArrayPart::Modules);
    all.extend(parts(job, layout, ArrayPart::Rails));
    let Some((part, from_side)) = nearest(all, job.roof.side(wall.side)) else { return };
    let (side, have) = (wall.side, (from_side - wall.face).max(Length::ZERO));
    if have >= wall.kept() - DRAWN {
        return;
    }
    let element = part.name;
    let fact = match &wall.fire {
        None => Fact::FireDistanceUnknown { side, element, have },
        Some((need, stated)) => {
            let (part, need, stated) = (part_name(part.of), *need, stated.clone());
            Fact::InsideFireDistance { side, part, element, have, need, stated }
        }
    };
    out.add(place(part.of), fact);
}

const fn place(part: ArrayPart) -> Place {
    match part {
        ArrayPart::Modules => Place::Modules,
        ArrayPart::Rails => Place::Rails,
        ArrayPart::Hooks => Place::Hooks,
    }
}

const fn part_name(part: ArrayPart) -> PartName {
    match part {
        ArrayPart::Modules => PartName::Modules,
        ArrayPart::Rails => PartName::Rails,
        ArrayPart::Hooks => PartName::Hooks,
    }
}

const fn side_name(edge: Edge) -> SideName {
    match edge {
        Edge::Eaves => SideName::Eaves,
        Edge::Verge => SideName::Verge,
        Edge::Ridge => SideName::Ridge,
        Edge::Hip => SideName::Hip,
        Edge::Valley => SideName::Valley,
        Edge::Abutment => SideName::Abutment,
        Edge::PartyWall => SideName::PartyWall,
    }
}
