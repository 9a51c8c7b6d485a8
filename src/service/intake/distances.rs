//! How far the array has to stay from edges of the slope, and what is said of party walls.

use crate::assessment::Assumed;
use crate::roof::{ArrayPart, Distances, Edge, EdgeDistance, PartyWall};
use crate::units::Length;
use crate::wire::distances::{ArrayPart as WirePart, OpenEdge};
use crate::wire::fault::FaultCode;
use crate::wire::roof::{EdgeKind, Roof as WireRoof};

use super::Notes;

/// Distance of modules from edges where nothing is said. Trade practice: 300 mm in the training of British
/// installers, 300 to 500 mm in German advice to owners; second-hand both.
const USUAL: Length = Length::from_mm(300.0);

/// Kinds of edge that distance is kept from.
const OPEN: [Edge; 5] = [Edge::Eaves, Edge::Verge, Edge::Ridge, Edge::Hip, Edge::Valley];

/// The distances of a slope with these sides.
pub fn distances(wire: &WireRoof, edges: &[Edge], notes: &mut Notes) -> Distances {
    Distances {
        edges: from_edges(wire, edges, notes),
        party_walls: party_walls(wire, edges, notes),
    }
}

fn from_edges(wire: &WireRoof, edges: &[Edge], notes: &mut Notes) -> Vec<EdgeDistance> {
    let mut out: Vec<EdgeDistance> = Vec::new();
    for (i, entry) in wire.edge_distances.iter().enumerate() {
        let (edge, part) = (edge_of(entry.edge), part_of(entry.part));
        let mut fault = |why: &str| {
            notes.fault(format!("/roof/edge_distances/{i}/edge"), FaultCode::Contradiction, why);
        };
        if !edges.contains(&edge) {
            fault("No side of the outline is called so in roof.edges.");
        } else if out.iter().any(|known| known.edge == edge && known.part == part) {
            fault("The distance of this part from such edges is given twice.");
        } else {
            let least = Length::from_mm(entry.least_mm);
            out.push(EdgeDistance { edge, part, least, source: Some(entry.source.clone()) });
        }
    }
    let said =
        |edge: Edge| out.iter().any(|known| known.edge == edge && known.part == ArrayPart::Modules);
    let unsaid: Vec<Edge> =
        OPEN.into_iter().filter(|edge| edges.contains(edge) && !said(*edge)).collect();
    if !unsaid.is_empty() {
        notes.note("/roof/edge_distances", Assumed::EdgeDistance(USUAL));
    }
    let usual = |edge| EdgeDistance { edge, part: ArrayPart::Modules, least: USUAL, source: None };
    out.extend(unsaid.into_iter().map(usual));
    out
}

const fn edge_of(wire: OpenEdge) -> Edge {
    match wire {
        OpenEdge::Eaves => Edge::Eaves,
        OpenEdge::Verge => Edge::Verge,
        OpenEdge::Ridge => Edge::Ridge,
        OpenEdge::Hip => Edge::Hip,
        OpenEdge::Valley => Edge::Valley,
        OpenEdge::Abutment => Edge::Abutment,
    }
}

const fn part_of(wire: Option<WirePart>) -> ArrayPart {
    match wire {
        None | Some(WirePart::Modules) => ArrayPart::Modules,
        Some(WirePart::Rails) => ArrayPart::Rails,
        Some(WirePart::Hooks) => ArrayPart::Hooks,
    }
}

fn party_walls(wire: &WireRoof, edges: &[Edge], notes: &mut Notes) -> Vec<PartyWall> {
    let mut described: Vec<usize> = Vec::new();
    for (i, entry) in wire.party_walls.iter().enumerate() {
        let side = entry.side as usize;
        let why = if edges.get(side) != Some(&Edge::PartyWall) {
            "No such side of the outline is called party_wall in roof.edges, where sides are counted from 0."
        } else if described.contains(&side) {
            "The side is described twice."
        } else {
            described.push(side);
            continue;
        };
        notes.fault(format!("/roof/party_walls/{i}/side"), FaultCode::Contradiction, why);
    }
    let sides = edges.iter().enumerate().filter(|(_, edge)| **edge == Edge::PartyWall);
    sides.map(|(side, _)| party_wall(wire, side, notes)).collect()
}

fn party_wall(wire: &WireRoof, side: usize, notes: &mut Notes) -> PartyWall {
    let entry = wire.party_walls.iter().enumerate().find(|(_, wall)| wall.side as usize == side);
    let pointer = match entry {
        Some((i, _)) => format!("/roof/party_walls/{i}"),
        None => format!("/roof/edges/{side}"),
    };
    notes.note(&format!("/roof/edges/{side}"), Assumed::PartyWallAsVerge);
    if wire.abutments.iter().all(|wall| wall.side as usize != side) {
        notes.note("/roof/abutments", Assumed::PartyWallBelowCovering);
    }
    let entry = entry.map(|(_, entry)| entry);
    let given = |of: Option<f64>| of.map(Length::from_mm);
    let at = |member: &str| match entry {
        Some(_) => format!("{pointer}/{member}"),
        None => pointer.clone(),
    };
    if entry.is_none_or(|entry| entry.roof_beyond_m.is_none()) {
        notes.note(&at("roof_beyond_m"), Assumed::LongRow(Length::from_m(row_beyond_m(wire))));
    }
    PartyWall {
        side,
        face: notes.assume(
            &at("wall_on_slope_mm"),
            given(entry.and_then(|entry| entry.wall_on_slope_mm)),
            Length::ZERO,
            Assumed::PartyWallFace,
        ),
        fire: entry
            .and_then(|entry| entry.fire_distance.as_ref())
            .map(|fire| (Length::from_mm(fire.least_mm), fire.source.clone())),
    }
}

/// How far a row runs on beyond a party wall of which nothing is said, m: zones of the wind grow with its
/// length up to twice its height and no farther, EN 1991-1-4 7.2.5(2).
fn row_beyond_m(wire: &WireRoof) -> f64 {
    2.0 * wire.ridge_height_m
}

/// Length of the building for the wind: the house, and what runs on beyond its party walls, m.
pub fn length_of_row_m(wire: &WireRoof) -> f64 {
    let beyond = |(side, _): (usize, &EdgeKind)| {
        let entry = wire.party_walls.iter().find(|wall| wall.side as usize == side);
        entry.and_then(|wall| wall.roof_beyond_m).unwrap_or_else(|| row_beyond_m(wire))
    };
    let walls = wire.edges.iter().enumerate().filter(|(_, edge)| **edge == EdgeKind::PartyWall);
    wire.length_m + walls.map(beyond).sum::<f64>()
}
