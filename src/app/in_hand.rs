//! What is being dragged on the map, measured as it lies in the hand.
//!
//! Held apart from what follows from the farm, which stays as it is until the drag is let go. Paints nothing. Square
//! metres, metres.

use std::collections::BTreeMap;

use super::tools::Tool;
use crate::farm::{Farm, Ground, GroundId, GroundMeasures, measure_ground};

/// Pieces that are measured while they are dragged, at most: of more nobody reads the figures.
const MOST_MEASURED: usize = 40;

/// The pieces in the hand.
#[derive(Debug, Clone, Default)]
pub struct InHand {
    changed: Vec<(GroundId, Ground)>,
    measures: BTreeMap<GroundId, GroundMeasures>,
}

impl InHand {
    /// Takes in what a tool drags now; true where that is other than before.
    pub fn renew(&mut self, farm: &Farm, tool: &Tool) -> bool {
        let dragged = match tool {
            Tool::Pick(pick) => pick.in_hand(),
            _ => &[],
        };
        let dragged = dragged.get(..MOST_MEASURED).unwrap_or(dragged);
        if dragged == self.changed {
            return false;
        }
        self.measures = dragged
            .iter()
            .map(|(id, ground)| (*id, measure_ground(farm, ground)))
            .collect();
        self.changed = dragged.to_vec();
        true
    }

    /// The measures of a piece, if it is in the hand.
    pub fn measures(&self, id: GroundId) -> Option<GroundMeasures> {
        self.measures.get(&id).copied()
    }
}
