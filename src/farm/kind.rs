//! The kinds of ground and the form each is drawn in.
//!
//! Knows no colours: how a kind looks is the window's and the sheets' business.

/// What a piece of ground is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Ground under crop.
    Plot,
    /// Ground under grass and herbs for some years.
    Ley,
    /// One of the pieces that a ley is grazed in.
    Strip,
    /// A polytunnel.
    Tunnel,
    /// A row of trees.
    TreeLine,
    /// A hedge.
    Hedge,
    /// A fence.
    Fence,
    /// A gate.
    Gate,
    /// A track or lane.
    Track,
    /// A pond, stream or reservoir.
    Water,
    /// A drinking place for stock.
    Trough,
    /// A shed, barn or house.
    Building,
    /// A wood or copse.
    Wood,
    /// Ground where nothing may stand or drive.
    KeepOut,
    /// Words, or a measured line, that stand on the map and are no ground.
    Note,
}

/// How a thing lies on the map.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// One or more outlines.
    Area,
    /// A line of two corners or more.
    Line,
    /// A single place.
    Place,
}

impl Kind {
    /// Every kind, in the order in which lists show them.
    pub const ALL: [Self; 15] = [
        Self::Plot,
        Self::Ley,
        Self::Strip,
        Self::Tunnel,
        Self::TreeLine,
        Self::Hedge,
        Self::Fence,
        Self::Gate,
        Self::Track,
        Self::Water,
        Self::Trough,
        Self::Building,
        Self::Wood,
        Self::KeepOut,
        Self::Note,
    ];

    /// The name as people read it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plot => "plot",
            Self::Ley => "ley",
            Self::Strip => "strip",
            Self::Tunnel => "tunnel",
            Self::TreeLine => "tree line",
            Self::Hedge => "hedge",
            Self::Fence => "fence",
            Self::Gate => "gate",
            Self::Track => "track",
            Self::Water => "water",
            Self::Trough => "trough",
            Self::Building => "building",
            Self::Wood => "wood",
            Self::KeepOut => "keep-out",
            Self::Note => "note",
        }
    }

    /// The kind that a person means by `text`, capitals, spaces and hyphens aside.
    pub fn from_name(text: &str) -> Option<Self> {
        let plain = |text: &str| -> String {
            text.chars()
                .filter(|c| c.is_alphanumeric())
                .flat_map(char::to_lowercase)
                .collect()
        };
        let wanted = plain(text);
        Self::ALL
            .into_iter()
            .find(|kind| plain(kind.name()) == wanted)
    }

    /// Whether a thing of this kind may lie in this form.
    pub const fn allows(self, form: Form) -> bool {
        match form {
            Form::Area => !matches!(self, Self::Fence | Self::TreeLine | Self::Note),
            Form::Line => matches!(
                self,
                Self::TreeLine
                    | Self::Hedge
                    | Self::Fence
                    | Self::Gate
                    | Self::Track
                    | Self::Water
                    | Self::Note
            ),
            Form::Place => matches!(
                self,
                Self::Gate | Self::Trough | Self::Water | Self::Building | Self::Note
            ),
        }
    }

    /// Whether sheep may be planned onto it.
    pub const fn is_grazed(self) -> bool {
        matches!(self, Self::Ley | Self::Strip)
    }

    /// The width at which a line of this kind is drawn where the person gave none, metres
    /// (common practice, no source; editable).
    pub const fn usual_width_m(self) -> f64 {
        match self {
            Self::Track => 3.0,
            Self::Hedge => 2.0,
            Self::TreeLine => 4.0,
            Self::Water => 1.5,
            _ => 0.0,
        }
    }
}

impl Form {
    /// The name as people read it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Area => "area",
            Self::Line => "line",
            Self::Place => "place",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_found_again_by_its_name() {
        for kind in Kind::ALL {
            assert_eq!(Kind::from_name(&kind.name().to_uppercase()), Some(kind));
        }
        assert_eq!(Kind::from_name("Keep out"), Some(Kind::KeepOut));
        assert_eq!(Kind::from_name("moat"), None);
    }
}
