//! What is amiss in the course, cell by cell: a family back too soon, a ley too short, steps shared, years uneven.
//!
//! Only the years of the table are spoken of. Years come from the tables beside this file, with their sources.

use std::collections::BTreeMap;

use super::{Course, Courses, Use, cell_at, course_grounds, course_years, interval_of, year_areas};
use crate::farm::{Farm, FindingCode, GroundId, Severity};
use crate::quantity::{UnitSystem, area_text, decimal_text};

/// Something to know about the course.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseFinding {
    /// How much it matters.
    pub severity: Severity,
    /// Which rule speaks.
    pub code: FindingCode,
    /// The cell: ground, year and crop of the year; the year alone where ground is absent.
    pub ground: Option<GroundId>,
    /// The year.
    pub year: i16,
    /// The crop of the year, 0 the main one.
    pub crop: u8,
    /// What is amiss, in a sentence.
    pub what: String,
    /// What to do about it, in a sentence.
    pub remedy: String,
}

/// More cropped ground than the leanest year by this share is worth a word (common practice, no source).
const UNEVEN_SHARE: f64 = 0.5;

/// No crop above this share of the cropped ground (general rules for integrated production, IOBC-WPRS, 4.1).
const MOST_OF_ONE_FAMILY: f64 = 0.5;

/// Everything amiss in the table, by ground and year, then by year alone.
pub fn course_findings(farm: &Farm) -> Vec<CourseFinding> {
    let mut found = Vec::new();
    if farm.course == Courses::default() {
        return found;
    }
    for ground in course_grounds(farm) {
        back_too_soon(farm, ground, &mut found);
        ley_too_short(farm, ground, &mut found);
    }
    for course in &farm.course.courses {
        steps_shared(farm, course, &mut found);
    }
    uneven_years(farm, &mut found);
    found
}

fn called(farm: &Farm, ground: GroundId) -> String {
    farm.ground.get(&ground).map_or_else(
        || "The ground".to_owned(),
        |ground| ground.name.trim().to_owned(),
    )
}

fn back_too_soon(farm: &Farm, ground: GroundId, found: &mut Vec<CourseFinding>) {
    let courses = &farm.course;
    let years = course_years(farm);
    // A family last seen before the table's first year still counts.
    let look_from = years.start().saturating_sub(12);
    let mut last_seen: BTreeMap<super::Family, (i16, String)> = BTreeMap::new();
    for year in look_from..=*years.end() {
        for crop in 0..Courses::MOST_CROPS_A_YEAR {
            let cell = cell_at(courses, ground, year, crop);
            let Use::Crop { name, family } = cell.used else {
                continue;
            };
            // What stood here before the course began was not said by the course.
            if cell.is_before_course {
                continue;
            }
            let before = last_seen.insert(family, (year, name.clone()));
            let Some((before_year, before_name)) = before.filter(|(before, _)| *before < year)
            else {
                continue;
            };
            let gap = i32::from(year) - i32::from(before_year);
            let Some(interval) = interval_of(courses, ground, family, &name) else {
                continue;
            };
            let (severity, wanted) = if gap < i32::from(interval.least_years) {
                (Severity::Warning, interval.least_years)
            } else if gap < i32::from(interval.advised_years) {
                (Severity::Note, interval.advised_years)
            } else {
                continue;
            };
            if !years.contains(&year) {
                continue;
            }
            found.push(CourseFinding {
                severity,
                code: FindingCode::FamilyBackSoon,
                ground: Some(ground),
                year,
                crop,
                what: format!(
                    "{}: {name} in {year} after {before_name} of {before_year}, so the {} is back 1 in {gap}; 1 in {wanted} \
                     is {} ({}).",
                    called(farm, ground),
                    family.name(),
                    if severity == Severity::Warning {
                        "the least"
                    } else {
                        "advised"
                    },
                    interval.source
                ),
                remedy: "Put another family here in this year, or set your own years for the family.".to_owned(),
            });
        }
    }
}

