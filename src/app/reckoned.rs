//! What follows from the farm as it stands: measures, sums, how pieces lie to each other, findings.
//!
//! Renewed piece by piece by what an edit touched, and always true of the farm it was renewed with. Knows nothing of
//! what is selected, shown or planned. Square metres, metres.

use std::collections::{BTreeMap, BTreeSet};

use crate::farm::{
    BuiltSums, Farm, Finding, Ground, GroundId, GroundMeasures, Neighbourhood, Subject, Touched,
    built_sums, farm_area_m2, findings_with, grazed_units, measure_ground,
};

/// What follows from a farm.
#[derive(Debug, Clone, Default)]
pub struct Reckoned {
    /// How the pieces lie to each other.
    pub(super) neighbourhood: Neighbourhood,
    /// What is to be known or mended, the gravest first.
    pub(super) findings: Vec<Finding>,
    measures: BTreeMap<GroundId, GroundMeasures>,
    built: BTreeMap<GroundId, BuiltSums>,
    with_finding: BTreeSet<GroundId>,
    cut: BTreeSet<GroundId>,
    grazed: Vec<GroundId>,
    with_lengths: Vec<GroundId>,
    whole_area_m2: f64,
    widest_m: f64,
    round: u64,
}

impl Reckoned {
    /// Forgets everything, before another farm.
    pub fn begin_anew(&mut self) {
        let round = self.round;
        *self = Self {
            round,
            ..Self::default()
        };
    }

    /// Takes in what an edit touched.
    pub fn renew(&mut self, farm: &Farm, touched: &Touched) {
        self.round += 1;
        for id in &touched.ground {
            self.built.remove(id);
            let Some(ground) = farm.ground.get(id) else {
                self.measures.remove(id);
                continue;
            };
            self.measures.insert(*id, measure_ground(farm, ground));
            let built = built_sums(farm, ground);
            if !built.is_empty() {
                self.built.insert(*id, built);
            }
        }
        if touched.ground.len() > farm.ground.len() / 2 {
            self.neighbourhood = Neighbourhood::of(farm);
        } else {
            self.neighbourhood.renew(farm, &touched.ground);
        }
        if touched.ground.is_empty() && !touched.season {
            return;
        }
        self.findings = findings_with(farm, &self.neighbourhood);
        let about = self.findings.iter().filter_map(|found| match found.about {
            Subject::Ground(id) => Some(id),
            _ => None,
        });
        self.with_finding = about.collect();
        let pieces = farm.ground.values();
        self.cut = pieces.clone().filter_map(|ground| ground.within).collect();
        self.grazed = grazed_units(farm).iter().map(|unit| unit.id).collect();
        let shown = farm
            .ground
            .iter()
            .filter(|(_, ground)| ground.shows_lengths);
        self.with_lengths = shown.map(|(id, _)| *id).collect();
        self.widest_m = pieces
            .map(Ground::drawn_width_m)
            .filter(|width_m| width_m.is_finite())
            .fold(0.0, f64::max);
        self.whole_area_m2 = farm_area_m2(farm, |id| self.measures(id));
    }

    /// The measures of a piece of ground.
    pub fn measures(&self, id: GroundId) -> GroundMeasures {
        self.measures.get(&id).copied().unwrap_or_default()
    }

    /// What follows from what is built or planted on a piece of ground, where something is.
    pub fn built(&self, id: GroundId) -> Option<&BuiltSums> {
        self.built.get(&id)
    }

    /// Whether a finding is about a piece of ground.
    pub fn has_finding(&self, id: GroundId) -> bool {
        self.with_finding.contains(&id)
    }

    /// Ground that strips are cut from.
    pub fn cut(&self) -> &BTreeSet<GroundId> {
        &self.cut
    }

    /// Whether strips are cut from a piece of ground.
    pub fn is_cut(&self, id: GroundId) -> bool {
        self.cut.contains(&id)
    }

    /// What is grazed as one piece, in the order of its numbers.
    pub fn grazed(&self) -> &[GroundId] {
        &self.grazed
    }

    /// Ground whose sides' lengths stand on the map.
    pub fn with_lengths(&self) -> &[GroundId] {
        &self.with_lengths
    }

    /// The area of all ground, strips counted within their ley.
    pub fn whole_area_m2(&self) -> f64 {
        self.whole_area_m2
    }

    /// The width of the widest line, as drawn.
    pub fn widest_m(&self) -> f64 {
        self.widest_m
    }

    /// Rises with every change of the farm: what was kept in an earlier round may no longer be true.
    pub fn round(&self) -> u64 {
        self.round
    }
}
