//! The sward: how grass grows through the year, what is left, what rest it is owed; and the grazing of one piece.
//!
//! Cover and residual are kg of dry matter per hectare, measured from ground level. Growth is kg DM/ha/day.

use super::GrowthShape;
use crate::quantity::Day;

/// The farm's sward, which every ley and strip follows unless it says otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Sward {
    /// Net growth for each month, January first, kg DM/ha/day.
    pub growth_by_month: [f64; 12],
    /// Days of rest owed after a spell that ends in each month, January first.
    pub rest_days_by_month: [u32; 12],
    /// Least days before lambs come back to a strip, for the worms; the grass's own rest where absent.
    pub lamb_rest_days: Option<u32>,
    /// Mass below which nothing is grazed (the residual), kg DM/ha.
    pub leave_kg_per_ha: f64,
    /// Least mass on the first day of a spell, kg DM/ha.
    pub enter_kg_per_ha: f64,
    /// Mass at which net growth stops, kg DM/ha.
    pub ceiling_kg_per_ha: f64,
    /// How growth hangs on the cover that stands.
    pub growth_shape: GrowthShape,
    /// Multiplies the growth of every month: below 1 in a dry year, above it in a kind one.
    pub season_factor: f64,
    /// The first day on which that factor holds; always where absent.
    pub season_factor_from: Option<Day>,
    /// Longest spell on one strip, days.
    pub longest_stay_days: u32,
    /// Where the figures come from.
    pub source: String,
}

/// What is said of one ley or strip beyond the farm's sward.
#[derive(Debug, Clone, PartialEq)]
pub struct Grazing {
    /// Multiplies the farm's growth here; 1 where it grows as the rest does.
    pub growth_factor: f64,
    /// Residual here, kg DM/ha; the farm's where absent.
    pub leave_kg_per_ha: Option<f64>,
    /// Least mass on entry here, kg DM/ha; the farm's where absent.
    pub enter_kg_per_ha: Option<f64>,
    /// Ceiling here, kg DM/ha; the farm's where absent.
    pub ceiling_kg_per_ha: Option<f64>,
    /// Mass wanted on the morning after the season's last day, kg DM/ha.
    pub end_cover_kg_per_ha: Option<f64>,
    /// Covers read in the field, by day.
    pub readings: Vec<Reading>,
    /// The last day on which stock stood here before the season, where known.
    pub last_grazed: Option<Day>,
    /// Spans of days with no animal here.
    pub closed: Vec<Closed>,
}

/// A cover read in the field.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The morning it holds for.
    pub day: Day,
    /// kg DM/ha from ground level.
    pub cover_kg_per_ha: f64,
}

/// A span of days, both included, on which no animal may stand here.
#[derive(Debug, Clone, PartialEq)]
pub struct Closed {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// Hay, nest, wet, crop …
    pub why: String,
}

impl Default for Grazing {
    fn default() -> Self {
        Self {
            growth_factor: 1.0,
            leave_kg_per_ha: None,
            enter_kg_per_ha: None,
            ceiling_kg_per_ha: None,
            end_cover_kg_per_ha: None,
            readings: Vec::new(),
            last_grazed: None,
            closed: Vec::new(),
        }
    }
}

impl Default for Sward {
    /// A cool, moist lowland sward. The month figures are a blend with no one published source; the grower's own
    /// replace them. Rest lengthens as growth slows (common practice, no source).
    fn default() -> Self {
        Self {
            growth_by_month: [
                4.0, 6.0, 18.0, 45.0, 70.0, 62.0, 48.0, 42.0, 32.0, 20.0, 9.0, 5.0,
            ],
            rest_days_by_month: [60, 50, 40, 28, 21, 24, 28, 30, 35, 42, 55, 60],
            lamb_rest_days: None,
            leave_kg_per_ha: 1600.0,
            enter_kg_per_ha: 2200.0,
            ceiling_kg_per_ha: 3800.0,
            growth_shape: GrowthShape::Capped,
            season_factor: 1.0,
            season_factor_from: None,
            longest_stay_days: 3,
            source: "A blend for a cool, moist lowland, no one source: put your own figures in."
                .to_owned(),
        }
    }
}

impl Sward {
    /// Growth on a day, kg DM/ha/day, with the season's factor.
    pub fn growth_on(&self, day: Day) -> f64 {
        let month = self.growth_by_month.get(day.month_index()).copied();
        let holds = self.season_factor_from.is_none_or(|from| day >= from);
        month.unwrap_or(0.0) * if holds { self.season_factor } else { 1.0 }
    }

    /// Rest owed after a spell that ends on a day.
    pub fn rest_days_on(&self, day: Day) -> u32 {
        self.rest_days_by_month
            .get(day.month_index())
            .copied()
            .unwrap_or(0)
    }
}

impl Grazing {
    /// Whether stock is kept off on a day.
    pub fn is_closed(&self, day: Day) -> bool {
        self.closed
            .iter()
            .any(|span| (span.from..=span.to).contains(&day))
    }
}
