//! Figures of crops: family, spacing, when planted and picked, what is expected; the grower's own come first.
//!
//! Metres, kilograms to the square metre. No one text gives all of these: they are starting figures, said to be so
//! wherever they are shown.

use super::{Courses, Family};
use crate::quantity::YearDay;

/// Where the figures of the table come from.
pub const CROP_SOURCE: &str = "common practice in cool, moist market gardens, from memory, no one source: put your own figures in";

/// What is known of a crop where the grower has not said otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CropRow {
    /// Its name, one of it.
    pub name: &'static str,
    /// What else goes by these figures.
    pub also: &'static [&'static str],
    /// The family.
    pub family: Family,
    /// How near the part that is eaten comes to the soil.
    pub contact: Contact,
    /// Metres from row to row.
    pub row_m: f64,
    /// Metres from plant to plant in the row.
    pub plant_m: f64,
    /// What it is raised from.
    pub raised: Raised,
    /// Sown or planted out.
    pub planted: YearDay,
    /// First picked.
    pub first_harvest: YearDay,
    /// Last picked.
    pub last_harvest: YearDay,
    /// Least and most expected, kg/m².
    pub yield_kg_per_m2: (f64, f64),
}

/// How near the eaten part comes to the soil: what the waits after manure turn on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Contact {
    /// It touches the soil, or soil splashes on it.
    TouchesSoil,
    /// It hangs clear of soil and splash.
    OffSoil,
    /// Nobody eats it: green manure, hay.
    NotFood,
}

/// What a crop is raised from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Raised {
    /// Sown where it stands.
    Seed,
    /// Planted out as plugs or transplants.
    Plugs,
    /// Planted as sets, cloves or tubers.
    Sets,
}

/// The grower's own figures of a crop; what is absent is the table's.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OwnCrop {
    /// The family.
    pub family: Option<Family>,
    /// How near the eaten part comes to the soil.
    pub contact: Option<Contact>,
    /// Metres from row to row.
    pub row_m: Option<f64>,
    /// Metres from plant to plant.
    pub plant_m: Option<f64>,
    /// What it is raised from.
    pub raised: Option<Raised>,
    /// Sown or planted out.
    pub planted: Option<YearDay>,
    /// First picked.
    pub first_harvest: Option<YearDay>,
    /// Last picked.
    pub last_harvest: Option<YearDay>,
    /// Plants or seed to spare, in 100.
    pub spare_percent: Option<f64>,
    /// Expected, kg/m².
    pub yield_kg_per_m2: Option<f64>,
    /// Expected of a plant, kg; counts where none to the square metre is given.
    pub yield_kg_per_plant: Option<f64>,
}

/// The figures that hold for a crop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CropFigures {
    /// How near the eaten part comes to the soil.
    pub contact: Contact,
    /// Metres from row to row.
    pub row_m: f64,
    /// Metres from plant to plant in the row.
    pub plant_m: f64,
    /// What it is raised from.
    pub raised: Raised,
    /// Sown or planted out.
    pub planted: YearDay,
    /// First picked.
    pub first_harvest: YearDay,
    /// Last picked.
    pub last_harvest: YearDay,
    /// Plants or seed to spare, in 100.
    pub spare_percent: f64,
    /// The grower's own expectation, kg/m².
    pub own_yield_kg_per_m2: Option<f64>,
    /// The grower's own expectation of a plant, kg.
    pub own_yield_kg_per_plant: Option<f64>,
    /// Least and most of the table, kg/m²; of a known crop.
    pub usual_yield_kg_per_m2: Option<(f64, f64)>,
    /// Whether the crop is in the table; figures of another are only a start.
    pub is_known: bool,
}

/// Plants or seed to spare where nothing was said, in 100 (common practice, no source).
const USUAL_SPARE_PERCENT: f64 = 10.0;

impl Contact {
    /// What it means, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::TouchesSoil => "touches the soil or its splash",
            Self::OffSoil => "clear of the soil",
            Self::NotFood => "not eaten",
        }
    }
}

