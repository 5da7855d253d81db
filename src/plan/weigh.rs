//! Weights from density and thickness, where both are known.

use crate::data::{KG_PER_POUND, Sheet};
use crate::length::{Length, Unit};

/// Kilograms of a rectangle of this sheet kind.
pub(super) fn weight(sheet: &Sheet, width: Length, length: Length) -> Option<f64> {
    let metres_thick = sheet.thickness?.to_mm() / 1000.0;
    Some((width * length).to_square_metres() * metres_thick * sheet.density?)
}

/// A weight for a sentence: whole pounds in an inch job, else whole kilograms.
pub(super) fn say(kilograms: f64, units: Unit) -> String {
    match units {
        Unit::In => format!("{:.0} lb", kilograms / KG_PER_POUND),
        Unit::Mm | Unit::Cm => format!("{kilograms:.0} kg"),
    }
}

#[cfg(test)]
mod tests {
    use super::{KG_PER_POUND, weight};
    use crate::data::{Cents, Sheet};
    use crate::length::{Length, RAW_PER_MM};
    use approx::assert_abs_diff_eq;

    fn sheet(tenths_of_mm: i64, density: f64) -> Sheet {
        Sheet {
            name: "birch".into(),
            length: Length::mm(2440),
            width: Length::mm(1220),
            thickness: Some(Length::from_raw(tenths_of_mm * RAW_PER_MM / 10)),
            price: Cents::ZERO,
            stock: None,
            density: Some(density),
            edge_trim: Length::ZERO,
            tolerance: Length::ZERO,
        }
    }

    /// A birch plywood datasheet's table (vdocuments.site): thickness in tenths of a millimetre, kg/m3, kilograms of a
    /// 1220 x 2440 and of a 3050 x 1525 mm sheet.
    const DATASHEET: [(i64, f64, f64, f64); 14] = [
        (40, 660.0, 7.9, 12.3),
        (65, 670.0, 13.0, 20.3),
        (90, 710.0, 19.0, 29.7),
        (120, 695.0, 24.8, 38.8),
        (150, 690.0, 30.8, 48.1),
        (180, 685.0, 36.7, 57.3), // computed 57.35
        (210, 680.0, 42.5, 66.4),
        (240, 680.0, 48.6, 75.9),
        (270, 673.0, 54.1, 84.5),
        (300, 672.0, 60.0, 93.8),
        (350, 687.0, 71.6, 111.8),
        (400, 650.0, 77.4, 120.9),
        (450, 660.0, 88.4, 138.1),
        (500, 695.0, 103.4, 161.6),
    ];

    #[test]
    fn sheets_weigh_what_a_published_datasheet_says() {
        for (thickness, density, small, large) in DATASHEET {
            let sheet = sheet(thickness, density);
            let weigh = |width, length| weight(&sheet, Length::mm(width), Length::mm(length)).expect("all is known");
            assert_abs_diff_eq!(weigh(1220, 2440), small, epsilon = 0.051);
            assert_abs_diff_eq!(weigh(1525, 3050), large, epsilon = 0.051);
        }
    }

    #[test]
    fn a_quarter_inch_sheet_of_birch_weighs_what_arithmetic_says() {
        // 48 x 96 in. at 680 kg/m3 (mean of birch plywood, Handbook of Finnish Plywood, from memory): 5.2 mm 23.18 lb.
        let weight = weight(&sheet(52, 680.0), Length::inches(48), Length::inches(96)).expect("all is known");
        assert_abs_diff_eq!(weight, 10.512, epsilon = 0.001);
        assert_abs_diff_eq!(weight / KG_PER_POUND, 23.18, epsilon = 0.01);
    }

    #[test]
    fn an_unknown_density_gives_no_weight() {
        assert_eq!(weight(&Sheet { density: None, ..sheet(52, 0.0) }, Length::mm(1), Length::mm(1)), None);
    }
}
