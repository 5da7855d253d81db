//! Lengths as the shop reads them: `11 7/8`, `302`, `30.2`; always exact, so that they read back the same.

use super::{Length, RAW_PER_INCH, RAW_PER_MM, Unit};

impl Unit {
    /// The unit's sign behind a number: `in.`, `mm`, `cm`.
    pub const fn sign(self) -> &'static str {
        match self {
            Unit::In => "in.",
            Unit::Mm => "mm",
            Unit::Cm => "cm",
        }
    }

    /// Raw units in one of this unit.
    pub(super) const fn raw(self) -> i64 {
        match self {
            Unit::In => RAW_PER_INCH,
            Unit::Mm => RAW_PER_MM,
            Unit::Cm => 10 * RAW_PER_MM,
        }
    }
}

impl Length {
    /// Exact text without a unit: inches as a reduced fraction (`11 7/8`) where 64ths hold it, else as a decimal;
    /// millimetres and centimetres as decimals. Reads back to the same length.
    pub fn show(self, unit: Unit) -> String {
        let sign = if self.raw() < 0 { "-" } else { "" };
        let raw = self.raw().abs();
        let text = match unit {
            Unit::In if raw % (RAW_PER_INCH / 64) == 0 => fraction(raw / (RAW_PER_INCH / 64)),
            _ => decimal(raw, unit),
        };
        format!("{sign}{text}")
    }

    /// Text with its unit for sentences: `11 7/8 in.`, `302 mm`.
    pub fn say(self, unit: Unit) -> String {
        format!("{} {}", self.show(unit), unit.sign())
    }

    /// Exact text with the unit that holds it best: whole 64ths in inches, else millimetres.
    pub fn with_unit(self) -> String {
        if self.raw() % (RAW_PER_INCH / 64) == 0 {
            format!("{} in", self.show(Unit::In))
        } else {
            format!("{} mm", self.show(Unit::Mm))
        }
    }
}

/// So many 64ths as a mixed number in lowest terms.
fn fraction(sixty_fourths: i64) -> String {
    let (whole, part) = (sixty_fourths / 64, sixty_fourths % 64);
    if part == 0 {
        return whole.to_string();
    }
    let shared = 1 << part.trailing_zeros().min(6);
    let (top, bottom) = (part / shared, 64 / shared);
    if whole == 0 { format!("{top}/{bottom}") } else { format!("{whole} {top}/{bottom}") }
}

/// The fewest decimals that read back to the same raw length.
fn decimal(raw: i64, unit: Unit) -> String {
    let per_unit = i128::from(unit.raw());
    let raw = i128::from(raw);
    let mut scale: i128 = 1;
    for decimals in 0..=6 {
        let rounded = (raw * scale * 2 + per_unit) / (per_unit * 2);
        let read_back = (rounded * per_unit * 2 + scale) / (scale * 2);
        if read_back == raw {
            let (whole, part) = (rounded / scale, rounded % scale);
            return if decimals == 0 { whole.to_string() } else { format!("{whole}.{part:0decimals$}") };
        }
        scale *= 10;
    }
    unreachable!("six decimals hold every raw length, a unit having at most 8128 of them")
}
