//! Reads polygons and multipolygons from the text form of published test cases.

use foldcourse::geometry::{Outline, Point, Polygon, Ring};

/// One test of a case file: description, operands, operation and expected answer, as texts.
pub(super) struct Case {
    pub(super) description: String,
    pub(super) a: String,
    pub(super) b: String,
    /// Operation name and expected text.
    pub(super) tests: Vec<(String, String)>,
}

/// The cases of a file of `<case>` elements.
pub(super) fn cases(text: &str) -> Vec<Case> {
    elements(text, "case")
        .map(|case| Case {
            description: first(case, "desc"),
            a: first(case, "a"),
            b: first(case, "b"),
            tests: elements(case, "op").map(|op| operation(case, op)).collect(),
        })
        .collect()
}

fn operation(case: &str, answer: &str) -> (String, String) {
    let start = answer.as_ptr() as usize - case.as_ptr() as usize;
    let tag = &case[case[..start].rfind("<op").expect("an opening tag")..start];
    let name = tag
        .split("name=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next());
    (name.unwrap_or("").to_owned(), answer.trim().to_owned())
}

fn first(text: &str, name: &str) -> String {
    elements(text, name).next().unwrap_or("").trim().to_owned()
}

fn elements<'a>(text: &'a str, name: &str) -> impl Iterator<Item = &'a str> {
    let (open, close) = (format!("<{name}"), format!("</{name}>"));
    let mut rest = text;
    std::iter::from_fn(move || {
        loop {
            let at = rest.find(&open)?;
            let after = &rest[at + open.len()..];
            if !after.starts_with(['>', ' ']) {
                rest = after;
                continue;
            }
            let body = &after[after.find('>')? + 1..];
            let end = body.find(&close)?;
            rest = &body[end..];
            return Some(&body[..end]);
        }
    })
}

/// The outline of a `POLYGON` or `MULTIPOLYGON`; none for any other kind.
pub(super) fn outline(text: &str) -> Option<Outline> {
    let text = text.trim().to_uppercase();
    let (polygons, depth) = if let Some(body) = text.strip_prefix("MULTIPOLYGON") {
        (body.to_owned(), 3)
    } else {
        (text.strip_prefix("POLYGON")?.to_owned(), 2)
    };
    if polygons.trim() == "EMPTY" {
        return Some(Outline::default());
    }
    let parts = match depth {
        3 => groups(&polygons).iter().map(|part| polygon(part)).collect(),
        _ => vec![polygon(&inner(&polygons))],
    };
    Some(Outline { parts })
}

/// The outline of a polygon or multipolygon given as text or as coded bytes in hexadecimal figures.
pub(super) fn outline_of_either(text: &str) -> Option<Outline> {
    let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.is_empty() || !text.chars().all(|letter| letter.is_ascii_hexdigit()) {
        return outline(&text);
    }
    let pair = |at: usize| u8::from_str_radix(&text[at..at + 2], 16).expect("two figures");
    let bytes: Vec<u8> = (0..text.len()).step_by(2).map(pair).collect();
    let mut coded = Coded { bytes, at: 0 };
    match coded.kind() {
        3 => Some(Outline {
            parts: vec![coded.polygon()],
        }),
        6 => {
            let count = coded.count();
            let part = |_| {
                assert_eq!(coded.kind(), 3);
                coded.polygon()
            };
            Some(Outline {
                parts: (0..count).map(part).collect(),
            })
        }
        _ => None,
    }
}

/// Well-known binary, least byte first, with or without a reference system.
struct Coded {
    bytes: Vec<u8>,
    at: usize,
}

impl Coded {
    fn take<const COUNT: usize>(&mut self) -> [u8; COUNT] {
        self.at += COUNT;
        self.bytes[self.at - COUNT..self.at]
            .try_into()
            .expect("so many bytes")
    }

    fn kind(&mut self) -> u32 {
        assert_eq!(self.take::<1>(), [1], "least byte first");
        let kind = u32::from_le_bytes(self.take());
        if kind & 0x2000_0000 != 0 {
            self.take::<4>();
        }
        kind & 0xFF
    }

    fn count(&mut self) -> u32 {
        u32::from_le_bytes(self.take())
    }

    fn figure(&mut self) -> f64 {
        f64::from_le_bytes(self.take())
    }

    fn polygon(&mut self) -> Polygon {
        let mut rings: Vec<Ring> = Vec::new();
        for _ in 0..self.count() {
            let count = self.count();
            let corners = (0..count).map(|_| Point::new(self.figure(), self.figure()));
            rings.push(Ring::new(corners.collect()));
        }
        let mut rings = rings.into_iter();
        Polygon {
            outer: rings.next().unwrap_or_default(),
            holes: rings.collect(),
        }
    }
}

/// The ground of any shape, of a collection too; points and lines have none.
pub(super) fn ground(text: &str) -> Outline {
    let text = text.trim().to_uppercase();
    let Some(members) = text.strip_prefix("GEOMETRYCOLLECTION") else {
        return outline(&text).unwrap_or_default();
    };
    let outlines = groups(members)
        .into_iter()
        .filter_map(|member| outline(&member));
    Outline {
        parts: outlines.flat_map(|outline| outline.parts).collect(),
    }
}

fn polygon(text: &str) -> Polygon {
    if text.contains("EMPTY") && !text.contains('(') {
        return Polygon::default();
    }
    let mut rings = groups(&format!("({text})"))
        .into_iter()
        .map(|ring| corners(&ring));
    Polygon {
        outer: rings.next().unwrap_or_default(),
        holes: rings.collect(),
    }
}

fn corners(text: &str) -> Ring {
    if text.trim() == "EMPTY" {
        return Ring::default();
    }
    let place = |pair: &str| {
        let mut figures = pair
            .split_whitespace()
            .map(|figure| figure.parse().expect("a figure"));
        Point::new(figures.next().expect("x"), figures.next().expect("y"))
    };
    Ring::new(text.split(',').map(place).collect())
}

fn inner(text: &str) -> String {
    let text = text.trim();
    text.strip_prefix('(')
        .and_then(|text| text.strip_suffix(')'))
        .unwrap_or(text)
        .to_owned()
}

/// The bracketed groups, and the word EMPTY, one level inside a bracket.
fn groups(text: &str) -> Vec<String> {
    let (mut groups, mut depth, mut group) = (Vec::new(), 0, String::new());
    for letter in inner(text).chars().chain([',']) {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if letter == ',' && depth == 0 {
            groups.push(inner(&group));
            group.clear();
        } else {
            group.push(letter);
        }
    }
    groups
}
