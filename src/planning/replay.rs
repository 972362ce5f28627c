//! Lives a plan day by day and keeps every figure: what is eaten, short, lost, walked, and the cover of each morning.
//!
//! The meaning of a plan stands here, once; the search has a faster reckoning of its own that is held to this one.
//! Masses are kg DM (per hectare for cover), distances metres. Does not judge rules: see [`super::rules`].

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::season::{Place, Season, distance_m};

/// Everything that living a plan comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Replay {
    /// The sums.
    pub figures: Figures,
    /// Demand not met by grazing, by mob and day, kg DM; 0 while away.
    pub short: Vec<Vec<f64>>,
    /// Cover by strip, on each morning and on the one after the last day, kg DM/ha.
    pub cover: Vec<Vec<f64>>,
    /// Growth lost at the ceiling by strip, over the season, kg DM.
    pub lost: Vec<f64>,
}

/// The sums of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Figures {
    /// The score, kg DM; smaller is better.
    pub score: f64,
    /// Demand not met by grazing, kg DM.
    pub short_kg: f64,
    /// Growth lost at the ceiling on open days, kg DM.
    pub lost_kg: f64,
    /// Distance walked, m.
    pub walk_m: f64,
    /// Number of moves.
    pub moves: usize,
    /// Mass missing from the wanted end cover, kg DM.
    pub bare_kg: f64,
}

/// Lives `stands`, which must hold a place for every mob and day of the season.
pub fn replay(season: &Season, stands: &[Vec<Place>]) -> Replay {
    let mut figures = Figures::default();
    let mut short = vec![vec![0.0; season.n_days]; season.mobs.len()];
    let mut lost = vec![0.0; season.strips.len()];
    let mut cover: Vec<Vec<f64>> = season
        .strips
        .iter()
        .map(|strip| {
            let mut row = Vec::with_capacity(season.n_days + 1);
            row.push(strip.cover);
            row
        })
        .collect();
    let mut now: Vec<f64> = season.strips.iter().map(|strip| strip.cover).collect();
    for day in 0..season.n_days {
        for (index, mob) in season.mobs.iter().enumerate() {
            let place = stands[index][day];
            if place == Place::Away {
                continue;
            }
            let missing = mob.demand[day] - graze(season, &mut now, place, mob.demand[day]);
            short[index][day] = missing;
            figures.short_kg += missing;
            let before = season.comes_from(mob, &stands[index], day);
            if before != place {
                figures.walk_m += distance_m(season.spot(mob, before), season.spot(mob, place));
                figures.moves += 1;
            }
        }
        for (index, strip) in season.strips.iter().enumerate() {
            let grown = season.growth[day] * strip.growth_factor;
            let shape = season.growth_shape;
            if !strip.closed[day] {
                lost[index] += shape.lost(now[index], grown, strip.ceiling) * strip.area;
            }
            now[index] = shape.grown(now[index], grown, strip.ceiling);
            cover[index].push(now[index]);
        }
    }
    figures.lost_kg = lost.iter().sum();
    for (strip, &last) in season.strips.iter().zip(&now) {
        if let Some(wanted) = strip.end_cover {
            figures.bare_kg += strip.area * (wanted - last).max(0.0);
        }
    }
    figures.score = score(season, &figures);
    Replay {
        figures,
        short,
        cover,
        lost,
    }
}

/// Takes what a mob eats off the strip it stands on, and says how much that was, kg DM.
fn graze(season: &Season, now: &mut [f64], place: Place, demand: f64) -> f64 {
    let Place::Strip(index) = place else {
        return 0.0;
    };
    let strip = &season.strips[index];
    let eaten = demand.min(strip.area * (now[index] - strip.leave).max(0.0));
    now[index] -= eaten / strip.area;
    eaten
}

#[expect(
    clippy::cast_precision_loss,
    reason = "moves are fewer than mobs times days, far below 2^53"
)]
fn score(season: &Season, figures: &Figures) -> f64 {
    let weights = &season.weights;
    weights.short * figures.short_kg
        + weights.lost * figures.lost_kg
        + weights.walk_per_m * figures.walk_m
        + weights.move_each * figures.moves as f64
        + weights.bare * figures.bare_kg
}
