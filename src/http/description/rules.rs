//! Rules between the members of an object: what goes together, and what stands for what. Readers of the
//! description can hold a request to them before they send it. The gate does not: what reads the request
//! next says of the same faults what may be given instead. `OpenAPI` 3.0 has no words for them.

use serde_json::{Map, Value, json};

/// Keywords of the rules (JSON Schema 2020-12, core, 10.2.2, and validation, 6.5.4).
const KEYWORDS: [&str; 5] = ["if", "then", "else", "dependentRequired", "dependentSchemas"];

/// The rules, by schema. Of a member with `false` for a schema no value is taken.
fn rules() -> impl Iterator<Item = (&'static str, Value)> {
    of_sites().into_iter().chain(of_roofs_and_parts())
}

fn of_sites() -> [(&'static str, Value); 4] {
    [
        (
            "Site",
            // Where the site lies on the maps of its annex, that may say the zone.
            json!({
                "if": { "properties": { "place": false } },
                "then": { "properties": { "wind": {
                    "dependentSchemas": { "terrain_category": {
                        "if": { "properties": { "zone": false, "shore_distance_km": false } },
                        "then": { "required": ["basic_velocity_m_per_s"] },
                    } },
                    "if": { "properties": {
                        "zone": false, "basic_velocity_m_per_s": false, "shore_distance_km": false,
                    } },
                    "then": { "required": ["peak_pressure_kn_per_m2"] },
                } } },
            }),
        ),
        (
            "SnowSite",
            json!({
                "dependentRequired": { "region": ["zone"] },
                // An annex may need neither a zone nor a load.
                "dependentSchemas": { "zone": { "properties": { "ground_load_kn_per_m2": false } } },
            }),
        ),
        (
            "WindSite",
            json!({
                "dependentRequired": { "setting": ["zone"] },
                "dependentSchemas": {
                    // An annex reads the distance beside a velocity, or over a terrain.
                    "shore_distance_km": {
                        "properties": { "peak_pressure_kn_per_m2": false },
                        "if": { "properties": { "basic_velocity_m_per_s": false } },
                        "then": { "required": ["terrain_category"] },
                    },
                    // An annex may read a zone by itself, over a terrain, or beside a velocity.
                    "zone": { "properties": { "peak_pressure_kn_per_m2": false } },
                    "basic_velocity_m_per_s": {
                        "if": { "properties": { "shore_distance_km": false } },
                        "then": { "required": ["terrain_category"] },
                    },
                    "peak_pressure_kn_per_m2": { "properties": {
                        "basic_velocity_m_per_s": false, "orography_factor": false,
                    } },
                    "net_coefficients": {
                        "required": ["model"], "properties": { "model": { "const": "given" } },
                    },
                    "equalisation": {
                        "required": ["model"], "properties": { "model": { "const": "equalised" } },
                    },
                    "model": {
                        "if": { "properties": { "model": { "const": "given" } } },
                        "then": { "required": ["net_coefficients"] },
                        "else": {
                            "if": { "properties": { "model": { "const": "equalised" } } },
                            "then": { "required": ["equalisation"] },
                        },
                    },
                },
            }),
        ),
        (
            "LoadedArea",
            json!({
                "if": { "properties": { "basis": { "const": "given" } } },
                "then": { "required": ["area_m2", "reason"] },
                "else": { "properties": { "area_m2": false, "reason": false } },
            }),
        ),
    ]
}

fn of_roofs_and_parts() -> [(&'static str, Value); 4] {
    [
        (
            "Rafters",
            json!({
                // An empty list is an absent one.
                "if": {
                    "required": ["positions_mm"], "properties": { "positions_mm": { "minItems": 1 } },
                },
                "then": { "properties": {
                    "first_mm": false, "spacing_mm": false, "count": false, "unmeasured": false,
                } },
                "else": {
                    "if": { "properties": { "unmeasured": false } },
                    "then": { "required": ["first_mm", "spacing_mm", "count"] },
                    "else": {
                        "properties": { "first_mm": false, "count": false },
                        "if": { "properties": { "unmeasured": {
                            "properties": { "known": { "const": "spacing" } },
                        } } },
                        "then": { "required": ["spacing_mm"] },
                        "else": { "properties": { "spacing_mm": false } },
                    },
                },
            }),
        ),
        (
            "Unmeasured",
            json!({
                "if": { "properties": { "known": { "const": "spacing" } } },
                "then": { "properties": { "spacings_mm": { "maxItems": 0 } } },
                "else": { "properties": { "shown_first_mm": false } },
            }),
        ),
        (
            "ModuleArray",
            // Only rails up the slope are held along their axis.
            json!({
                "if": { "required": ["rails_held_by"] },
                "then": {
                    "required": ["rail_direction"],
                    "if": { "properties": { "rails_held_by": { "const": "all_hooks" } } },
                    "then": { "properties": { "rail_direction": { "enum": ["up_slope", "crossing"] } } },
                    "else": { "properties": { "rail_direction": { "const": "up_slope" } } },
                },
            }),
        ),
        (
            "Hook",
            json!({
                "if": { "properties": { "resistance": false } },
                "then": { "properties": { "arm": { "required": ["grade"] } } },
            }),
        ),
    ]
}

/// Writes the rules into the schemas.
pub fn say(schemas: &mut Value) {
    for (name, rule) in rules() {
        let Value::Object(rule) = rule else { continue };
        if let Some(schema) = schemas[name].as_object_mut() {
            schema.extend(rule);
        }
    }
}

/// The schemas without the rules.
pub fn unsaid(schemas: &Value) -> Value {
    let mut plain = schemas.clone();
    for schema in plain.as_object_mut().into_iter().flat_map(Map::values_mut) {
        if let Some(schema) = schema.as_object_mut() {
            schema.retain(|name, _| !KEYWORDS.contains(&name.as_str()));
        }
    }
    plain
}
