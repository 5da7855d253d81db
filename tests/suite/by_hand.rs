//! Two plans worked out by hand with pencil and paper, for the checker to pass and for other tests to damage.

use crate::jobs::{len, panel, small_job};
use yardslip::data::{Breakdown, Cents, FreePer, Grain, Job, Keeper, StripOnHand};
use yardslip::length::{Area, Length};
use yardslip::plan::*;
use yardslip::solve::{Aim, Direction, Level, Proof};

/// Two strips of six panels, one of five kinds of work, one strip on hand: a stub that must not stay in the hand, an
/// extra panel, trimmed panels, offcuts worth keeping, one paid cut.
pub(crate) fn mixed_job() -> Job {
    let mut job = small_job();
    job.sheets[0].stock = Some(1);
    job.sheets[0].thickness = Some(Length::mm(5));
    job.sheets[0].density = Some(680.0);
    job.yard.tolerance = len("1/16");
    job.yard.most_cuts = Some(3);
    job.yard.free_cuts = 2;
    job.yard.cut_price = Cents(50);
    job.saw.squaring = len("1/4");
    job.saw.shortest = len("4");
    job.saw.trims = true;
    job.keepers = vec![Keeper { width: len("10"), length: len("20"), worth: Cents(300) }];
    let mut tall = panel("12", "16", 10);
    (tall.scant, tall.grain, tall.extra, tall.worth) = (len("1/8"), Grain::Upright, 1, Cents(900));
    let mut slat = panel("12", "3", 4);
    slat.scant = len("1/8");
    job.panels = vec![tall, slat, panel("8", "10", 5)];
    let hand = StripOnHand {
        name: "from spring".into(),
        width: len("10"),
        length: len("40"),
        count: 1,
        sheet: Some(0),
        grain_along: true,
    };
    job.strips = vec![hand];
    job
}

/// The plan of [`mixed_job`]. Strip A: 1/4 squaring, 3, 5 x 15 7/8, 6 kerfs of 1/8: 83 3/8 of 96. Strip B: 1/4, 3, 3,
/// 15 7/8, 10, 10, 5 kerfs: 42 3/4. Strip C, on hand: 1/4, 8, 8, 8, 3 kerfs: 24 5/8 of 40.
pub(crate) fn mixed_plan() -> Plan {
    let job = mixed_job();
    let sheet_strip = Origin::Sheet { sheet: 0, grain_along: true };
    let mut strips = vec![
        strip("A", sheet_strip, 2, ["12", "11 7/8", "12 1/8", "96"], "12 5/8"),
        strip("B", sheet_strip, 1, ["12", "11 7/8", "12 1/8", "96"], "53 1/4"),
        strip("C", Origin::OnHand { strip: 0 }, 1, ["10", "10", "10", "40"], "15 3/8"),
    ];
    strips[0].pieces = vec![piece(1, "1/4", "3", "11 15/16")];
    for along in ["3 3/8", "19 3/8", "35 3/8", "51 3/8", "67 3/8"] {
        strips[0].pieces.push(piece(0, along, "15 7/8", "11 15/16"));
    }
    strips[1].pieces = vec![
        piece(1, "1/4", "3", "11 15/16"),
        piece(1, "3 3/8", "3", "11 15/16"),
        Piece { extra: true, ..piece(0, "6 1/2", "15 7/8", "11 15/16") },
        Piece { trimmed: true, ..piece(2, "22 1/2", "10", "8") },
        Piece { trimmed: true, ..piece(2, "32 5/8", "10", "8") },
    ];
    for along in ["1/4", "8 3/8", "16 1/2"] {
        strips[2].pieces.push(Piece { turned: true, ..piece(2, along, "8", "10") });
    }
    weigh(&mut strips);
    Plan {
        cost: Cost {
            sheets: Cents(3850),
            cuts: Cents(50),
            total: Cents(3900),
            sheets_bought: 1,
            yard_cuts: 3,
            paid_cuts: 1,
        },
        proof: Proof { proved: true, bound: Cents(3900) },
        levels: vec![level(Aim::Worth, 1500), level(Aim::Layouts, 2), level(Aim::Settings, 4)],
        sheets: vec![mixed_sheet(&job)],
        yard: vec![YardGroup { sheets: vec![0], count: 1 }],
        panels: vec![
            line(&job, 0, "11 15/16", "15 7/8", 1),
            line(&job, 1, "11 15/16", "3", 0),
            line(&job, 2, "8", "10", 0),
        ],
        stops: mixed_stops(),
        trims: vec![Trim { panel: 2, strip: 1, count: 2, from: len("12"), to: len("8") }],
        offcuts: vec![
            offcut("11 5/8", "96", 1, 300),
            offcut("12", "53 1/4", 1, 300),
            offcut("10", "15 3/8", 1, 0),
            offcut("12", "12 5/8", 2, 0),
        ],
        areas: Areas {
            stock: area("48", "96") + area("10", "40"),
            panels: area("11 15/16", "15 7/8") * 11 + area("11 15/16", "3") * 4 + area("8", "10") * 5,
            kept: area("11 5/8", "96") + area("12", "53 1/4"),
        },
        load: Load {
            longest: len("96"),
            widest: len("12"),
            weight: Some(3.4 * (area("12", "96") * 3 + area("11 5/8", "96")).to_square_metres()),
            trips: 1,
        },
        strips,
        ..bare(&job)
    }
}

