//! Where a job stands: site and building, wherever a request keeps them.

use crate::model::actions::ActionsRequest;
use crate::model::roof::RoofForm;
use crate::model::site::Site as WireSite;

use super::Common;

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
    /// Building along the eaves, m.
    pub length_m: f64,
    /// Building across the eaves, m.
    pub width_m: f64,
}

impl<'a> From<&Common<'a>> for Place<'a> {
    fn from(request: &Common<'a>) -> Self {
        Self {
            site: request.site,
            form: request.roof.form,
            pitch_deg: request.roof.pitch_deg,
            ridge_height_m: request.roof.ridge_height_m,
            length_m: request.roof.length_m,
            width_m: request.roof.width_m,
        }
    }
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
        }
    }
}
