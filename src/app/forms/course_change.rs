//! What typing about the course of crops does to the farm. Years, steps from 1, metres, kg/m².

use super::change::{CourseField, CropField, Given, gone};
use super::figures;
use crate::app::season_acts::Act;
use crate::farm::{
    CourseStep, Courses, Edit, Family, Farm, GroundId, Use, cell_at, course_grounds, course_years,
    use_from_words, use_words, uses_at,
};
use crate::quantity::YearDay;

/// Between the crops of one year, where they are typed in one field.
const THEN: &str = " + ";

pub(super) fn change(given: Given<'_>, field: CourseField, typed: &str) -> Result<Act, String> {
    let farm = given.farm;
    let mut courses = farm.course.clone();
    let label = match field {
        CourseField::Cell(ground, year, crop) => {
            return change_cell(farm, (ground, year, crop), typed);
        }
        CourseField::FirstYear => {
            courses.first_year =
                figures::unless_empty(typed, |typed| figures::whole(typed, 1900..=2199, ""))?
                    .and_then(|year| i16::try_from(year).ok());
            "First year of the course".to_owned()
        }
        CourseField::Years => {
            let most = u32::from(Courses::MOST_YEARS);
            courses.years = small(typed, 1..=most, "years")?;
            "Years of the course".to_owned()
        }
        CourseField::LeyYears => {
            courses.ley_years_wanted = small(typed, 0..=99, "years")?;
            "Years of a ley".to_owned()
        }
        CourseField::ClearDays => {
            courses.clear_days =
                figures::unless_empty(typed, |typed| figures::whole(typed, 0..=3_650, "days"))?
                    .and_then(|days| u16::try_from(days).ok());
            "Days to clear ground".to_owned()
        }
        CourseField::Interval(family) => {
            let family = Family::ALL.get(usize::from(family)).ok_or_else(gone)?;
            match small(typed, 0..=99, "years")? {
                Some(years) => courses.own_intervals.insert(*family, years),
                None => courses.own_intervals.remove(family),
            };
            format!("Years between crops of the {}", family.name())
        }
        CourseField::SoilPh(ground) => {
            match figures::unless_empty(typed, |typed| figures::decimal(typed, 0.0..=14.0, ""))? {
                Some(ph) => courses.soil_ph.insert(ground, ph),
                None => courses.soil_ph.remove(&ground),
            };
            "The soil's pH".to_owned()
        }
        CourseField::OwnWait(place) => change_wait(&mut courses, place, typed)?,
        CourseField::Crop(number, field) => change_crop(farm, &mut courses, number, field, typed)?,
        _ => change_course(farm, &mut courses, field, typed)?,
    };
    Ok((label, vec![Edit::change_course(&farm.course, courses)]))
}

/// A whole number that fits a small one, or none.
fn small(
    typed: &str,
    bounds: std::ops::RangeInclusive<u32>,
    unit: &str,
) -> Result<Option<u8>, String> {
    let whole = figures::unless_empty(typed, |typed| figures::whole(typed, bounds, unit))?;
    Ok(whole.and_then(|whole| u8::try_from(whole).ok()))
}

/// One cell: what is typed stands above the course, and what the course says anyway is given back to it.
pub(super) fn change_cell(
    farm: &Farm,
    key: (GroundId, i16, u8),
    typed: &str,
) -> Result<Act, String> {
    let (id, year, crop) = key;
    let ground = farm.ground.get(&id).ok_or_else(gone)?;
    let mut courses = farm.course.clone();
    courses.by_hand.remove(&key);
    let by_course = cell_at(&courses, id, year, crop);
    let used = use_from_words(&farm.course, typed);
    if used != by_course.used && typed.trim() != use_words(&by_course) {
        courses.by_hand.insert(key, used);
    }
    let label = format!("{} in {year}: {}", ground.name, typed.trim());
    Ok((label, vec![Edit::change_course(&farm.course, courses)]))
}

fn change_wait(courses: &mut Courses, place: u8, typed: &str) -> Result<String, String> {
    let days = figures::whole(typed, 0..=3_650, "days")?;
    let days = u16::try_from(days).unwrap_or(u16::MAX);
    match place {
        0 => courses.own_wait.touching_days = days,
        1 => courses.own_wait.clear_days = days,
        _ => courses.own_wait.planting_days = days,
    }
    Ok("My own days of waiting".to_owned())
}

