//! What is reckoned from what is built or planted, in words for the facts column: rows, sentences, small print.

use crate::farm::{
    Basin, BedSums, FencePosts, FenceSums, Ground, Kind, TunnelEnds, TunnelGap, TunnelSums,
};
use crate::geometry::prismoid::BasinVolume;
use crate::quantity::{
    UnitSystem, area_text, count_text, decimal_text, length_text, length_text_precise,
    made_length_text, volume_text, water_text,
};
use std::collections::BTreeMap;

/// Figures under the fields of one sort.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct BuiltFacts {
    /// Name and figure.
    pub(super) rows: Vec<(String, String)>,
    /// Sentences to be read.
    pub(super) sentences: Vec<String>,
    /// How it is reckoned, and cautions.
    pub(super) small: Vec<String>,
}

impl BuiltFacts {
    fn row(&mut self, name: &str, figure: String) {
        self.rows.push((name.to_owned(), figure));
    }

    fn say(&mut self, sentence: &str) {
        self.sentences.push(sentence.to_owned());
    }

    fn small(&mut self, line: &str) {
        self.small.push(line.to_owned());
    }
}

/// Hoops, cover, air.
pub(super) fn tunnel(
    ground: &Ground,
    sums: &Result<TunnelSums, TunnelGap>,
    units: UnitSystem,
) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    let (sums, frame) = match (sums, ground.frame) {
        (Ok(sums), Some(frame)) => (sums, frame),
        (Err(gap), _) => {
            facts.say(gap.sentence());
            return facts;
        }
        (Ok(_), None) => return facts,
    };
    let length = |length_m| made_length_text(length_m, units);
    facts.row("Hoops", count_text(u64::from(sums.hoops)));
    facts.row("Hoops stand apart", length(sums.hoop_gap_m));
    facts.row("Along a hoop", length(sums.hoop_m));
    facts.row("Radius of the bow", length(sums.bow.radius_m()));
    let sheet = format!("{} × {}", length(sums.sheet_m), length(sums.floor.length_m));
    facts.row("Sheet over the hoops", sheet);
    if let Some(one_m) = sums.one_sheet_length_m {
        let one = format!("{} × {}", length(sums.sheet_m), length(one_m));
        facts.row("One sheet, ends too", one);
    }
    facts.row("An end wall", area_text(sums.end_wall_m2, units));
    facts.row("Cover in all", area_text(sums.cover_m2, units));
    facts.row("Air", volume_text(sums.air_m3, units));
    if sums.floor.rectangle.is_none() {
        facts.say("Its outline is no rectangle: length and width are those of the box round it.");
    }
    facts.small(match frame.ends {
        TunnelEnds::Covered => {
            "Cover: along the bow, both straight sides and both skirts, by the length; and two end walls with a skirt. \
             One sheet for the ends too is longer by ridge and skirt at each end. Hoops are parts of a circle."
        }
        TunnelEnds::Boarded => {
            "Cover: along the bow, both straight sides and both skirts, by the length; the end walls are boarded. \
             Hoops are parts of a circle."
        }
        TunnelEnds::Open => {
            "Cover: along the bow, both straight sides and both skirts, by the length; the ends are open. Hoops are \
             parts of a circle."
        }
    });
    facts.small(
        "Ask where cables and pipes lie before you drive in hoops. Clear snow from outside.",
    );
    facts
}

/// Beds and plants.
pub(super) fn beds(sums: &BedSums, units: UnitSystem) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    facts.row("Beds", count_text(u64::try_from(sums.beds).unwrap_or(0)));
    facts.row("Bed length in all", length_text(sums.length_m, units));
    let share = decimal_text(sums.share * 100.0, 0);
    let area = format!("{}, {share} %", area_text(sums.area_m2, units));
    facts.row("Bed area, of the ground", area);
    facts.row("Plants", count_text(sums.plants));
    facts.small(
        "A path lies between each two beds, the block in the middle. A bed that the boundary cuts counts along its \
         middle. Plants: bed area by row spacing times plant spacing, rows evenly over the bed.",
    );
    facts
}

/// Trees of each variety.
pub(super) fn varieties(totals: &BTreeMap<String, usize>) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    let is_named = |(name, _): &(&String, &usize)| !name.is_empty();
    for (name, count) in totals.iter().filter(is_named) {
        facts.row(name, count_text(u64::try_from(*count).unwrap_or(0)));
    }
    facts
}

/// Posts, wire, rolls, and the usual caution.
pub(super) fn fence(sums: &FenceSums, posts: FencePosts, units: UnitSystem) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    facts.row("Posts", count_text(sums.posts));
    let at_corners = count_text(sums.corner_posts);
    facts.row("of them at ends and corners", at_corners);
    let wire = if posts.strands == 1 {
        "Netting or wire"
    } else {
        "Wire, all strands"
    };
    facts.row(wire, length_text(sums.wire_m, units));
    let roll = length_text(posts.roll_m, units);
    let rolls = format!("{} of {roll}", count_text(u64::from(sums.rolls)));
    facts.row("Rolls", rolls);
    facts.small(
        "A post at each end and corner, between them evenly and no farther apart than said. Nothing is added for \
         strainers, knots and waste.",
    );
    facts.small(
        "Where it is electric: one energiser to a fence, never on barbed wire, its earth at least 10 m from any other \
         earth, signs where people may touch it, clear of overhead lines. Ask before digging where cables or pipes may \
         lie. Local code comes first.",
    );
    facts
}

/// What a pond holds, and how to go near it.
pub(super) fn basin(sums: &BasinVolume, basin: Basin, units: UnitSystem) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    facts.row("Water when full", water_text(sums.volume_m3, units));
    facts.row("Water surface", area_text(sums.top_m2, units));
    if sums.is_closed {
        let reached = length_text_precise(sums.depth_m, units);
        let wanted = length_text_precise(basin.depth_m, units);
        facts.row("Depth that is reached", reached.clone());
        facts.sentences.push(format!(
            "Its sides meet at {reached}, before {wanted}: the water is reckoned to there. Make the sides steeper or \
             the pond wider."
        ));
    } else {
        facts.row("Floor", area_text(sums.floor_m2, units));
    }
    facts.small(
        "The outline drawn in level by level along the sides; between levels the prismoidal formula: a sixth of the \
         height times top, bottom and four times the middle.",
    );
    facts.small(
        "Open water drowns: fence it, leave a way out, keep children away. Large reservoirs fall under law; ask before \
         digging.",
    );
    facts
}

/// Height and width of things that are no more than that.
pub(super) fn plain(ground: &Ground, units: UnitSystem) -> BuiltFacts {
    let mut facts = BuiltFacts::default();
    if ground.line().is_some() && ground.kind != Kind::Fence && ground.drawn_width_m() > 0.0 {
        let width = made_length_text(ground.drawn_width_m(), units);
        facts.row("Width on the ground", width);
    }
    // The ridge of a tunnel stands with its hoops.
    if let Some(height_m) = ground.height_m.filter(|_| !ground.kind.has_frame()) {
        facts.row("Height", made_length_text(height_m, units));
    }
    facts
}
