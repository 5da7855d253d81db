//! Cautions of the bench: knife, glue, weights, lifting and flying; each with its source, deferring to makers' sheets.

use crate::documents::blocks::Caution;

/// While cutting canvas and trimming it flush.
pub(super) fn knife() -> Caution {
    Caution::about("knife and straightedge")
        .heed(
            "Cut along a metal straightedge with a raised or guarded edge; fingers stay behind it, the body out of the line \
             of the cut. A fresh blade, several light strokes.",
            "common practice, no source",
        )
        .heed(
            "Draw the blade back when it is put down; used blades go into a closed tin.",
            "common practice, no source",
        )
}

/// While gluing and pressing.
pub(super) fn glue() -> Caution {
    Caution::about("glue, canvas and weights")
        .heed(
            "Read the label and the safety data sheet of the glue and of the ground on the canvas; air the room, wash hands.",
            "makers' sheets; 29 CFR 1910.1200 (hazard communication), from memory",
        )
        .heed(
            "Set weights down with two hands and a straight back, fingers clear of the board; a stack must not lean.",
            "common practice, no source",
        )
}

/// While packing and carrying.
pub(super) fn carrying() -> Caution {
    Caution::about("lifting and flying")
        .heed("Heavy boxes are lifted by two, close to the body, from the knees.", "common practice, no source")
        .heed(
            "Solvents, thinners and many varnishes may not fly at all: anything with a flash point of 140 F (60 C) or below is \
             forbidden in checked and cabin bags. Carry the safety data sheets of paints.",
            "FAA, paints and solvents (page updated 2024-01-24), read",
        )
        .heed("Knives travel in checked bags.", "general travel pages; each airline's own rule holds")
}

/// Where rags with oil or varnish are left.
pub(super) fn rags() -> Caution {
    Caution::about("rags").heed(
        "Rags with drying oil heat up by themselves and can catch fire: dry them flat, one layer, outdoors, or put them \
         under water in a metal can with a lid; never in a pile or a bin.",
        "an insurer's bulletin and a university workshop's page, read",
    )
}