fn change_course(
    farm: &Farm,
    courses: &mut Courses,
    field: CourseField,
    typed: &str,
) -> Result<String, String> {
    let (CourseField::CourseName(place)
    | CourseField::Step(place, _)
    | CourseField::NewStep(place)
    | CourseField::Start(place, _)) = field
    else {
        return Err(gone());
    };
    let others: Vec<usize> = (0..courses.courses.len())
        .filter(|other| *other != place)
        .collect();
    let known = courses.clone();
    let course = courses.courses.get_mut(place).ok_or_else(gone)?;
    match field {
        CourseField::CourseName(_) => {
            course.name = figures::name(typed)?;
            Ok("Name of the course".to_owned())
        }
        CourseField::NewStep(_) => {
            if course.steps.len() >= Courses::MOST_STEPS {
                return Err(format!(
                    "A course has at most {} steps.",
                    Courses::MOST_STEPS
                ));
            }
            course.steps.push(step_from_words(&known, typed)?);
            Ok(format!("Step {} of {}", course.steps.len(), course.name))
        }
        CourseField::Step(_, step) => {
            let label = format!("Step {} of {}", step + 1, course.name);
            if !typed.trim().is_empty() {
                *course.steps.get_mut(step).ok_or_else(gone)? = step_from_words(&known, typed)?;
            } else if course.steps.len() > 1 && step < course.steps.len() {
                course.steps.remove(step);
                // A start past the last step is at the first again.
                let last = course.steps.len() - 1;
                for start in course.starts.values_mut() {
                    if usize::from(*start) > last {
                        *start = 0;
                    }
                }
            } else {
                return Err("A course keeps one step at least.".to_owned());
            }
            Ok(label)
        }
        CourseField::Start(_, ground) => {
            let most = u32::try_from(course.steps.len()).unwrap_or(1);
            let start = figures::unless_empty(typed, |typed| figures::whole(typed, 1..=most, ""))?;
            match start.and_then(|start| u8::try_from(start - 1).ok()) {
                Some(start) => course.starts.insert(ground, start),
                None => course.starts.remove(&ground),
            };
            let is_in = start.is_some();
            for other in others.iter().filter(|_| is_in) {
                if let Some(other) = courses.courses.get_mut(*other) {
                    other.starts.remove(&ground);
                }
            }
            let name = farm
                .ground
                .get(&ground)
                .map_or("", |ground| ground.name.as_str());
            Ok(format!("Start of {name}"))
        }
        _ => Err(gone()),
    }
}

/// `squash + cover: rye`: the crops of a year in their order.
fn step_from_words(courses: &Courses, typed: &str) -> Result<CourseStep, String> {
    let uses: Vec<Use> = typed
        .split('+')
        .map(|crop| use_from_words(courses, crop))
        .collect();
    if uses.len() > usize::from(Courses::MOST_CROPS_A_YEAR) {
        return Err(format!(
            "At most {} crops follow each other in a year.",
            Courses::MOST_CROPS_A_YEAR
        ));
    }
    Ok(CourseStep { uses })
}

/// A step as it stands in its field.
pub(super) fn step_words(step: &CourseStep) -> String {
    let words: Vec<String> = step.uses.iter().map(bare_words).collect();
    words.join(THEN)
}

fn bare_words(used: &Use) -> String {
    let ley_year = match used {
        Use::Ley { year } => *year,
        _ => None,
    };
    let cell = crate::farm::Cell {
        used: used.clone(),
        ley_year,
        ..crate::farm::Cell::default()
    };
    let words = use_words(&cell);
    match used {
        // A family that the name does not tell has to be said again when the step is typed anew.
        Use::Crop { family, .. } if use_from_words(&Courses::default(), &words) != *used => {
            format!("{words} ({})", family.name())
        }
        _ => words,
    }
}

/// Every crop of the table, by name, once.
pub(super) fn crops_in_table(farm: &Farm) -> Vec<String> {
    let mut names: std::collections::BTreeSet<String> =
        farm.course.own_crops.keys().cloned().collect();
    for id in course_grounds(farm) {
        for year in course_years(farm) {
            for cell in uses_at(&farm.course, id, year) {
                if let Use::Crop { name, .. } = cell.used {
                    names.insert(name);
                }
            }
        }
    }
    names.into_iter().collect()
}

/// A number that stands for a crop's name while a field is typed in (the 64-bit form of the Fowler–Noll–Vo hash,
/// variant 1a).
pub(super) fn crop_number(name: &str) -> u64 {
    name.bytes().fold(0xCBF2_9CE4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01B3)
    })
}

fn change_crop(
    farm: &Farm,
    courses: &mut Courses,
    number: u64,
    field: CropField,
    typed: &str,
) -> Result<String, String> {
    let name = crops_in_table(farm)
        .into_iter()
        .find(|name| crop_number(name) == number)
        .ok_or_else(gone)?;
    let mut own = courses.own_crops.get(&name).copied().unwrap_or_default();
    let metres = |typed: &str| figures::decimal(typed, 0.01..=100.0, "m");
    let day = |typed: &str| {
        YearDay::parse_typed(typed).ok_or_else(|| {
            format!(
                "\"{}\" is not a day of the year: write it like 15 may.",
                typed.trim()
            )
        })
    };
    match field {
        CropField::Row => own.row_m = figures::unless_empty(typed, metres)?,
        CropField::Plant => own.plant_m = figures::unless_empty(typed, metres)?,
        CropField::Planted => own.planted = figures::unless_empty(typed, day)?,
        CropField::FirstHarvest => own.first_harvest = figures::unless_empty(typed, day)?,
        CropField::LastHarvest => own.last_harvest = figures::unless_empty(typed, day)?,
        CropField::Spare => {
            own.spare_percent =
                figures::unless_empty(typed, |typed| figures::decimal(typed, 0.0..=1_000.0, "%"))?;
        }
        CropField::YieldPerPlant => {
            own.yield_kg_per_plant =
                figures::unless_empty(typed, |typed| figures::decimal(typed, 0.0..=1_000.0, "kg"))?;
        }
        CropField::Yield => {
            own.yield_kg_per_m2 = figures::unless_empty(typed, |typed| {
                figures::decimal(typed, 0.0..=1_000.0, "kg/m²")
            })?;
        }
    }
    let label = format!("Own figures of {name}");
    if own == crate::farm::OwnCrop::default() {
        courses.own_crops.remove(&name);
    } else {
        courses.own_crops.insert(name, own);
    }
    Ok(label)
}