fn mixed_sheet(job: &Job) -> SheetGroup {
    let rips = vec![rip("0", "12", 0), rip("12 1/8", "12", 0), rip("24 1/4", "12", 1)];
    let cut = |rip, left| YardCut::Rip { board: 0, rip, width: len("12"), left: len(left) };
    SheetGroup {
        boards: vec![board("0", "96", rips, "11 5/8")],
        cuts: vec![cut(0, "35 7/8"), cut(1, "23 3/4"), cut(2, "11 5/8")],
        needs: len("36 1/4"),
        leaves: len("11 3/4"),
        ..group(job)
    }
}

fn mixed_stops() -> Vec<StopSetting> {
    let short = |cut| StopCut { hold_long_end: true, ..cut };
    vec![
        StopSetting {
            setting: len("3"),
            cuts: vec![short(stop(0, 2, true, &[1], "92 5/8")), short(stop(1, 1, true, &[1, 1], "89 1/2"))],
        },
        StopSetting {
            setting: len("15 7/8"),
            cuts: vec![stop(0, 2, false, &[0; 5], "12 5/8"), stop(1, 1, false, &[0], "73 1/2")],
        },
        StopSetting { setting: len("10"), cuts: vec![stop(1, 1, false, &[2, 2], "53 1/4")] },
        StopSetting { setting: len("8"), cuts: vec![stop(2, 1, true, &[2, 2, 2], "15 3/8")] },
    ]
}

/// Strips too long for the car, factory edges that are no good, and a width that is used up to the last kerf.
pub(crate) fn broken_down_job() -> Job {
    let mut job = small_job();
    job.sheets[0].edge_trim = len("1/2");
    job.car.longest = Some(len("75"));
    job.yard.breakdown = Breakdown::IfNeeded;
    job.yard.free_per = FreePer::Order;
    job.yard.free_cuts = 3;
    job.yard.cut_price = Cents(100);
    job.panels = vec![panel("15 1/2", "23 1/2", 24)];
    job
}

/// The plan of [`broken_down_job`]: two sheets, each crosscut at 48 1/4. Ripped side: 47 good inches are 3 x 15 1/2 and
/// two kerfs, 46 3/4. First board: 1/2 trimmed, 23 1/2, 1/8, 23 1/2 end at 47 5/8. Second board, 47 5/8 long: used up
/// exactly.
pub(crate) fn broken_down_plan() -> Plan {
    let job = broken_down_job();
    let origin = Origin::Sheet { sheet: 0, grain_along: true };
    let mut strips = vec![
        strip("A", origin, 6, ["15 1/2", "15 1/2", "15 1/2", "48 1/4"], "1/2"),
        strip("B", origin, 6, ["15 1/2", "15 1/2", "15 1/2", "47 5/8"], "0"),
    ];
    for strip in &mut strips {
        strip.squaring = len("1/2");
        strip.pieces = vec![piece(0, "1/2", "23 1/2", "15 1/2"), piece(0, "24 1/8", "23 1/2", "15 1/2")];
    }
    let stops = vec![StopSetting {
        setting: len("23 1/2"),
        cuts: vec![stop(0, 6, true, &[0, 0], "1/2"), stop(1, 6, true, &[0, 0], "0")],
    }];
    Plan {
        cost: Cost {
            sheets: Cents(7700),
            cuts: Cents(1500),
            total: Cents(9200),
            sheets_bought: 2,
            yard_cuts: 18,
            paid_cuts: 15,
        },
        proof: Proof { proved: false, bound: Cents(9100) },
        sheets: vec![broken_down_sheet(&job)],
        yard: vec![YardGroup { sheets: vec![0], count: 2 }],
        panels: vec![line(&job, 0, "15 1/2", "23 1/2", 0)],
        stops,
        offcuts: vec![offcut("5/8", "48 1/4", 2, 0), offcut("5/8", "47 5/8", 2, 0), offcut("15 1/2", "1/2", 6, 0)],
        areas: Areas { stock: area("48", "96") * 2, panels: area("15 1/2", "23 1/2") * 24, kept: Area::ZERO },
        load: Load { longest: len("48 1/4"), widest: len("15 1/2"), weight: None, trips: 1 },
        strips,
        ..bare(&job)
    }
}

