//! The planning problem and the plan as JSON, version 1 of the planning model.
//!
//! Field names live here alone. Reading refuses unknown and doubled fields, and checks the values, with one error: file,
//! place, cause, remedy. Units as in [`crate::planning`].

mod node;
mod problem_fields;
mod problem_writing;

use serde_json::{Map, Value, json};
use thiserror::Error;

use crate::planning::{Place, Plan, Problem, ProblemFault, Season};

pub use problem_writing::problem_text;

/// The version of the model that is read and written.
pub const MODEL_VERSION: f64 = 1.0;

/// Why a problem could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ReadProblemError {
    /// The text is not JSON.
    #[error("{source_name}: line {line}, column {column}: {cause}; give a problem as JSON text")]
    NotJson {
        /// The file or other source.
        source_name: String,
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader says.
        cause: String,
    },
    /// A field is missing, unknown, doubled or of the wrong kind.
    #[error("{source_name}: {field}")]
    Field {
        /// The file or other source.
        source_name: String,
        /// Place, cause and remedy.
        field: FieldFault,
    },
    /// The values make no sense together.
    #[error("{source_name}: {fault}")]
    Value {
        /// The file or other source.
        source_name: String,
        /// Place, cause and remedy.
        fault: ProblemFault,
    },
}

/// A field that cannot be read: place, cause and remedy.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{place}: {cause}; {remedy}")]
pub struct FieldFault {
    /// Where, like `strips[2].area_ha`.
    pub place: String,
    /// What is wrong.
    pub cause: String,
    /// What to do.
    pub remedy: String,
}

/// Reads and checks a planning problem; `source_name` is what errors call it.
///
/// # Errors
/// The first fault, with place, cause and remedy.
pub fn read_problem(text: &str, source_name: &str) -> Result<Problem, ReadProblemError> {
    let source = || source_name.to_owned();
    let node: node::Node =
        serde_json::from_str(text).map_err(|error| ReadProblemError::NotJson {
            source_name: source(),
            line: error.line(),
            column: error.column(),
            cause: plain_cause(&error),
        })?;
    let problem = problem_fields::problem_from(&node).map_err(|field| ReadProblemError::Field {
        source_name: source(),
        field,
    })?;
    Season::compile(&problem).map_err(|fault| ReadProblemError::Value {
        source_name: source(),
        fault,
    })?;
    Ok(problem)
}

/// What the reader says, without the place, which is given apart.
fn plain_cause(error: &serde_json::Error) -> String {
    let text = error.to_string();
    let cause = text.split(" at line ").next().unwrap_or_default();
    cause.to_owned()
}

/// The plan as JSON text, ending in a line break. Figures read back equal.
pub fn plan_text(season: &Season, plan: &Plan) -> String {
    let figures = &plan.figures;
    let days: Vec<Value> = (0..season.n_days)
        .map(|day| day_value(season, plan, day))
        .collect();
    let cover: Map<String, Value> = season
        .strips
        .iter()
        .zip(&plan.cover)
        .map(|(strip, covers)| (strip.name.clone(), json!(covers)))
        .collect();
    let value = json!({
        "model": 1,
        "score": figures.score,
        "short_kg": figures.short_kg,
        "lost_kg": figures.lost_kg,
        "walk_m": figures.walk_m,
        "moves": figures.moves,
        "bare_kg": figures.bare_kg,
        "days": days,
        "cover": cover,
    });
    format!("{value}\n")
}

fn day_value(season: &Season, plan: &Plan, day: usize) -> Value {
    let mut stands = Map::new();
    let mut short = Map::new();
    for (index, mob) in season.mobs.iter().enumerate() {
        let place = match plan.place(index, day) {
            Place::Away => continue,
            Place::Yard => Value::Null,
            place @ Place::Strip(_) => json!(season.place_name(place)),
        };
        stands.insert(mob.name.clone(), place);
        let missing = plan.short.get(index).and_then(|days| days.get(day));
        short.insert(mob.name.clone(), json!(missing.copied().unwrap_or(0.0)));
    }
    json!({
        "day": season.date(day).to_string(),
        "stands": stands,
        "short_kg": short,
    })
}
