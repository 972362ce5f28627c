//! Courses of growth through the year that a grower may begin from, each with its source.
//!
//! A beginning only: the grower's own readings and figures replace them. kg DM/ha/day, January first, for the northern
//! half of the earth; [`GrowthPreset::months`] turns them round for the southern one.

/// A course of growth through the year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrowthPreset {
    /// Name for people: the kind of climate.
    pub name: &'static str,
    /// How the year's growth falls.
    pub course: GrowthCourse,
    /// Title, body, year, section; or that it is a blend.
    pub source: &'static str,
}

/// How the year's growth falls on the months.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GrowthCourse {
    /// Each month's growth, kg DM/ha/day.
    Months([f64; 12]),
    /// Shares of the year's growth in per cent, winter (December to February), spring, summer and autumn; the year's sum
    /// stays as the grower has it.
    SeasonShares([f64; 4]),
}

/// Days of the months in a year without a leap day.
const DAYS_OF_MONTH: [f64; 12] = [
    31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0,
];

const SERIES: &str = "Season shares of a measured pasture: New Zealand Journal of Experimental Agriculture, pasture growth \
                      series (read in an extract; year and page not seen). Spread evenly within each season.";

/// What a grower may begin from.
pub const GROWTH_PRESETS: [GrowthPreset; 6] = [
    GrowthPreset {
        name: "Cool, moist lowland",
        course: GrowthCourse::Months([
            4.0, 6.0, 18.0, 45.0, 70.0, 62.0, 48.0, 42.0, 32.0, 20.0, 9.0, 5.0,
        ]),
        source: "A blend for a cool, moist lowland, no one source: put your own figures in.",
    },
    GrowthPreset {
        name: "Mild, moist and well fed",
        course: GrowthCourse::Months([
            3.0, 5.0, 15.0, 40.0, 70.0, 65.0, 60.0, 50.0, 40.0, 25.0, 10.0, 4.0,
        ]),
        source: "A blend whose year comes to 11.8 t DM/ha, as the ten-year curve of grass plots in Northern Ireland \
                 (Agri-Food and Biosciences Institute, read in press reports); a ley without bought nitrogen grows less.",
    },
    GrowthPreset {
        name: "Cool summers, cold winters",
        course: GrowthCourse::SeasonShares([6.0, 35.0, 40.0, 19.0]),
        source: SERIES,
    },
    GrowthPreset {
        name: "Dry summers",
        course: GrowthCourse::SeasonShares([16.0, 46.0, 16.0, 22.0]),
        source: SERIES,
    },
    GrowthPreset {
        name: "Wet all year, warm summers",
        course: GrowthCourse::SeasonShares([11.0, 27.0, 44.0, 18.0]),
        source: SERIES,
    },
    GrowthPreset {
        name: "Early springs, dry late summers",
        course: GrowthCourse::SeasonShares([13.0, 46.0, 20.0, 21.0]),
        source: SERIES,
    },
];

impl GrowthPreset {
    /// Growth of each month, kg DM/ha/day. `now` is what the grower has, whose year's sum shares are taken of; on a farm
    /// south of the equator the seasons are turned round.
    pub fn months(&self, now: &[f64; 12], is_southern: bool) -> [f64; 12] {
        let northern = match self.course {
            GrowthCourse::Months(months) => months,
            GrowthCourse::SeasonShares(shares) => from_shares(shares, year_growth_kg(now)),
        };
        let mut months = northern;
        if is_southern {
            months.rotate_left(6);
        }
        months
    }
}

/// What the months come to in a year, kg DM/ha.
pub fn year_growth_kg(months: &[f64; 12]) -> f64 {
    let days = DAYS_OF_MONTH.iter();
    months
        .iter()
        .zip(days)
        .map(|(growth, days)| growth * days)
        .sum()
}

fn from_shares(shares: [f64; 4], year_kg: f64) -> [f64; 12] {
    let season_of = |month: usize| (month + 1) % 12 / 3;
    let mut days_of_season = [0.0; 4];
    for (month, days) in DAYS_OF_MONTH.iter().enumerate() {
        if let Some(sum) = days_of_season.get_mut(season_of(month)) {
            *sum += days;
        }
    }
    std::array::from_fn(|month| {
        let season = season_of(month);
        let share = shares.get(season).copied().unwrap_or(0.0) / 100.0;
        let days: f64 = days_of_season.get(season).copied().unwrap_or(1.0);
        let growth = share * year_kg / days;
        // To a tenth: nobody reads a sward closer.
        (growth * 10.0).round() / 10.0
    })
}