fn broken_down_sheet(job: &Job) -> SheetGroup {
    let rips =
        |strip| vec![rip("1/2", "15 1/2", strip), rip("16 1/8", "15 1/2", strip), rip("31 3/4", "15 1/2", strip)];
    let second = Board { from_far_end: true, ..board("48 3/8", "47 5/8", rips(1), "5/8") };
    let mut cuts = vec![YardCut::Breakdown { at: len("48 1/4") }];
    for board in 0..2 {
        cuts.push(YardCut::EdgeTrim { board, off: len("1/2") });
        for (rip, left) in ["31 7/8", "16 1/4", "5/8"].into_iter().enumerate() {
            cuts.push(YardCut::Rip { board, rip, width: len("15 1/2"), left: len(left) });
        }
    }
    SheetGroup {
        count: 2,
        boards: vec![board("0", "48 1/4", rips(0), "5/8"), second],
        cuts,
        needs: len("47 3/4"),
        leaves: len("1/4"),
        ..group(job)
    }
}

/// A plan of nothing, with the job's heading.
fn bare(job: &Job) -> Plan {
    Plan {
        title: job.title.clone(),
        units: job.units,
        currency: job.currency.clone(),
        cost: Cost::default(),
        proof: Proof { proved: false, bound: Cents::ZERO },
        claim: Claim::Cost(Against::default()),
        levels: vec![],
        sheets: vec![],
        yard: vec![],
        strips: vec![],
        panels: vec![],
        stops: vec![],
        trims: vec![],
        offcuts: vec![],
        areas: Areas::default(),
        load: Load::default(),
        notes: vec![],
        comparison: vec![],
        week: yardslip::plan::week::Week::default(),
        assumptions: job.assumptions.clone(),
    }
}

fn group(job: &Job) -> SheetGroup {
    let kind = &job.sheets[0];
    SheetGroup {
        number: 1,
        count: 1,
        sheet: 0,
        kind: kind.name.clone(),
        length: kind.length,
        width: kind.width,
        edge_trim: kind.edge_trim,
        direction: Direction::Along,
        boards: vec![],
        cuts: vec![],
        needs: Length::ZERO,
        leaves: Length::ZERO,
        measure_first: false,
    }
}

fn board(start: &str, length: &str, rips: Vec<Rip>, fall_off: &str) -> Board {
    Board { start: len(start), length: len(length), from_far_end: false, rips, fall_off: len(fall_off) }
}

fn rip(across: &str, width: &str, strip: usize) -> Rip {
    Rip { across: len(across), width: len(width), strip }
}

/// A strip of `sizes` width, narrowest, widest, length.
fn strip(letter: &str, origin: Origin, count: u32, sizes: [&str; 4], fall_off: &str) -> Strip {
    let [width, narrowest, widest, length] = sizes.map(len);
    Strip {
        letter: letter.into(),
        origin,
        count,
        width,
        narrowest,
        widest,
        length,
        squaring: len("1/4"),
        pieces: vec![],
        fall_off: len(fall_off),
        weight: None,
    }
}

/// 680 kg/m3 at 5 mm are 3.4 kg a square metre.
fn weigh(strips: &mut [Strip]) {
    for strip in strips {
        strip.weight = Some(3.4 * (strip.width * strip.length).to_square_metres());
    }
}

fn piece(panel: usize, along: &str, length: &str, width: &str) -> Piece {
    let (along, length, width) = (len(along), len(length), len(width));
    Piece { panel, turned: false, extra: false, along, length, width, trimmed: false }
}

fn line(job: &Job, panel: usize, width: &str, height: &str, extras: u32) -> PanelLine {
    let asked = &job.panels[panel];
    let known = job.sheets[0].density.is_some();
    PanelLine {
        name: asked.name.clone(),
        width: asked.width,
        height: asked.height,
        cut_width: len(width),
        cut_height: len(height),
        count: asked.count,
        extras,
        weight: known.then(|| 3.4 * area(width, height).to_square_metres()),
    }
}

fn stop(strip: usize, strips: u32, square_first: bool, pieces: &[usize], left: &str) -> StopCut {
    StopCut { strip, strips, square_first, pieces: pieces.to_vec(), left: len(left), hold_long_end: false }
}

fn offcut(width: &str, length: &str, count: u32, worth: i64) -> Offcut {
    Offcut {
        width: len(width),
        length: len(length),
        count,
        from: String::new(),
        sheet: Some(0),
        grain_along: true,
        worth: Cents(worth),
    }
}

fn level(aim: Aim, value: i64) -> Level {
    Level { aim, value, bound: value, proved: true }
}

fn area(width: &str, length: &str) -> Area {
    len(width) * len(length)
}
