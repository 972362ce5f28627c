//! Years from crop to crop as the guidance prints them, and waits between animals and harvest as the codes print them.
//!
//! Guidance for integrated pest management, prepared for the European Commission, 2009, Table 10; IOBC-WPRS guideline
//! for Apiaceae; 7 CFR 205.203(c); 21 CFR 112.56(a); Food Standards Agency guidelines as summarised by Defra. Days
//! reckoned by hand on the calendar.

use foldcourse::farm::{
    Contact, Courses, Farm, FindingCode, Ground, HarvestRule, HarvestWait, Kind, OwnWait, Severity,
    course_findings, use_from_words,
};
use foldcourse::quantity::Day;

use crate::farm::sample::{day, empty_farm, put, rectangle};

/// What is said of a crop in two years on one plot.
fn said(crop: &str, years: [i16; 2], ph: Option<f64>) -> Option<Severity> {
    let mut farm: Farm = empty_farm();
    let shape = rectangle(0.0, 0.0, 40.0, 25.0);
    let plot = put(&mut farm, Ground::new("Plot", Kind::Plot, shape));
    farm.course.first_year = Some(years[0]);
    farm.course.years = Some(12);
    for year in years {
        let used = use_from_words(&Courses::default(), crop);
        farm.course.by_hand.insert((plot, year, 0), used);
    }
    farm.course.soil_ph.extend(ph.map(|ph| (plot, ph)));
    let found = course_findings(&farm);
    found
        .into_iter()
        .find(|found| found.code == FindingCode::FamilyBackSoon)
        .map(|found| found.severity)
}

#[test]
fn families_come_back_no_sooner_than_the_guidance_prints() {
    use Severity::{Note, Warning};
    for (crop, years, ph, wanted) in [
        ("kale", [2024, 2028], Some(7.5), None),
        ("kale", [2024, 2028], Some(6.5), Some(Note)),
        ("kale", [2024, 2028], None, Some(Note)),
        ("kale", [2024, 2027], Some(7.5), Some(Warning)),
        ("kale", [2024, 2027], Some(6.5), Some(Warning)),
        ("kale", [2024, 2030], Some(6.5), None),
        ("carrots", [2024, 2027], None, Some(Warning)),
        ("carrots", [2024, 2028], None, Some(Note)),
        ("carrots", [2024, 2029], None, Some(Note)),
        ("carrots", [2024, 2030], None, None),
        ("leeks", [2024, 2026], None, Some(Warning)),
        ("leeks", [2024, 2027], None, Some(Note)),
        ("leeks", [2024, 2028], None, None),
        ("lettuce", [2024, 2026], None, Some(Warning)),
        ("lettuce", [2024, 2027], None, None),
        ("spinach", [2024, 2026], None, Some(Warning)),
        ("spinach", [2024, 2027], None, None),
        ("potatoes", [2024, 2027], None, Some(Warning)),
        ("wheat", [2024, 2025], None, None),
    ] {
        assert_eq!(
            said(crop, years, ph),
            wanted,
            "{crop} {years:?} at pH {ph:?}"
        );
    }
}

#[test]
fn waits_to_harvest_fall_on_the_days_that_the_codes_give() {
    use Contact::{NotFood, OffSoil, TouchesSoil};
    let off = day("2026-04-01");
    let earliest = |rule: HarvestRule, contact: Contact| -> Day {
        rule.facts(OwnWait::default())
            .to_harvest(contact)
            .earliest_after(off)
    };
    for (rule, contact, wanted) in [
        (HarvestRule::UsOrganic, TouchesSoil, "2026-07-30"),
        (HarvestRule::UsOrganic, OffSoil, "2026-06-30"),
        (HarvestRule::UsOrganic, NotFood, "2026-04-01"),
        (HarvestRule::UsProduceSafety, TouchesSoil, "2026-04-01"),
        (HarvestRule::UkStockInField, TouchesSoil, "2026-08-01"),
        (HarvestRule::UkFreshManure, TouchesSoil, "2026-10-01"),
        (HarvestRule::UkTreatedManure, TouchesSoil, "2026-06-01"),
        (HarvestRule::UkReadyToEat, TouchesSoil, "2027-04-01"),
        (HarvestRule::LeafyGreens, TouchesSoil, "2027-04-01"),
    ] {
        assert_eq!(earliest(rule, contact), day(wanted), "{rule:?} {contact:?}");
    }
    let planting = HarvestRule::UkReadyToEat
        .facts(OwnWait::default())
        .to_planting(TouchesSoil);
    assert_eq!(planting.earliest_after(off), day("2026-10-01"));
}

#[test]
fn the_last_day_before_a_harvest_is_the_last_that_keeps_the_wait() {
    let waits = [
        HarvestWait::None,
        HarvestWait::Days(90),
        HarvestWait::Days(120),
        HarvestWait::Months(4),
        HarvestWait::Months(6),
        HarvestWait::Months(12),
    ];
    for wait in waits {
        for step in 0..1_500 {
            let harvest = day("2026-01-01").plus_days(step);
            let last = wait.last_before(harvest);
            assert!(wait.earliest_after(last) <= harvest, "{wait:?} {harvest}");
            assert!(
                wait.earliest_after(last.plus_days(1)) > harvest,
                "{wait:?} {harvest}: {last} is not the last"
            );
        }
    }
}

#[test]
fn every_rule_names_its_source_and_is_found_by_its_word() {
    for rule in HarvestRule::ALL {
        let facts = rule.facts(OwnWait::default());
        assert!(!facts.source.is_empty() && !facts.name.is_empty());
        assert_eq!(HarvestRule::from_code(facts.code), Some(rule));
    }
}
