//! Usual sizes of painting panels, as tables to choose from.

use crate::length::{Length, Unit};

/// A table of usual sizes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SizeTable {
    /// What the table is called.
    pub title: &'static str,
    /// The unit its sizes are given in.
    pub units: Unit,
    /// Where the figures come from.
    pub origin: &'static str,
    /// The sizes in the table's order.
    pub sizes: Vec<UsualSize>,
}

/// One usual size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UsualSize {
    /// Its number and kind (`8 Figure`), or nothing.
    pub name: String,
    /// The one side, as the table gives it first.
    pub width: Length,
    /// The other side.
    pub height: Length,
}

/// Sizes in inches, smallest first.
const INCHES: [(i64, i64); 24] = [
    (4, 8),
    (5, 7),
    (6, 6),
    (6, 8),
    (8, 8),
    (8, 10),
    (8, 16),
    (9, 12),
    (10, 10),
    (10, 12),
    (11, 14),
    (12, 12),
    (12, 16),
    (12, 24),
    (14, 18),
    (16, 20),
    (18, 24),
    (20, 20),
    (20, 24),
    (24, 24),
    (24, 30),
    (24, 36),
    (30, 40),
    (36, 48),
];

/// Number, long side, and the short sides of Figure, Paysage and Marine, in centimetres.
const FRENCH: [(u8, i64, [i64; 3]); 20] = [
    (0, 18, [14, 12, 10]),
    (1, 22, [16, 14, 12]),
    (2, 24, [19, 16, 14]),
    (3, 27, [22, 19, 16]),
    (4, 33, [24, 22, 19]),
    (5, 35, [27, 24, 22]),
    (6, 41, [33, 27, 24]),
    (8, 46, [38, 33, 27]),
    (10, 55, [46, 38, 33]),
    (12, 61, [50, 46, 38]),
    (15, 65, [54, 50, 46]),
    (20, 73, [60, 54, 50]),
    (25, 81, [65, 60, 54]),
    (30, 92, [73, 65, 60]),
    (40, 100, [81, 73, 65]),
    (50, 116, [89, 81, 73]),
    (60, 130, [97, 89, 81]),
    (80, 146, [114, 97, 89]),
    (100, 162, [130, 114, 97]),
    (120, 195, [130, 114, 97]),
];

/// Usual panel sizes in inches, and the French numbered sizes in centimetres.
pub fn usual_sizes() -> Vec<SizeTable> {
    vec![
        SizeTable {
            title: "usual sizes in inches",
            units: Unit::In,
            origin: "common practice, no source",
            sizes: INCHES.iter().map(|(short, long)| inches(*short, *long)).collect(),
        },
        SizeTable {
            title: "French numbered sizes in centimetres",
            units: Unit::Cm,
            origin: "the table printed in encyclopaedias; common practice, no standard",
            sizes: FRENCH.iter().flat_map(french).collect(),
        },
    ]
}

fn inches(short: i64, long: i64) -> UsualSize {
    UsualSize { name: String::new(), width: Length::inches(short), height: Length::inches(long) }
}

/// The three sizes of a number.
fn french((number, long, shorts): &(u8, i64, [i64; 3])) -> impl Iterator<Item = UsualSize> {
    let kinds = ["Figure", "Paysage", "Marine"].into_iter().zip(shorts);
    kinds.map(move |(kind, short)| UsualSize {
        name: format!("{number} {kind}"),
        width: Length::mm(10 * long),
        height: Length::mm(10 * short),
    })
}
