//! What was chosen last in the question of strips: how size and direction are given, and the figures as typed.

/// How the size of a strip is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SizeWay {
    /// So many equal ones.
    #[default]
    Count,
    /// Of an area.
    Area,
    /// Of a width.
    Width,
    /// For a mob and some days.
    Days,
}

/// How the direction is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum DirectionWay {
    /// Across the longest side.
    #[default]
    Across,
    /// Along a chosen side.
    Side,
    /// Along a bearing.
    Bearing,
    /// To something.
    Reaching,
}

/// What was chosen last, as it stood in the fields; kept from one question and one day to the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StripsChoice {
    /// How the size is given.
    pub size: SizeWay,
    /// How the direction is given.
    pub direction: DirectionWay,
    /// Number of strips.
    pub count_text: String,
    /// Area of a strip.
    pub area_text: String,
    /// Width of a strip.
    pub width_text: String,
    /// Days on a strip.
    pub days_text: String,
}

impl Default for StripsChoice {
    fn default() -> Self {
        Self {
            size: SizeWay::Count,
            direction: DirectionWay::Across,
            count_text: "6".to_owned(),
            area_text: String::new(),
            width_text: String::new(),
            days_text: "2".to_owned(),
        }
    }
}
