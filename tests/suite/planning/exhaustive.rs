//! The search against the true optimum of tiny problems, found by trying every plan there is.

use foldcourse::planning::{Place, Season, Stands, breaches, replay};

use super::generator::{Kind, problem};
use super::solving::{season_of, solved};

/// The least score over all legal plans, by trying every place for every free mob-day.
pub fn true_optimum(season: &Season) -> f64 {
    let mut stands = season.all_in_yard();
    let cells: Vec<(usize, usize)> = (0..season.mobs.len())
        .flat_map(|mob| (0..season.n_days).map(move |day| (mob, day)))
        .filter(|&(mob, day)| season.mobs[mob].present[day])
        .collect();
    let mut best = f64::INFINITY;
    try_all(season, &mut stands, &cells, &mut best);
    best
}

fn try_all(season: &Season, stands: &mut Stands, cells: &[(usize, usize)], best: &mut f64) {
    let Some((&(mob, day), rest)) = cells.split_first() else {
        let lived_out = replay(season, stands);
        if lived_out.figures.score < *best
            && breaches(season, stands, &lived_out.cover)
                .iter()
                .all(|breach| breach.lived)
        {
            *best = lived_out.figures.score;
        }
        return;
    };
    for place in std::iter::once(Place::Yard).chain((0..season.strips.len()).map(Place::Strip)) {
        stands[mob][day] = place;
        try_all(season, stands, rest, best);
    }
}

/// A tiny problem: three strips, a week, one mob.
pub fn tiny(seed: u64) -> Season {
    let kind = Kind {
        strips: 3,
        days: 7,
        mobs: 1,
        pressure: 0.5 + 0.2 * (seed % 5) as f64,
        lived_days: 0,
        seed,
    };
    let mut raw = problem(&kind);
    // Short rests, so that coming back within the week is worth a thought.
    raw["rest_days"] = serde_json::json!([["2027-03-01", 1 + seed % 4]]);
    season_of(&raw)
}

#[test]
fn tiny_problems_are_solved_to_the_true_optimum() {
    let mut n_not_trivial = 0;
    for seed in 0..40 {
        let season = tiny(seed);
        let optimum = true_optimum(&season);
        let plan = solved(&season, 1_000_000, seed).unwrap();
        let slack = 1e-6 * optimum.max(1.0);
        assert!(
            (plan.figures.score - optimum).abs() <= slack,
            "tiny problem {seed}: found {}, optimum {optimum}",
            plan.figures.score
        );
        let all_yard = replay(&season, &season.all_in_yard()).figures.score;
        n_not_trivial += usize::from(optimum < 0.9 * all_yard);
    }
    assert!(
        n_not_trivial > 20,
        "only {n_not_trivial} problems ask for grazing"
    );
}
