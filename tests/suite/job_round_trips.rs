//! Jobs written out in any unit and spelling read back to the same figures, from the job file and from a list alike.

use crate::papers_in::{source, told};
use proptest::prelude::*;
use yardslip::data::{Cents, Grain, Panel, read};
use yardslip::length::{Length, Unit};

/// A panel's figures.
#[derive(Clone, Debug)]
struct Figures {
    width: i64,
    height: i64,
    count: u32,
    scant: i64,
    grain: usize,
    extra: u32,
    worth: i64,
}

const GRAINS: [(&str, Grain); 3] = [("any", Grain::Any), ("Upright", Grain::Upright), ("LEVEL", Grain::Level)];
const UNITS: [(Unit, &str); 3] = [(Unit::In, "in"), (Unit::Mm, "mm"), (Unit::Cm, "cm")];

fn figures() -> impl Strategy<Value = Figures> {
    let sides = (64_i64..3000, 64_i64..3000, 0_i64..64);
    (sides, 1_u32..1000, 0_usize..3, 0_u32..20, 0_i64..100_000).prop_map(
        |((width, height, scant), count, grain, extra, worth)| Figures {
            width,
            height,
            count,
            scant,
            grain,
            extra,
            worth,
        },
    )
}

impl Figures {
    /// Size, count, scant, grain, extra, worth as written under a unit.
    fn written(&self, unit: Unit) -> [String; 6] {
        let side = |n| Length::sixty_fourths(n).show(unit);
        let worth = Cents(self.worth).to_string();
        let size = format!("{} x {}", side(self.width), side(self.height));
        let grain = GRAINS[self.grain].0.to_owned();
        [size, self.count.to_string(), side(self.scant), grain, self.extra.to_string(), worth]
    }

    /// The panel's section of a job file.
    fn section(&self, unit: Unit) -> String {
        let [size, count, scant, grain, extra, worth] = self.written(unit);
        format!(
            "[[panel]]\nsize = \"{size}\"\ncount = {count}\nscant = \"{scant}\"\ngrain = \"{grain}\"\nextra = {extra}\nworth = {worth}\n"
        )
    }

    fn matches(&self, panel: &Panel) -> bool {
        (panel.width, panel.height, panel.scant)
            == (
                Length::sixty_fourths(self.width),
                Length::sixty_fourths(self.height),
                Length::sixty_fourths(self.scant),
            )
            && (panel.count, panel.grain, panel.extra) == (self.count, GRAINS[self.grain].1, self.extra)
            && panel.worth == Cents(self.worth)
    }
}

proptest! {
    #[test]
    fn job_file_and_list_say_the_same(all in proptest::collection::vec(figures(), 1..8), unit in 0_usize..3, mark in 0_usize..3) {
        let (unit, name) = UNITS[unit];
        let sheet = format!("units = \"{name}\"\n[[sheet]]\nlength = \"96 in\"\nwidth = \"48 in\"\nprice = 0.07\n");
        let panels: Vec<String> = all.iter().map(|figures| figures.section(unit)).collect();
        let panels = panels.concat();
        let mark = [",", ";", "\t"][mark];
        let mut list = ["size", "count", "scant", "grain", "extra", "worth"].join(mark);
        for figures in &all {
            list += "\r\n";
            list += &figures.written(unit).join(mark);
        }
        let alone = read(&source(&format!("{sheet}{panels}"), None)).map_err(|faults| TestCaseError::fail(told(&faults)))?;
        let listed = read(&source(&format!("panels = \"panels.csv\"\n{sheet}"), Some(&list))).map_err(|faults| TestCaseError::fail(told(&faults)))?;
        prop_assert!(all.iter().zip(&alone.panels).all(|(figures, panel)| figures.matches(panel)));
        prop_assert_eq!((&alone, alone.sheets[0].price), (&listed, Cents(7)));
    }
}
