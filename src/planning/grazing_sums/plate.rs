//! From a plate meter's reading to a cover.
//!
//! The reading is the count on the meter, most often half centimetres of pressed sward; a ruler's height is another
//! thing and has no formula here. Cover is kg DM/ha from ground level.

/// A published line from reading to cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateFormula {
    /// Where and when it holds.
    pub name: &'static str,
    /// kg DM/ha for each count.
    pub kg_per_ha_count: f64,
    /// kg DM/ha at a reading of nothing.
    pub base_kg_per_ha: f64,
    /// Title, body, year.
    pub source: &'static str,
}

/// The published lines, the usual British one first.
pub const PLATE_FORMULAS: [PlateFormula; 3] = [
    PlateFormula {
        name: "Great Britain",
        kg_per_ha_count: 125.0,
        base_kg_per_ha: 640.0,
        source: "Using a plate meter, DairyCo (AHDB)",
    },
    PlateFormula {
        name: "Northern Ireland",
        kg_per_ha_count: 158.0,
        base_kg_per_ha: 330.0,
        source: "Department of Agriculture and Rural Development, Northern Ireland, plate meter advice",
    },
    PlateFormula {
        name: "New Zealand, winter",
        kg_per_ha_count: 140.0,
        base_kg_per_ha: 500.0,
        source: "New Zealand standard dairy equation for the plate meter, April to September",
    },
];

/// The cover a reading stands for, kg DM/ha; `None` for a reading below 0.
pub fn cover_from_plate(formula: &PlateFormula, reading: f64) -> Option<f64> {
    let cover = formula.kg_per_ha_count * reading + formula.base_kg_per_ha;
    (reading >= 0.0 && cover.is_finite()).then_some(cover)
}