impl Raised {
    /// What is bought or raised, one and many.
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Seed => ("seed", "seeds"),
            Self::Plugs => ("plug", "plugs"),
            Self::Sets => ("set", "sets"),
        }
    }
}

/// What holds for a crop by its name: the grower's own figures, then the table's, then a middling crop's. South of
/// the equator the table's days fall half a year on.
pub fn crop_figures(courses: &Courses, name: &str, is_south: bool) -> CropFigures {
    let row = table_row(name);
    let base = row.unwrap_or(&UNKNOWN);
    let own = own_row(courses, name).copied().unwrap_or_default();
    let here = |day: YearDay| if is_south { day.half_a_year_on() } else { day };
    CropFigures {
        contact: own.contact.unwrap_or(base.contact),
        row_m: own.row_m.unwrap_or(base.row_m),
        plant_m: own.plant_m.unwrap_or(base.plant_m),
        raised: own.raised.unwrap_or(base.raised),
        planted: own.planted.unwrap_or_else(|| here(base.planted)),
        first_harvest: own
            .first_harvest
            .unwrap_or_else(|| here(base.first_harvest)),
        last_harvest: own.last_harvest.unwrap_or_else(|| here(base.last_harvest)),
        spare_percent: own.spare_percent.unwrap_or(USUAL_SPARE_PERCENT),
        own_yield_kg_per_m2: own.yield_kg_per_m2,
        own_yield_kg_per_plant: own.yield_kg_per_plant,
        usual_yield_kg_per_m2: row.map(|row| row.yield_kg_per_m2),
        is_known: row.is_some(),
    }
}

/// The family of a crop by its name, where own figures or the table know it.
pub(super) fn known_family(courses: &Courses, name: &str) -> Option<Family> {
    own_row(courses, name)
        .and_then(|own| own.family)
        .or_else(|| table_row(name).map(|row| row.family))
}

/// A name without blanks at its ends and between its words more than one.
pub(super) fn trimmed_name(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn own_row<'a>(courses: &'a Courses, name: &str) -> Option<&'a OwnCrop> {
    courses.own_crops.get(name).or_else(|| {
        let plain = name.to_lowercase();
        courses
            .own_crops
            .iter()
            .find(|(own, _)| own.to_lowercase() == plain)
            .map(|(_, own)| own)
    })
}

/// The row whose name, or other name, is the longest that stands in `name`, ending in s or es or not.
fn table_row(name: &str) -> Option<&'static CropRow> {
    let words: Vec<String> = name
        .to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(ToOwned::to_owned)
        .collect();
    let plain = format!(" {} ", words.join(" "));
    let stands_in = |word: &&&str| {
        ["", "s", "es"]
            .iter()
            .any(|ending| plain.contains(&format!(" {word}{ending} ")))
    };
    CROPS
        .iter()
        .filter_map(|row| {
            let words = std::iter::once(&row.name).chain(row.also);
            let longest = words.filter(stands_in).map(|word| word.len()).max()?;
            Some((longest, row))
        })
        .max_by_key(|(length, _)| *length)
        .map(|(_, row)| row)
}

#[expect(
    clippy::too_many_arguments,
    reason = "a row of a table, each in its column"
)]
const fn row(
    name: &'static str,
    also: &'static [&'static str],
    family: Family,
    contact: Contact,
    (row_m, plant_m): (f64, f64),
    raised: Raised,
    days: [(i8, i8); 3],
    yield_kg_per_m2: (f64, f64),
) -> CropRow {
    let [planted, first, last] = days;
    CropRow {
        name,
        also,
        family,
        contact,
        row_m,
        plant_m,
        raised,
        planted: YearDay::of(planted.0, planted.1),
        first_harvest: YearDay::of(first.0, first.1),
        last_harvest: YearDay::of(last.0, last.1),
        yield_kg_per_m2,
    }
}

/// What a crop that no table knows is taken for: eaten, touching the soil.
const UNKNOWN: CropRow = row(
    "",
    &[],
    Family::Other,
    Contact::TouchesSoil,
    (0.30, 0.30),
    Raised::Plugs,
    [(5, 1), (7, 1), (10, 15)],
    (0.0, 0.0),
);

