//! The course of crops checked: steps that exist, years in the calendar, figures that a crop can have.

use std::collections::{BTreeMap, BTreeSet};

use super::Checked;
use super::fault::{Fault, key, maybe, within};
use super::numbers::Numbers;
use crate::farm::{
    Contact, Course, CourseStep, Courses, Family, GroundId, HarvestRule, OwnCrop, OwnWait, Raised,
    Turn, Use,
};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::saved_course::{
    SavedContact, SavedCourse, SavedCourses, SavedCrop, SavedFamily, SavedRaised, SavedRule,
    SavedTurn, SavedUse,
};
use crate::quantity::YearDay;

/// No ley and no interval is longer, years.
const MOST_YEARS_OF_ONE: u8 = 99;

pub(super) fn courses(saved: SavedCourses, numbers: &Numbers) -> Checked<Courses> {
    let mut courses = Courses {
        first_year: saved
            .first_year
            .map(|first| year("first_year", first))
            .transpose()?,
        years: saved
            .years
            .map(|years| counted("years", years, 1, Courses::MOST_YEARS))
            .transpose()?,
        ley_years_wanted: saved
            .ley_years_wanted
            .map(|years| counted("ley_years_wanted", years, 0, MOST_YEARS_OF_ONE))
            .transpose()?,
        clear_days: saved.clear_days,
        harvest_rule: saved.harvest_rule.map(rule).unwrap_or_default(),
        own_wait: saved
            .own_wait
            .map_or_else(OwnWait::default, |wait| OwnWait {
                touching_days: wait.0,
                clear_days: wait.1,
                planting_days: wait.2,
            }),
        ..Courses::default()
    };
    let mut placed = BTreeSet::new();
    for (place, saved) in saved.courses.into_iter().enumerate() {
        let course = course(saved, numbers, &mut placed)
            .map_err(|fault| fault.within(&[key("courses"), Step::Item(place)]))?;
        courses.courses.push(course);
    }
    for (ground, years) in saved.by_hand.0 {
        for (at, crops) in years.0 {
            for (crop, used) in crops.0 {
                let place = [key("by_hand"), key(ground), key(at), key(crop)];
                numbers
                    .ground(ground)
                    .and_then(|()| year_itself(at))
                    .and_then(|_| crop_place(crop))
                    .and_then(|()| self::used(used))
                    .map(|used| courses.by_hand.insert((GroundId(ground), at, crop), used))
                    .map_err(|fault| fault.within(&place))?;
            }
        }
    }
    for (place, (kin, years)) in saved.own_intervals.into_iter().enumerate() {
        let years = counted_itself(years, 0, MOST_YEARS_OF_ONE)
            .map_err(|fault| fault.within(&[key("own_intervals"), Step::Item(place)]))?;
        courses.own_intervals.insert(family(kin), years);
    }
    for (ground, ph) in saved.soil_ph.0 {
        let place = [key("soil_ph"), key(ground)];
        let ph = numbers
            .ground(ground)
            .and_then(|()| within(ph, 0.0, 14.0, ""))
            .map_err(|fault| fault.within(&place))?;
        courses.soil_ph.insert(GroundId(ground), ph);
    }
    for (name, saved) in saved.own_crops.0 {
        let own = crop(&saved).map_err(|fault| fault.within(&[key("own_crops"), key(&name)]))?;
        courses.own_crops.insert(name, own);
    }
    Ok(courses)
}

fn course(saved: SavedCourse, numbers: &Numbers, placed: &mut BTreeSet<u32>) -> Checked<Course> {
    let count = saved.steps.len();
    if !(1..=Courses::MOST_STEPS).contains(&count) {
        return Err(Fault::new(
            format!("a course of {count} steps cannot be gone through"),
            format!("write 1 to {} steps", Courses::MOST_STEPS),
        )
        .within(&[key("steps")]));
    }
    let mut steps = Vec::with_capacity(count);
    for (place, uses) in saved.steps.into_iter().enumerate() {
        steps.push(step(uses).map_err(|fault| fault.within(&[key("steps"), Step::Item(place)]))?);
    }
    let mut starts = BTreeMap::new();
    for (ground, start) in saved.starts.0 {
        let place = [key("starts"), key(ground)];
        numbers
            .ground(ground)
            .map_err(|fault| fault.within(&place))?;
        if usize::from(start) >= count {
            return Err(Fault::new(
                format!("there is no step {start} in a course of {count}"),
                format!("write 0 to {}", count - 1),
            )
            .within(&place));
        }
        if !placed.insert(ground) {
            return Err(Fault::new(
                format!("ground {ground} is in another course already"),
                "leave it in one of them",
            )
            .within(&place));
        }
        starts.insert(GroundId(ground), start);
    }
    Ok(Course {
        name: saved.name,
        steps,
        first_year: year("first_year", saved.first_year)?,
        turn: match saved.turn {
            SavedTurn::NextStep => Turn::NextStep,
            SavedTurn::CropsMoveOn => Turn::CropsMoveOn,
        },
        is_one_each: saved.one_each,
        starts,
    })
}

