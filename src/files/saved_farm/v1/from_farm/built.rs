//! What is built or planted on a piece of ground, laid out as it is saved.

use crate::farm::{Basin, Beds, FencePosts, TreeRow, TunnelEnds, TunnelFrame};
use crate::files::saved_farm::v1::saved_built::{
    SavedBasin, SavedBeds, SavedEnds, SavedFrame, SavedPosts, SavedTrees,
};

pub(super) fn trees(row: &TreeRow) -> SavedTrees {
    SavedTrees {
        spacing_m: row.spacing_m,
        first_m: row.first_m,
        crown_m: row.crown_m,
        varieties: row.varieties.clone(),
    }
}

pub(super) fn frame(frame: TunnelFrame) -> SavedFrame {
    SavedFrame {
        ends: match frame.ends {
            TunnelEnds::Covered => SavedEnds::Covered,
            TunnelEnds::Boarded => SavedEnds::Boarded,
            TunnelEnds::Open => SavedEnds::Open,
        },
        straight_side_m: frame.straight_side_m,
        skirt_m: frame.skirt_m,
        hoop_spacing_m: frame.hoop_spacing_m,
    }
}

pub(super) fn beds(beds: Beds) -> SavedBeds {
    SavedBeds {
        bed_width_m: beds.bed_width_m,
        path_width_m: beds.path_width_m,
        bearing_deg: beds.bearing_deg,
        rows: beds.rows,
        plant_spacing_m: beds.plant_spacing_m,
    }
}

pub(super) fn posts(posts: FencePosts) -> SavedPosts {
    SavedPosts {
        spacing_m: posts.spacing_m,
        roll_m: posts.roll_m,
        strands: posts.strands,
    }
}

pub(super) fn basin(basin: Basin) -> SavedBasin {
    SavedBasin {
        depth_m: basin.depth_m,
        side_run: basin.side_run,
    }
}