/// The table.
#[rustfmt::skip]
pub const CROPS: [CropRow; 36] = [
    row("cabbage", &["savoy"], Family::Cabbage, Contact::TouchesSoil, (0.45, 0.45), Raised::Plugs, [(5, 10), (8, 15), (12, 15)], (2.0, 4.0)),
    row("kale", &["cavolo"], Family::Cabbage, Contact::OffSoil, (0.45, 0.45), Raised::Plugs, [(6, 10), (9, 1), (3, 15)], (1.0, 2.0)),
    row("broccoli", &["calabrese"], Family::Cabbage, Contact::OffSoil, (0.45, 0.45), Raised::Plugs, [(5, 15), (7, 20), (10, 15)], (0.6, 1.2)),
    row("cauliflower", &[], Family::Cabbage, Contact::OffSoil, (0.60, 0.60), Raised::Plugs, [(6, 1), (9, 1), (11, 15)], (1.2, 2.5)),
    row("sprout", &["brussels"], Family::Cabbage, Contact::OffSoil, (0.75, 0.60), Raised::Plugs, [(5, 25), (10, 15), (2, 28)], (1.0, 1.8)),
    row("kohlrabi", &[], Family::Cabbage, Contact::OffSoil, (0.30, 0.25), Raised::Plugs, [(4, 20), (6, 20), (10, 15)], (1.5, 3.0)),
    row("turnip", &["swede", "radish", "mooli"], Family::Cabbage, Contact::TouchesSoil, (0.35, 0.15), Raised::Seed, [(6, 10), (9, 15), (1, 31)], (2.0, 4.0)),
    row("rocket", &["mustard", "mizuna", "pak choi", "brassica", "oriental"], Family::Cabbage, Contact::TouchesSoil, (0.15, 0.05), Raised::Seed, [(4, 15), (5, 25), (10, 15)], (0.8, 1.6)),
    row("winter brassica leaves", &["winter mustard", "winter mizuna"], Family::Cabbage, Contact::TouchesSoil, (0.20, 0.15), Raised::Plugs, [(10, 5), (11, 20), (4, 10)], (0.6, 1.5)),
    row("carrot", &[], Family::Carrot, Contact::TouchesSoil, (0.35, 0.03), Raised::Seed, [(5, 10), (8, 15), (12, 15)], (3.0, 6.0)),
    row("parsnip", &[], Family::Carrot, Contact::TouchesSoil, (0.40, 0.08), Raised::Seed, [(4, 15), (10, 15), (3, 15)], (2.0, 4.0)),
    row("celeriac", &["celery"], Family::Carrot, Contact::TouchesSoil, (0.45, 0.35), Raised::Plugs, [(5, 25), (9, 15), (12, 15)], (2.0, 4.0)),
    row("parsley", &["fennel", "coriander", "dill"], Family::Carrot, Contact::TouchesSoil, (0.30, 0.20), Raised::Plugs, [(5, 1), (6, 25), (10, 31)], (1.0, 2.0)),
    row("leek", &[], Family::Onion, Contact::TouchesSoil, (0.40, 0.15), Raised::Plugs, [(6, 10), (9, 15), (3, 31)], (2.0, 4.0)),
    row("onion", &["shallot"], Family::Onion, Contact::TouchesSoil, (0.30, 0.10), Raised::Sets, [(4, 5), (8, 5), (9, 15)], (2.5, 5.0)),
    row("garlic", &[], Family::Onion, Contact::TouchesSoil, (0.30, 0.15), Raised::Sets, [(10, 20), (7, 5), (8, 5)], (0.6, 1.2)),
    row("lettuce", &["endive", "chicory", "radicchio", "salad"], Family::Daisy, Contact::TouchesSoil, (0.30, 0.25), Raised::Plugs, [(4, 20), (6, 1), (10, 10)], (1.5, 3.0)),
    row("winter salad", &["winter lettuce"], Family::Daisy, Contact::TouchesSoil, (0.20, 0.15), Raised::Plugs, [(10, 5), (11, 20), (4, 10)], (0.6, 1.5)),
    row("beetroot", &["beet"], Family::Beet, Contact::TouchesSoil, (0.30, 0.10), Raised::Seed, [(5, 1), (7, 20), (11, 15)], (2.0, 4.0)),
    row("chard", &["spinach"], Family::Beet, Contact::TouchesSoil, (0.30, 0.25), Raised::Plugs, [(5, 1), (6, 25), (10, 31)], (1.5, 3.0)),
    row("winter spinach", &["winter chard"], Family::Beet, Contact::TouchesSoil, (0.20, 0.15), Raised::Plugs, [(10, 1), (11, 25), (4, 10)], (0.6, 1.5)),
    row("potato", &[], Family::Nightshade, Contact::TouchesSoil, (0.75, 0.30), Raised::Sets, [(4, 15), (7, 10), (10, 10)], (2.0, 4.0)),
    row("tomato", &[], Family::Nightshade, Contact::OffSoil, (0.75, 0.45), Raised::Plugs, [(5, 1), (7, 10), (10, 15)], (6.0, 12.0)),
    row("pepper", &["chilli", "aubergine"], Family::Nightshade, Contact::OffSoil, (0.60, 0.45), Raised::Plugs, [(5, 15), (8, 1), (10, 15)], (2.0, 5.0)),
    row("squash", &["pumpkin"], Family::Gourd, Contact::TouchesSoil, (1.50, 0.90), Raised::Plugs, [(6, 1), (9, 15), (10, 15)], (1.5, 3.0)),
    row("courgette", &["marrow"], Family::Gourd, Contact::OffSoil, (1.00, 0.80), Raised::Plugs, [(6, 1), (7, 15), (10, 5)], (2.5, 5.0)),
    row("cucumber", &["melon"], Family::Gourd, Contact::OffSoil, (1.00, 0.50), Raised::Plugs, [(5, 10), (6, 25), (9, 30)], (6.0, 12.0)),
    row("pea", &["mangetout"], Family::Pea, Contact::OffSoil, (0.60, 0.05), Raised::Seed, [(4, 10), (6, 25), (7, 31)], (0.5, 1.0)),
    row("broad bean", &["field bean"], Family::Pea, Contact::OffSoil, (0.60, 0.20), Raised::Seed, [(3, 15), (6, 20), (7, 31)], (1.0, 2.0)),
    row("bean", &["french bean", "runner bean"], Family::Pea, Contact::OffSoil, (0.60, 0.15), Raised::Seed, [(5, 25), (8, 1), (10, 5)], (1.0, 2.5)),
    row("sweetcorn", &["sweet corn", "maize"], Family::Grass, Contact::OffSoil, (0.75, 0.35), Raised::Plugs, [(5, 25), (8, 25), (9, 25)], (0.8, 1.5)),
    row("wheat", &["oat", "rye", "barley", "cereal", "grain"], Family::Grass, Contact::OffSoil, (0.13, 0.03), Raised::Seed, [(10, 15), (8, 10), (9, 5)], (0.25, 0.6)),
    row("sweet potato", &[], Family::Other, Contact::TouchesSoil, (0.90, 0.35), Raised::Plugs, [(6, 1), (10, 1), (10, 25)], (1.0, 2.5)),
    row("claytonia", &["winter purslane"], Family::Other, Contact::TouchesSoil, (0.20, 0.15), Raised::Plugs, [(9, 25), (11, 10), (4, 10)], (0.6, 1.2)),
    row("basil", &["herb"], Family::Other, Contact::OffSoil, (0.25, 0.25), Raised::Plugs, [(5, 20), (7, 1), (9, 30)], (1.0, 2.0)),
    row("strawberry", &["strawberries"], Family::Other, Contact::TouchesSoil, (0.75, 0.35), Raised::Plugs, [(8, 15), (6, 5), (7, 15)], (0.8, 1.8)),
];
