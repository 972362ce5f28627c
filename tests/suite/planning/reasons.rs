//! Every move and every short day has a reason, and the figures in it are those of the plan replayed with the alternative.

use std::collections::BTreeSet;

use foldcourse::planning::{LeftBecause, Place, Plan, ShortCause, reasons};

use super::generator::{kind_number, problem};
use super::public_problems::public_problems;
use super::solving::{season_of, solved};

#[test]
fn every_move_and_every_short_day_has_one_reason() {
    for number in 0..60 {
        let season = season_of(&problem(&kind_number(number)));
        let plan = solved(&season, 50_000, 1).unwrap();
        let found = reasons(&season, &plan);
        assert_eq!(found.moves.len(), plan.figures.moves);
        let short: f64 = found.shorts.iter().map(|reason| reason.short_kg).sum();
        assert!((short - plan.figures.short_kg).abs() < 0.01 * (1.0 + season.n_days as f64 * 3.0));
        for line in found.moves.iter().map(|reason| reason.wording(&season)) {
            assert!(line.ends_with('.') && line.len() > 10, "{line}");
        }
    }
}

#[test]
fn the_runner_up_loses_what_the_replayed_alternative_loses() {
    let mut n_checked = 0;
    for number in 0..40 {
        let season = season_of(&problem(&kind_number(number)));
        let plan = solved(&season, 50_000, 1).unwrap();
        for reason in reasons(&season, &plan).moves {
            let Some(runner_up) = reason.runner_up else {
                continue;
            };
            let mut stands = plan.stands.clone();
            stands[reason.mob][reason.day..=reason.last_day].fill(runner_up.place);
            let other = Plan::from_stands(&season, stands).expect("a runner-up keeps every rule");
            let loss = other.figures.score - plan.figures.score;
            assert!((loss - runner_up.loses_kg).abs() < 1e-6 * (1.0 + plan.figures.score));
            n_checked += 1;
        }
    }
    assert!(n_checked > 200, "{n_checked}");
}

#[test]
fn no_legal_place_is_better_than_the_runner_up() {
    let season = season_of(&problem(&kind_number(7)));
    let plan = solved(&season, 50_000, 1).unwrap();
    for reason in reasons(&season, &plan).moves {
        let strips = (0..season.strips.len())
            .map(Place::Strip)
            .chain([Place::Yard]);
        for place in strips.filter(|&place| place != reason.to) {
            let mut stands = plan.stands.clone();
            stands[reason.mob][reason.day..=reason.last_day].fill(place);
            let Ok(other) = Plan::from_stands(&season, stands) else {
                continue;
            };
            let is_fixed = season.fixed.iter().any(|fixed| {
                fixed.mob == reason.mob
                    && (reason.day..=reason.last_day).contains(&(fixed.day as usize))
            });
            if is_fixed {
                continue;
            }
            let runner_up = reason.runner_up.expect("a legal place was there");
            let loss = other.figures.score - plan.figures.score;
            assert!(loss >= runner_up.loses_kg - 1e-6 * (1.0 + plan.figures.score));
        }
    }
}

#[test]
fn the_public_plans_show_every_common_kind_of_reason() {
    let mut kinds = BTreeSet::new();
    for (_, raw, _) in public_problems() {
        let season = season_of(&raw);
        let plan = solved(&season, 300_000, 1).unwrap();
        let found = reasons(&season, &plan);
        kinds.extend(found.moves.iter().map(|reason| match reason.left_because {
            LeftBecause::VisitBegins => "visit begins",
            LeftBecause::Fixed { .. } => "fixed",
            LeftBecause::StoodInYard => "yard",
            LeftBecause::Closed => "closed",
            LeftBecause::LongestStay { .. } => "longest stay",
            LeftBecause::TakenOver { .. } => "taken over",
            LeftBecause::GrazedDown { .. } => "grazed down",
            LeftBecause::BetterElsewhere { .. } => "better elsewhere",
        }));
        kinds.extend(found.shorts.iter().map(|reason| match reason.cause {
            ShortCause::Fixed => "short fixed",
            ShortCause::NothingReady(_) => "nothing ready",
            ShortCause::SavedForLater { .. } => "saved",
        }));
    }
    for kind in [
        "visit begins",
        "fixed",
        "yard",
        "longest stay",
        "grazed down",
        "better elsewhere",
        "nothing ready",
        "saved",
    ] {
        assert!(kinds.contains(kind), "{kind} is wanting in {kinds:?}");
    }
}
