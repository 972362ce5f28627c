//! Classes of sheep and what is published about each: usual weight, daily intake, livestock units.
//!
//! Each figure stands once, with unit, range and source; window and sheets show the same words.

/// A class of sheep.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockClass {
    /// Ewes with nothing to feed but themselves.
    DryEwes,
    /// Ewes in the last weeks before lambing.
    EwesInLamb,
    /// Ewes with lambs at foot.
    EwesWithLambs,
    /// Weaned or store lambs.
    Lambs,
    /// Rams.
    Rams,
}

/// A figure with the range that is believed and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced {
    /// The figure.
    pub value: f64,
    /// Least and most that other texts give.
    pub range: (f64, f64),
    /// Unit in words.
    pub unit: &'static str,
    /// Title, body, year, section; or "common practice, no source".
    pub source: &'static str,
}

/// What is known of one class.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClassFacts {
    /// The class.
    pub class: StockClass,
    /// Name for people.
    pub name: &'static str,
    /// Usual liveweight of one head.
    pub liveweight_kg: Sourced,
    /// Dry matter eaten a day as a share of liveweight.
    pub intake_share: Sourced,
    /// Livestock units of one head in the England 2023 set.
    pub livestock_units: Sourced,
}

/// A published set of livestock-unit coefficients; a figure means nothing without its set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LivestockUnitSet {
    /// England, by class.
    England2023,
    /// European farm statistics, all sheep alike.
    EuFarmStatistics,
    /// European rural development, all sheep alike.
    EuRuralDevelopment,
}

const INTAKE_SOURCE: &str =
    "All grass wintering of sheep, EBLEX/AHDB and SAC, intake table as printed by Farmers Weekly";
const INTAKE_UNIT: &str = "kg DM per kg liveweight and day";
const ENGLAND_SOURCE: &str =
    "Countryside Stewardship Higher Tier manual, Defra and Rural Payments Agency, 2023, Annex 8C";
const WEIGHT_SOURCE: &str = "common practice, no source: weigh or ask the flock's owner";

const fn intake(value: f64, least: f64, most: f64) -> Sourced {
    Sourced {
        value,
        range: (least, most),
        unit: INTAKE_UNIT,
        source: INTAKE_SOURCE,
    }
}

const fn units(value: f64) -> Sourced {
    Sourced {
        value,
        range: (value, value),
        unit: "livestock units per head",
        source: ENGLAND_SOURCE,
    }
}

const fn weight(value: f64, least: f64, most: f64) -> Sourced {
    Sourced {
        value,
        range: (least, most),
        unit: "kg",
        source: WEIGHT_SOURCE,
    }
}

/// The table. Ewes in lamb carry the ewe's units: the manual has no row of their own. Rams are fed as dry ewes by
/// weight (common practice, no source).
pub const STOCK_CLASSES: [ClassFacts; 5] = [
    ClassFacts {
        class: StockClass::DryEwes,
        name: "dry ewes",
        liveweight_kg: weight(70.0, 40.0, 110.0),
        intake_share: intake(0.015, 0.015, 0.02),
        livestock_units: units(0.12),
    },
    ClassFacts {
        class: StockClass::EwesInLamb,
        name: "ewes in lamb",
        liveweight_kg: weight(75.0, 40.0, 120.0),
        intake_share: intake(0.02, 0.018, 0.025),
        livestock_units: units(0.12),
    },
    ClassFacts {
        class: StockClass::EwesWithLambs,
        name: "ewes with lambs",
        liveweight_kg: weight(70.0, 40.0, 110.0),
        intake_share: intake(0.03, 0.025, 0.04),
        livestock_units: units(0.12),
    },
    ClassFacts {
        class: StockClass::Lambs,
        name: "lambs",
        liveweight_kg: weight(35.0, 20.0, 55.0),
        intake_share: intake(0.04, 0.035, 0.04),
        livestock_units: units(0.08),
    },
    ClassFacts {
        class: StockClass::Rams,
        name: "rams",
        liveweight_kg: weight(90.0, 60.0, 140.0),
        intake_share: intake(0.015, 0.015, 0.02),
        livestock_units: units(0.12),
    },
];

impl StockClass {
    /// The row of the table.
    pub fn facts(self) -> &'static ClassFacts {
        const FIRST: &ClassFacts = &STOCK_CLASSES[0];
        STOCK_CLASSES
            .iter()
            .find(|facts| facts.class == self)
            .unwrap_or(FIRST)
    }

    /// Name for people.
    pub fn name(self) -> &'static str {
        self.facts().name
    }

    /// Livestock units of one head in a set.
    pub fn livestock_units(self, set: LivestockUnitSet) -> f64 {
        match set {
            LivestockUnitSet::England2023 => self.facts().livestock_units.value,
            LivestockUnitSet::EuFarmStatistics => 0.100,
            LivestockUnitSet::EuRuralDevelopment => 0.15,
        }
    }
}

impl LivestockUnitSet {
    /// Where the set is published.
    pub const fn source(self) -> &'static str {
        match self {
            Self::England2023 => ENGLAND_SOURCE,
            Self::EuFarmStatistics => {
                "Regulation (EC) 1200/2009, coefficients annex, European Commission, 2009: sheep and goats 0.100"
            }
            Self::EuRuralDevelopment => {
                "Regulation (EU) 808/2014, Annex II, European Commission, 2014: sheep and goats 0.15"
            }
        }
    }
}
