//! Regrowth along the logistic curve, and presets of growth by month.
//!
//! The curve's days and covers are reckoned from the equation itself (r = 4 G / K with G = 70, K = 5,000; the growth term is
//! Noy-Meir's, Journal of Ecology 63, 1975, p. 459, from memory), not printed anywhere.

use foldcourse::farm::{GROWTH_PRESETS, GrowthShape, year_growth_kg};

const CEILING: f64 = 5_000.0;
const GROWTH: f64 = 70.0;

fn after(cover: f64, days: u32) -> f64 {
    GrowthShape::Logistic.grown(cover, GROWTH * f64::from(days), CEILING)
}

#[test]
fn logistic_covers_are_those_of_the_closed_form() {
    let days = [7, 14, 21, 28, 42, 60];
    for (from, wanted) in [
        (
            1_500.0,
            [1_941.0, 2_421.0, 2_907.0, 3_364.0, 4_091.0, 4_625.0],
        ),
        (
            800.0,
            [1_100.0, 1_472.0, 1_909.0, 2_387.0, 3_334.0, 4_229.0],
        ),
    ] {
        for (days, wanted) in days.into_iter().zip(wanted) {
            let cover = after(from, days);
            assert!(
                (cover - wanted).abs() <= 0.5,
                "{from} after {days} days: {cover}"
            );
        }
    }
}

#[test]
fn logistic_regrowth_grows_the_months_figure_at_half_the_ceiling_and_never_passes_the_ceiling() {
    let half = after(CEILING / 2.0, 1) - CEILING / 2.0;
    assert!((half - GROWTH).abs() < 0.02, "{half}");
    for cover in [1.0, 900.0, 4_999.0] {
        assert!(after(cover, 3_000) <= CEILING);
        assert!(after(cover, 1) > cover);
        let both = after(after(cover, 9), 31);
        assert!((both - after(cover, 40)).abs() < 1e-8, "days one by one");
    }
    for cover in [0.0, CEILING, 6_000.0] {
        assert!((after(cover, 20) - cover).abs() < 1e-12, "{cover} stays");
    }
}

#[test]
fn the_well_fed_course_comes_to_the_published_year_and_shares_keep_the_growers_own() {
    let own = [3.0; 12];
    for preset in &GROWTH_PRESETS {
        let months = preset.months(&own, false);
        assert!(months.iter().all(|growth| (0.0..=120.0).contains(growth)));
        let southern = preset.months(&own, true);
        for (month, growth) in months.iter().enumerate() {
            assert!((growth - southern[(month + 6) % 12]).abs() < 1e-12);
        }
    }
    // 11.8 t: ten-year curve of grass plots, Agri-Food and Biosciences Institute, as reported in the press.
    let fed = GROWTH_PRESETS[1].months(&own, false);
    assert!((year_growth_kg(&fed) - 11_827.0).abs() < 0.5);
    // Season shares 16, 46, 16, 22 per cent of the grower's own year, each within what rounding to a tenth may shift.
    let dry = GROWTH_PRESETS[3].months(&own, false);
    let year = year_growth_kg(&own);
    let season = |months: [(usize, f64); 3]| -> f64 {
        months.iter().map(|(month, days)| dry[*month] * days).sum()
    };
    let spring = season([(2, 31.0), (3, 30.0), (4, 31.0)]);
    let summer = season([(5, 30.0), (6, 31.0), (7, 31.0)]);
    assert!((spring / year - 0.46).abs() < 0.005, "{spring}");
    assert!((summer / year - 0.16).abs() < 0.005, "{summer}");
}
