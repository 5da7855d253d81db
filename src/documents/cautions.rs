//! Cautions for the places where the work can hurt someone, each with its source. They remind; they do not instruct.
//! Marks of how a source was read stand beside it: "read" where its page was read, "from memory" where it was not.

use super::blocks::Caution;
use crate::data::{Saw, SawKind};
use crate::length::Unit;

const PRACTICE: &str = "common practice";

/// At the saw at home.
pub fn saw(saw: &Saw, units: Unit) -> Caution {
    let hands = if units == Unit::In { "6 in." } else { "150 mm" };
    let short = "Hold the long end: short pieces are clamped or cut with a jig, never held by hand";
    let short = if saw.shortest.is_positive() {
        format!("{short}. This plan leaves nothing shorter than {} in the hand.", saw.shortest.say(units))
    } else {
        format!("{short}.")
    };
    let caution = Caution::about("at the saw")
        .heed(
            "Eye protection and hearing protection, no gloves, loose sleeves or jewellery.",
            "29 CFR 1910.133 (eyes), 1910.95 (hearing), from memory; the rest common practice",
        )
        .heed(
            format!("Hands stay at least {hands} from the blade; let it stop before clearing pieces, with a stick."),
            "common practice; shop rules of schools give 150 mm (6 in.)",
        )
        .heed(
            short,
            "ILO model code, woodworking machines 14.1.10 (guide, clamp or push stick); lengths: common practice",
        )
        .heed(
            "The stop block is on the side that is held; the piece that falls off is never confined.",
            "saw manuals say so; common practice",
        );
    kind(caution, saw.kind)
}

/// What holds for the kind of saw.
fn kind(caution: Caution, kind: SawKind) -> Caution {
    match kind {
        SawKind::RadialArm => caution
            .heed(
                "Upper hood down to the arbor and self-adjusting lower guards in place; a stop so that the blade does not run \
                 past the table; the head goes back by itself when let go.",
                "29 CFR 1910.213(h)(1), (3), (4): (1) and (4) as read by OSHA letters of 1990-03-13 and 1991-03-13, (3) from memory",
            )
            .heed(
                "Return the head behind the fence after each cut. One strip at a time: the upper one of a stack can kick over.",
                "a university safety page, read; common practice",
            ),
        SawKind::Mitre => caution.heed(
            "Guard in place; the strip flat on the table and tight to the fence; start the blade before it meets the wood.",
            "29 CFR 1910.213 (woodworking machinery), from memory; common practice",
        ),
        SawKind::Table => caution.heed(
            "Guard in place, crosscuts on the sled only: the rip fence is never the length stop without a stand-off block, \
             or the piece is pinched and thrown.",
            "saw manuals; guards: 29 CFR 1910.213(d), from memory",
        ),
    }
}

/// While sawing and sanding.
pub fn dust() -> Caution {
    Caution::about("wood dust")
        .heed(
            "Wood dust causes cancer of the nose and its sinuses. Sand outdoors or with extraction at the tool, wear a well \
             fitting mask, wipe wet or vacuum; no broom, no compressed air.",
            "IARC Monographs vol. 62 (1995) and 100C (2012), Group 1; California OEHHA fact sheet",
        )
        .heed(
            "Limits for a day's work: OSHA 15 mg/m3 total dust and 5 mg/m3 respirable; NIOSH recommends 1 mg/m3.",
            "OSHA, wood dust, evaluating exposure (29 CFR 1910.1000 Table Z-1)",
        )
        .heed(
            "Layers of fine dust burn and can explode: clear them away before they gather, keep flames off.",
            "OSHA, wood dust hazards; 29 CFR 1910.22(a)(1)",
        )
}

/// While filling and sealing.
pub fn finish() -> Caution {
    Caution::about("varnish and rags")
        .heed("Air the room while coats dry, waterborne ones too.", "makers' sheets; common practice")
        .heed(
            "Rags with drying oil heat up by themselves and can catch fire: dry them flat, one layer, outdoors, or put them \
             under water in a metal can with a lid.",
            "an insurer's bulletin and a university workshop's page, read",
        )
}

/// While loading and carrying.
pub fn lifting() -> Caution {
    Caution::about("carrying").heed(
        "A whole sheet is carried by two. Tie the load down front and back, and mark what stands out behind.",
        PRACTICE,
    )
}
