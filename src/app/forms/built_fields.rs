//! The fields of what is built or planted on a piece of ground, as plain rows: one list for each sort.
//!
//! The first field of a sort stands alone until something is typed into it. Metres, yards, degrees.

use super::change::{BuiltField, GroundField, Target};
use super::field::FieldRow;
use super::figures::{figure_text, length_figure, length_unit};
use super::varieties::varieties_text;
use crate::farm::{Ground, GroundId, longest_way_deg, tunnel_floor};
use crate::quantity::UnitSystem;

/// Makes the rows of one piece of ground.
#[derive(Debug, Clone, Copy)]
pub(super) struct BuiltRows {
    pub(super) id: GroundId,
    pub(super) units: UnitSystem,
}

impl BuiltRows {
    /// Sizes, ridge and hoops of a tunnel.
    pub(super) fn tunnel(self, ground: &Ground) -> Vec<FieldRow> {
        let mut rows = Vec::new();
        let floor = ground.outline().and_then(tunnel_floor);
        if let Some(floor) = floor.filter(|floor| floor.rectangle.is_some()) {
            rows.push(self.length(BuiltField::Length, "Length", Some(floor.length_m)));
            rows.push(self.length(BuiltField::Width, "Width", Some(floor.width_m)));
            let bearing = format!("{:.1}", floor.bearing_deg);
            rows.push(self.figure(BuiltField::Bearing, "Runs along", bearing, "°"));
        }
        let ridge = ground
            .height_m
            .map_or_else(String::new, |height_m| length_figure(height_m, self.units));
        let height = Target::Ground(self.id, GroundField::Height);
        rows.push(
            FieldRow::figure(height, "Ridge height", ridge, length_unit(self.units))
                .hinted("not known"),
        );
        let frame = ground.frame;
        let spacing_m = frame.map(|frame| frame.hoop_spacing_m);
        rows.push(
            self.length(BuiltField::HoopSpacing, "Hoop to hoop", spacing_m)
                .hinted("not said"),
        );
        if let Some(frame) = frame {
            let side_m = Some(frame.straight_side_m);
            rows.push(self.length(BuiltField::StraightSide, "Straight side", side_m));
            rows.push(self.length(BuiltField::Skirt, "Skirt, dug in", Some(frame.skirt_m)));
        }
        rows
    }

    /// Where the trees of a line stand, and which they are in order.
    pub(super) fn trees(self, ground: &Ground) -> Vec<FieldRow> {
        let trees = ground.trees.as_ref();
        let of_ground = |field, label: &str, length_m: Option<f64>| {
            let text =
                length_m.map_or_else(String::new, |length_m| length_figure(length_m, self.units));
            let target = Target::Ground(self.id, field);
            FieldRow::figure(target, label, text, length_unit(self.units))
        };
        let spacing_m = trees.map(|row| row.spacing_m);
        let mut rows =
            vec![of_ground(GroundField::TreeSpacing, "Stem to stem", spacing_m).hinted("no trees")];
        let Some(trees) = trees else {
            return rows;
        };
        rows.push(of_ground(
            GroundField::TreeFirst,
            "First stem at",
            Some(trees.first_m),
        ));
        rows.push(of_ground(
            GroundField::TreeCrown,
            "Crown, grown",
            Some(trees.crown_m),
        ));
        let target = Target::Built(self.id, BuiltField::Varieties);
        let text = varieties_text(&trees.varieties);
        rows.push(
            FieldRow::lines(target, "Varieties, in planting order", text)
                .hinted("one after another, with commas"),
        );
        rows
    }

    /// Beds, paths and plants.
    pub(super) fn beds(self, ground: &Ground) -> Vec<FieldRow> {
        let width_m = ground.beds.map(|beds| beds.bed_width_m);
        let mut rows = vec![
            self.length(BuiltField::BedWidth, "Bed width", width_m)
                .hinted("no beds"),
        ];
        let Some(beds) = ground.beds else {
            return rows;
        };
        rows.push(self.length(BuiltField::PathWidth, "Path width", Some(beds.path_width_m)));
        let along = beds
            .bearing_deg
            .map(|bearing_deg| format!("{bearing_deg:.1}"));
        let longest = ground.outline().and_then(longest_way_deg);
        rows.push(
            self.figure(
                BuiltField::BedBearing,
                "Beds run along",
                along.unwrap_or_default(),
                "°",
            )
            .hinted(longest.map_or_else(String::new, |way_deg| format!("{way_deg:.1}"))),
        );
        let count = beds.rows.to_string();
        rows.push(self.figure(BuiltField::Rows, "Rows on a bed", count, "rows"));
        let spacing_m = Some(beds.plant_spacing_m);
        rows.push(self.length(BuiltField::PlantSpacing, "Plant to plant", spacing_m));
        rows
    }

    /// Posts and rolls of a fence.
    pub(super) fn fence(self, ground: &Ground) -> Vec<FieldRow> {
        let spacing_m = ground.posts.map(|posts| posts.spacing_m);
        let mut rows = vec![
            self.length(BuiltField::PostSpacing, "Post to post", spacing_m)
                .hinted("not said"),
        ];
        if let Some(posts) = ground.posts {
            rows.push(self.length(BuiltField::Roll, "Roll length", Some(posts.roll_m)));
            let strands = posts.strands.to_string();
            rows.push(self.figure(BuiltField::Strands, "Strands", strands, "strands"));
        }
        rows
    }

    /// Depth and sides of a pond.
    pub(super) fn basin(self, ground: &Ground) -> Vec<FieldRow> {
        let depth_m = ground.basin.map(|basin| basin.depth_m);
        let mut rows = vec![
            self.length(BuiltField::Depth, "Depth when full", depth_m)
                .hinted("not known"),
        ];
        if let Some(basin) = ground.basin {
            let run = figure_text(basin.side_run);
            rows.push(
                self.figure(BuiltField::SideRun, "Side slope", run, ": 1")
                    .spoken("Side slope, across for one down"),
            );
        }
        rows
    }

    fn length(self, field: BuiltField, label: &str, length_m: Option<f64>) -> FieldRow {
        let text =
            length_m.map_or_else(String::new, |length_m| length_figure(length_m, self.units));
        self.figure(field, label, text, length_unit(self.units))
    }

    fn figure(self, field: BuiltField, label: &str, text: String, unit: &str) -> FieldRow {
        FieldRow::figure(Target::Built(self.id, field), label, text, unit)
    }
}
