//! A floor under the cost of every plan, whatever the cuts: the panels' area at the lowest price of sheet area. Weak,
//! but it holds where the bound of the cutting model does not reach, and it is worked out in whole numbers.

use crate::data::{Cents, Job};
use crate::length::Area;

/// No plan of the job can cost less: panels at their smallest sizes, less all strips on hand, at the cheapest area.
pub(super) fn by_area(job: &Job) -> Cents {
    let panels: Area = job
        .panels
        .iter()
        .map(|panel| (panel.width - panel.scant) * (panel.height - panel.scant) * i64::from(panel.count))
        .sum();
    let on_hand: Area = job.strips.iter().map(|strip| strip.width * strip.length * i64::from(strip.count)).sum();
    let cheapest =
        job.sheets.iter().map(|sheet| Cents((panels - on_hand).priced_at(sheet.length * sheet.width, sheet.price.0)));
    cheapest.min().unwrap_or(Cents::ZERO)
}

#[cfg(test)]
mod tests {
    use crate::length::Length;

    #[test]
    fn area_is_priced_rounded_down() {
        let (third, whole) = (Length::inches(1) * Length::inches(1), Length::inches(1) * Length::inches(3));
        assert_eq!(third.priced_at(whole, 100), 33);
        assert_eq!((third - whole).priced_at(whole, 100), 0);
    }
}
