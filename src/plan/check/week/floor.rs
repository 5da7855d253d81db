//! How few boxes or loads could do at all: what weight, room and number alone ask for, and no more.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::{parcel, press};
use crate::data::week::{Pack, Press};
use crate::length::Length;
use crate::plan::week::{Packing, PressPlan};

/// Up to the next whole number, but for the dust of floating point.
fn whole(share: f64) -> f64 {
    (share * (1.0 - 1e-9)).ceil()
}

/// No fewer boxes than said can hold what is packed.
pub(super) fn packing(pack: &Pack, packing: &Packing, made: &[Made], found: &mut Findings) {
    let (mut weight, mut volume, mut height, mut panels) = (0.0, 0.0, 0.0, 0);
    for (at, line) in made.iter().enumerate() {
        let refused = packing.misfits.iter().filter(|misfit| misfit.panel == at).map(|misfit| misfit.count).sum();
        let count = line.count.saturating_sub(refused);
        let rise = parcel::rise(pack, line).to_mm() * f64::from(count);
        weight += line.weight.unwrap_or(0.0) * f64::from(count);
        volume += line.width.to_mm() * line.height.to_mm() * rise;
        height += rise;
        panels += count;
    }
    let by_weight = pack.heaviest.map_or(0.0, |heaviest| weight / (heaviest - pack.empty));
    let less = |side: Length| (side - parcel::ground(pack)).to_mm();
    let by_room = match pack.inside {
        Some([a, b, c]) => {
            let standing = [(a, b, c), (b, c, a), (c, a, b)].map(|(x, y, up)| x.to_mm() * y.to_mm() * less(up));
            volume / standing.into_iter().fold(0.0, f64::max)
        }
        None => pack.highest.map_or(0.0, |highest| height / less(highest)),
    };
    let fewest = if panels == 0 { 0.0 } else { whole(by_weight).max(whole(by_room)).max(1.0) };
    let says = f64::from(packing.floor);
    found.hold(Rule::Parcel, (says - fewest).abs() < 0.5, "packing", || format!("no fewer than {fewest}, not {says}"));
    let under = packing.parcels.len() < packing.floor as usize;
    found.hold(Rule::Parcel, !under, "packing", || "there are fewer than there can be".into());
}

/// No fewer loads than said can hold what is pressed.
pub(super) fn press(press: &Press, pressed: &PressPlan, made: &[Made], found: &mut Findings) {
    let grown = |long: Length, short: Length| ((long + press.gap) * (short + press.gap)).to_square_metres();
    let (mut covered, mut panels) = (0.0, 0);
    for (at, line) in made.iter().enumerate() {
        if line.canvas.is_none() || line.count == 0 || press::refused(press, line, at).is_some() {
            continue;
        }
        let (long, short) = press::footprint(line);
        covered += f64::from(line.count.div_ceil(pairs(press, line))) * grown(long, short);
        panels += line.count;
    }
    let by_number = press.most.map_or(u32::from(panels > 0), |most| panels.div_ceil(most));
    let fewest = whole(covered / grown(press.length, press.width)).max(f64::from(by_number));
    let says = f64::from(pressed.floor);
    found.hold(Rule::Press, (says - fewest).abs() < 0.5, "press", || format!("no fewer than {fewest}, not {says}"));
    let under = pressed.loads.len() < pressed.floor as usize;
    found.hold(Rule::Press, !under, "press", || "there are fewer loads than there can be".into());
}

/// Most panels in a stack, in pairs where a pair has room.
fn pairs(press: &Press, line: &Made) -> u32 {
    let rise = press::rise(press, line);
    let most = press.most.unwrap_or(u32::MAX);
    let high = if rise.is_positive() { u32::try_from(press.height.times(rise)).unwrap_or(most) } else { most };
    match high.min(most) {
        one @ (0 | 1) => one.max(1),
        more => more / 2 * 2,
    }
}