fn ley_too_short(farm: &Farm, ground: GroundId, found: &mut Vec<CourseFinding>) {
    let courses = &farm.course;
    let wanted = courses.ley_years();
    for year in course_years(farm) {
        let this = cell_at(courses, ground, year, 0);
        let next = cell_at(courses, ground, year.saturating_add(1), 0).used;
        let ends = !matches!(next, Use::Ley { .. } | Use::Unsaid);
        let Some(lain) = this.ley_year.filter(|lain| ends && *lain < wanted) else {
            continue;
        };
        // Where nothing was said of the years before, how long it has lain is not known.
        let began = year.saturating_sub(i16::from(lain));
        let is_known = cell_at(courses, ground, began, 0).used != Use::Unsaid;
        let is_told = matches!(this.used, Use::Ley { year: Some(_) });
        if !is_known && !is_told {
            continue;
        }
        found.push(CourseFinding {
            severity: Severity::Warning,
            code: FindingCode::LeyShort,
            ground: Some(ground),
            year,
            crop: 0,
            what: format!(
                "{}: the ley is broken after {lain} of the {wanted} years wanted, at the end of {year}.",
                called(farm, ground)
            ),
            remedy: "Let it lie longer, or say that a shorter ley is wanted.".to_owned(),
        });
    }
}

/// Places that stand at one step together although each step should have its own. It is so in every year, so it is
/// told once, in the first.
fn steps_shared(farm: &Farm, course: &Course, found: &mut Vec<CourseFinding>) {
    let steps = course.steps.len();
    if !course.is_one_each || steps == 0 {
        return;
    }
    let first = *course_years(farm).start();
    let mut at_step: BTreeMap<usize, Vec<GroundId>> = BTreeMap::new();
    for ground in course.starts.keys() {
        if let Some(step) = course.step_index(*ground, first) {
            at_step.entry(step).or_default().push(*ground);
        }
    }
    let most = course.starts.len().div_ceil(steps);
    for (step, grounds) in at_step.iter().filter(|(_, grounds)| grounds.len() > most) {
        let names: Vec<String> = grounds.iter().map(|id| called(farm, *id)).collect();
        for ground in grounds.iter().skip(most) {
            found.push(CourseFinding {
                severity: Severity::Warning,
                code: FindingCode::StepShared,
                ground: Some(*ground),
                year: first,
                crop: 0,
                what: format!(
                    "{} stand together at step {} of \"{}\", where at most {most} should.",
                    names.join(" and "),
                    step + 1,
                    course.name
                ),
                remedy: "Start one of them at a step that stands empty.".to_owned(),
            });
        }
    }
}

fn uneven_years(farm: &Farm, found: &mut Vec<CourseFinding>) {
    let sums: Vec<_> = year_areas(farm)
        .into_iter()
        .filter(|(_, areas)| areas.cropped_m2() > 0.0)
        .collect();
    let leanest = sums
        .iter()
        .map(|(year, areas)| (*year, areas.cropped_m2()))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    for (year, areas) in &sums {
        let cropped_m2 = areas.cropped_m2();
        if let Some((lean_year, lean_m2)) = leanest
            && cropped_m2 > lean_m2 * (1.0 + UNEVEN_SHARE)
        {
            let metric = UnitSystem::Metric;
            found.push(about_year(
                *year,
                Severity::Note,
                FindingCode::YearsUneven,
                format!(
                    "{year} has {} under crop, {lean_year} only {}.",
                    area_text(cropped_m2, metric),
                    area_text(lean_m2, metric)
                ),
                "Start some plots at other steps, so that every year has as much to sell.",
            ));
        }
        for (family, area_m2) in &areas.by_family_m2 {
            let share = area_m2 / cropped_m2;
            // One plot alone under crop is no course yet to be judged.
            if share > MOST_OF_ONE_FAMILY + 1e-9 && areas.by_family_m2.len() > 1 {
                found.push(about_year(
                    *year,
                    Severity::Note,
                    FindingCode::FamilyLarge,
                    format!(
                        "{year}: the {} has {} % of the ground under crop, more than half (general rules for integrated \
                         production, IOBC-WPRS, 4.1).",
                        family.name(),
                        decimal_text(100.0 * share, 0)
                    ),
                    "Give part of it to another family.",
                ));
            }
        }
    }
}

fn about_year(
    year: i16,
    severity: Severity,
    code: FindingCode,
    what: String,
    remedy: &str,
) -> CourseFinding {
    CourseFinding {
        severity,
        code,
        ground: None,
        year,
        crop: 0,
        what,
        remedy: remedy.to_owned(),
    }
}