fn step(saved: Vec<SavedUse>) -> Checked<CourseStep> {
    let most = usize::from(Courses::MOST_CROPS_A_YEAR);
    if saved.len() > most {
        return Err(Fault::new(
            format!("{} crops in one year are too many", saved.len()),
            format!("write {most} or fewer"),
        ));
    }
    let mut uses = Vec::with_capacity(saved.len());
    for (place, saved) in saved.into_iter().enumerate() {
        uses.push(used(saved).map_err(|fault| fault.within(&[Step::Item(place)]))?);
    }
    Ok(CourseStep { uses })
}

fn used(saved: SavedUse) -> Checked<Use> {
    Ok(match saved {
        SavedUse::Unsaid => Use::Unsaid,
        SavedUse::Crop(name, kin) => Use::Crop {
            name,
            family: family(kin),
        },
        SavedUse::Ley => Use::Ley { year: None },
        SavedUse::LeyYear(year) => Use::Ley {
            year: Some(counted_itself(year, 1, MOST_YEARS_OF_ONE)?),
        },
        SavedUse::Fallow => Use::Fallow,
        SavedUse::Cover(name) => Use::Cover(name),
    })
}

fn crop(saved: &SavedCrop) -> Checked<OwnCrop> {
    Ok(OwnCrop {
        family: saved.family.map(family),
        contact: saved.contact.map(|contact| match contact {
            SavedContact::TouchesSoil => Contact::TouchesSoil,
            SavedContact::OffSoil => Contact::OffSoil,
            SavedContact::NotFood => Contact::NotFood,
        }),
        row_m: maybe("row_m", saved.row_m, 0.01, 100.0, "m")?,
        plant_m: maybe("plant_m", saved.plant_m, 0.001, 100.0, "m")?,
        raised: saved.raised.map(|raised| match raised {
            SavedRaised::Seed => Raised::Seed,
            SavedRaised::Plugs => Raised::Plugs,
            SavedRaised::Sets => Raised::Sets,
        }),
        planted: year_day("planted", saved.planted.as_deref())?,
        first_harvest: year_day("first_harvest", saved.first_harvest.as_deref())?,
        last_harvest: year_day("last_harvest", saved.last_harvest.as_deref())?,
        spare_percent: maybe("spare_percent", saved.spare_percent, 0.0, 1_000.0, "in 100")?,
        yield_kg_per_m2: maybe(
            "yield_kg_per_m2",
            saved.yield_kg_per_m2,
            0.0,
            1_000.0,
            "kg/m²",
        )?,
        yield_kg_per_plant: maybe(
            "yield_kg_per_plant",
            saved.yield_kg_per_plant,
            0.0,
            1_000.0,
            "kg",
        )?,
    })
}

fn year_day(field: &str, text: Option<&str>) -> Checked<Option<YearDay>> {
    let Some(text) = text else {
        return Ok(None);
    };
    YearDay::parse_typed(text).map(Some).ok_or_else(|| {
        Fault::new(
            format!("\"{text}\" is not a day of the year"),
            "write month and day, such as \"05-15\"",
        )
        .within(&[key(field)])
    })
}

fn year(field: &str, year: i16) -> Checked<i16> {
    year_itself(year).map_err(|fault| fault.within(&[key(field)]))
}

fn year_itself(year: i16) -> Checked<i16> {
    if (1900..=2199).contains(&year) {
        return Ok(year);
    }
    Err(Fault::new(
        format!("the year {year} is too far away"),
        "write a year from 1900 to 2199",
    ))
}

fn crop_place(crop: u8) -> Checked<()> {
    if crop < Courses::MOST_CROPS_A_YEAR {
        return Ok(());
    }
    Err(Fault::new(
        format!("there is no crop {crop} of a year"),
        format!(
            "write 0 for the main crop, up to {}",
            Courses::MOST_CROPS_A_YEAR - 1
        ),
    ))
}

fn counted(field: &str, count: u8, least: u8, most: u8) -> Checked<u8> {
    counted_itself(count, least, most).map_err(|fault| fault.within(&[key(field)]))
}

fn counted_itself(count: u8, least: u8, most: u8) -> Checked<u8> {
    if (least..=most).contains(&count) {
        return Ok(count);
    }
    Err(Fault::new(
        format!("{count} is out of bounds"),
        format!("write a number from {least} to {most}"),
    ))
}

fn rule(saved: SavedRule) -> HarvestRule {
    match saved {
        SavedRule::UsOrganic => HarvestRule::UsOrganic,
        SavedRule::UsProduceSafety => HarvestRule::UsProduceSafety,
        SavedRule::LeafyGreens => HarvestRule::LeafyGreens,
        SavedRule::UkStockInField => HarvestRule::UkStockInField,
        SavedRule::UkFreshManure => HarvestRule::UkFreshManure,
        SavedRule::UkTreatedManure => HarvestRule::UkTreatedManure,
        SavedRule::UkReadyToEat => HarvestRule::UkReadyToEat,
        SavedRule::Own => HarvestRule::Own,
    }
}

fn family(saved: SavedFamily) -> Family {
    match saved {
        SavedFamily::Cabbage => Family::Cabbage,
        SavedFamily::Carrot => Family::Carrot,
        SavedFamily::Onion => Family::Onion,
        SavedFamily::Daisy => Family::Daisy,
        SavedFamily::Beet => Family::Beet,
        SavedFamily::Nightshade => Family::Nightshade,
        SavedFamily::Gourd => Family::Gourd,
        SavedFamily::Pea => Family::Pea,
        SavedFamily::Grass => Family::Grass,
        SavedFamily::Other => Family::Other,
    }
}
