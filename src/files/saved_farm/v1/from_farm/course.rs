//! The course of crops laid out as it is saved; `None` where nothing was ever said of it.

use crate::farm::{
    Contact, Course, Courses, Family, HarvestRule, OwnCrop, OwnWait, Raised, Turn, Use,
};
use crate::files::saved_farm::v1::saved_course::{
    SavedContact, SavedCourse, SavedCourses, SavedCrop, SavedFamily, SavedRaised, SavedRule,
    SavedTurn, SavedUse,
};
use crate::quantity::YearDay;

pub(super) fn courses(courses: &Courses) -> Option<SavedCourses> {
    if *courses == Courses::default() {
        return None;
    }
    let mut saved = SavedCourses {
        first_year: courses.first_year,
        years: courses.years,
        ley_years_wanted: courses.ley_years_wanted,
        clear_days: courses.clear_days,
        harvest_rule: (courses.harvest_rule != HarvestRule::default())
            .then_some(rule(courses.harvest_rule)),
        own_wait: (courses.own_wait != OwnWait::default()).then_some((
            courses.own_wait.touching_days,
            courses.own_wait.clear_days,
            courses.own_wait.planting_days,
        )),
        courses: courses.courses.iter().map(course).collect(),
        own_intervals: courses
            .own_intervals
            .iter()
            .map(|(kin, years)| (family(*kin), *years))
            .collect(),
        soil_ph: courses.soil_ph.iter().map(|(id, ph)| (id.0, *ph)).collect(),
        own_crops: courses
            .own_crops
            .iter()
            .map(|(name, own)| (name.clone(), crop(own)))
            .collect(),
        ..SavedCourses::default()
    };
    for ((ground, year, place), used) in &courses.by_hand {
        let years = saved.by_hand.0.entry(ground.0).or_default();
        let crops = years.0.entry(*year).or_default();
        crops.0.insert(*place, saved_use(used));
    }
    Some(saved)
}

fn course(course: &Course) -> SavedCourse {
    SavedCourse {
        name: course.name.clone(),
        first_year: course.first_year,
        turn: match course.turn {
            Turn::NextStep => SavedTurn::NextStep,
            Turn::CropsMoveOn => SavedTurn::CropsMoveOn,
        },
        one_each: course.is_one_each,
        steps: course
            .steps
            .iter()
            .map(|step| step.uses.iter().map(saved_use).collect())
            .collect(),
        starts: course
            .starts
            .iter()
            .map(|(id, start)| (id.0, *start))
            .collect(),
    }
}

fn saved_use(used: &Use) -> SavedUse {
    match used {
        Use::Unsaid => SavedUse::Unsaid,
        Use::Crop { name, family: kin } => SavedUse::Crop(name.clone(), family(*kin)),
        Use::Ley { year: None } => SavedUse::Ley,
        Use::Ley { year: Some(year) } => SavedUse::LeyYear(*year),
        Use::Fallow => SavedUse::Fallow,
        Use::Cover(name) => SavedUse::Cover(name.clone()),
    }
}

fn crop(own: &OwnCrop) -> SavedCrop {
    SavedCrop {
        family: own.family.map(family),
        contact: own.contact.map(|contact| match contact {
            Contact::TouchesSoil => SavedContact::TouchesSoil,
            Contact::OffSoil => SavedContact::OffSoil,
            Contact::NotFood => SavedContact::NotFood,
        }),
        row_m: own.row_m,
        plant_m: own.plant_m,
        raised: own.raised.map(|raised| match raised {
            Raised::Seed => SavedRaised::Seed,
            Raised::Plugs => SavedRaised::Plugs,
            Raised::Sets => SavedRaised::Sets,
        }),
        planted: own.planted.map(year_day),
        first_harvest: own.first_harvest.map(year_day),
        last_harvest: own.last_harvest.map(year_day),
        spare_percent: own.spare_percent,
        yield_kg_per_m2: own.yield_kg_per_m2,
        yield_kg_per_plant: own.yield_kg_per_plant,
    }
}

fn year_day(day: YearDay) -> String {
    format!("{:02}-{:02}", day.month(), day.day_of_month())
}

fn rule(rule: HarvestRule) -> SavedRule {
    match rule {
        HarvestRule::UsOrganic => SavedRule::UsOrganic,
        HarvestRule::UsProduceSafety => SavedRule::UsProduceSafety,
        HarvestRule::LeafyGreens => SavedRule::LeafyGreens,
        HarvestRule::UkStockInField => SavedRule::UkStockInField,
        HarvestRule::UkFreshManure => SavedRule::UkFreshManure,
        HarvestRule::UkTreatedManure => SavedRule::UkTreatedManure,
        HarvestRule::UkReadyToEat => SavedRule::UkReadyToEat,
        HarvestRule::Own => SavedRule::Own,
    }
}

fn family(family: Family) -> SavedFamily {
    match family {
        Family::Cabbage => SavedFamily::Cabbage,
        Family::Carrot => SavedFamily::Carrot,
        Family::Onion => SavedFamily::Onion,
        Family::Daisy => SavedFamily::Daisy,
        Family::Beet => SavedFamily::Beet,
        Family::Nightshade => SavedFamily::Nightshade,
        Family::Gourd => SavedFamily::Gourd,
        Family::Pea => SavedFamily::Pea,
        Family::Grass => SavedFamily::Grass,
        Family::Other => SavedFamily::Other,
    }
}
