//! The table of plots by years: what follows from the courses and what was changed by hand.
//!
//! A cell changed by hand stands above the course and can be given back to it. Ley years are counted here.

use std::ops::RangeInclusive;

use super::{Courses, Use};
use crate::farm::{Farm, GroundId, Kind};

/// What a piece of ground is used for as one crop of one year.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cell {
    /// The use.
    pub used: Use,
    /// Whether it was changed by hand.
    pub is_by_hand: bool,
    /// The year of the ley, 1 in its first; leys only.
    pub ley_year: Option<u8>,
    /// The step of the course, from 0, where the ground is in one.
    pub step: Option<usize>,
    /// Whether it lies before the course began and was not said by hand: then it is only where the course comes from.
    pub is_before_course: bool,
}

/// No ley is counted further back than this.
const MOST_LEY_YEARS: u8 = 99;

/// The ground that has a row in the table: plots, leys and tunnels, each once, in the order of their numbers.
pub fn course_grounds(farm: &Farm) -> Vec<GroundId> {
    farm.ground
        .iter()
        .filter(|(_, ground)| {
            matches!(ground.kind, Kind::Plot | Kind::Ley | Kind::Tunnel)
                && ground.outline().is_some()
        })
        .map(|(id, _)| *id)
        .collect()
}

/// The years of the table, inside 1900 to 2199.
pub fn course_years(farm: &Farm) -> RangeInclusive<i16> {
    let season_year = farm.season.first_day.year();
    let first = farm.course.first_year.unwrap_or(season_year);
    let years = farm.course.years.unwrap_or(Courses::USUAL_YEARS).max(1);
    first..=first.saturating_add(i16::from(years) - 1).min(2199)
}

/// The cell of one crop of a year, 0 the main one.
pub fn cell_at(courses: &Courses, ground: GroundId, year: i16, crop: u8) -> Cell {
    let course = courses.course_of(ground);
    let step = course.and_then(|course| course.step_index(ground, year));
    let by_hand = courses.by_hand.get(&(ground, year, crop));
    let used = said(courses, ground, year, crop);
    Cell {
        ley_year: ley_year(courses, ground, year, crop, &used),
        used,
        is_by_hand: by_hand.is_some(),
        step,
        is_before_course: by_hand.is_none()
            && course.is_some_and(|course| year < course.first_year),
    }
}

/// All crops of a year in their order: the main one first, and as many as were said.
pub fn uses_at(courses: &Courses, ground: GroundId, year: i16) -> Vec<Cell> {
    let mut cells: Vec<Cell> = (0..Courses::MOST_CROPS_A_YEAR)
        .map(|crop| cell_at(courses, ground, year, crop))
        .collect();
    while cells.len() > 1 && cells.last().is_some_and(|cell| cell.used == Use::Unsaid) {
        cells.pop();
    }
    cells
}

fn said(courses: &Courses, ground: GroundId, year: i16, crop: u8) -> Use {
    if let Some(used) = courses.by_hand.get(&(ground, year, crop)) {
        return used.clone();
    }
    courses
        .course_of(ground)
        .and_then(|course| course.step(ground, year))
        .and_then(|step| step.uses.get(usize::from(crop)))
        .cloned()
        .unwrap_or_default()
}

/// One more than the year before, back to the year whose number was said or that was no ley.
fn ley_year(courses: &Courses, ground: GroundId, year: i16, crop: u8, used: &Use) -> Option<u8> {
    let Use::Ley { year: told } = used else {
        return None;
    };
    if crop > 0 {
        // A ley sown after the main crop has its first year yet to come.
        return *told;
    }
    let mut count = 1_u8;
    let mut told = *told;
    let mut at = year;
    loop {
        if let Some(told) = told {
            return Some(told.saturating_add(count - 1));
        }
        at = at.saturating_sub(1);
        match said(courses, ground, at, 0) {
            Use::Ley { year } if count < MOST_LEY_YEARS => {
                count += 1;
                told = year;
            }
            _ => return Some(count),
        }
    }
}
