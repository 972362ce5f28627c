//! What a sheep drinks a day: litres by liveweight and state.

/// Millilitres a day for each kg of liveweight to the power 0.75, least and most, by state (South Dakota State
/// University Extension, water for sheep, after *Nutrient Requirements of Small Ruminants*, National Research
/// Council, 2007).
const ML_PER_METABOLIC_KG: [(WaterNeed, f64, f64); 3] = [
    (WaterNeed::Maintenance, 107.0, 146.0),
    (WaterNeed::InLamb, 215.0, 290.0),
    (WaterNeed::Milking, 359.0, 359.0),
];

/// The state a sheep is in, as far as water goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WaterNeed {
    /// Neither in lamb nor milking.
    Maintenance,
    /// In lamb; about double with twins or more.
    InLamb,
    /// Suckling; about double with twins or more.
    Milking,
}

/// Least and most that one sheep drinks a day, litres. Lush grass may hold most of it; heat asks for more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterRange {
    /// Least, litres a day.
    pub least_l: f64,
    /// Most, litres a day.
    pub most_l: f64,
}

/// Water for one sheep a day; `None` where the weight is not above 0.
pub fn water_litres_a_day(need: WaterNeed, liveweight_kg: f64) -> Option<WaterRange> {
    let metabolic_kg = liveweight_kg.powf(0.75);
    let is_sound = liveweight_kg > 0.0 && metabolic_kg.is_finite();
    let (_, least_ml, most_ml) = *ML_PER_METABOLIC_KG
        .iter()
        .find(|(state, ..)| *state == need)
        .filter(|_| is_sound)?;
    Some(WaterRange {
        least_l: least_ml * metabolic_kg / 1000.0,
        most_l: most_ml * metabolic_kg / 1000.0,
    })
}
