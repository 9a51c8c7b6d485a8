//! Where a job stands: site and building, wherever a request keeps them.

use crate::wire::actions::ActionsRequest;
use crate::wire::capacity::Event;
use crate::wire::roof::{EdgeKind, ObstacleKind, Roof, RoofForm};
use crate::wire::site::Site as WireSite;

use super::Common;
use super::distances::length_of_row_m;

/// The site and the building on it, wherever a request keeps them.
#[derive(Debug, Clone, Copy)]
pub struct Place<'a> {
    /// The site.
    pub site: &'a WireSite,
    /// Form of the whole roof.
    pub form: RoofForm,
    /// Pitch of the slope, degrees.
    pub pitch_deg: f64,
    /// Ridge above the ground, m.
    pub ridge_height_m: f64,
    /// Building along the eaves, m: of a house in a row all of it.
    pub length_m: f64,
    /// Building across the eaves, m.
    pub width_m: f64,
    /// Something on the slope or below it keeps snow from sliding.
    pub holds_snow: bool,
    /// What was observed, to be judged in the place of the site's snow and wind.
    pub event: Option<&'a Event>,
}

impl<'a> From<&Common<'a>> for Place<'a> {
    fn from(request: &Common<'a>) -> Self {
        Self {
            site: request.site,
            form: request.roof.form,
            pitch_deg: request.roof.pitch_deg,
            ridge_height_m: request.roof.ridge_height_m,
            length_m: length_of_row_m(request.roof),
            width_m: request.roof.width_m,
            holds_snow: holds_snow(request.roof),
            event: request.event,
        }
    }
}

/// Whether there is a guard, or a wall or a valley along the lower edge.
fn holds_snow(roof: &Roof) -> bool {
    let below = |side: usize| {
        let [from, to] = [0, 1].map(|end| roof.outline_mm[(side + end) % roof.outline_mm.len()]);
        to[0] > from[0] && (to[1] - from[1]).abs() < 1.0
    };
    let sides = roof.edges.iter().enumerate().take(roof.outline_mm.len());
    let holds = |edge: &EdgeKind| matches!(edge, EdgeKind::Abutment | EdgeKind::Valley);
    roof.obstacles.iter().any(|obstacle| obstacle.kind == ObstacleKind::SnowGuard)
        || sides.into_iter().any(|(side, edge)| holds(edge) && below(side))
}

impl<'a> From<&'a ActionsRequest> for Place<'a> {
    fn from(request: &'a ActionsRequest) -> Self {
        Self {
            site: &request.site,
            form: request.roof.form,
            pitch_deg: request.roof.pitch_deg,
            ridge_height_m: request.roof.ridge_height_m,
            length_m: request.roof.length_m,
            width_m: request.roof.width_m,
            holds_snow: false,
            event: None,
        }
    }
}
