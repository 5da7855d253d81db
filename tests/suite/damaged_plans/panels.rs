//! Damage to the panels: how many, which way their grain runs, their sizes.

use super::*;

#[test]
fn a_panel_missing() {
    finds(Rule::Count, |plan| plan.strips[0].pieces.pop());
}

#[test]
fn a_panel_too_many() {
    finds(Rule::Count, |plan| {
        let again = plan.strips[1].pieces[1];
        plan.strips[1].pieces.push(again);
    });
}

#[test]
fn an_extra_panel_that_nobody_wants() {
    finds(Rule::Extra, |plan| plan.strips[0].pieces[3].extra = true);
    finds_against(Rule::Extra, |job| job.panels[0].extra = 0);
}

#[test]
fn a_panel_turned_against_its_grain() {
    finds(Rule::Grain, |plan| plan.strips[0].pieces[3].turned = true);
    finds_against(Rule::Grain, |job| job.panels[0].grain = Grain::Level);
    finds_against(Rule::Grain, |job| job.panels[2].grain = Grain::Upright);
}

#[test]
fn panels_on_each_other() {
    finds(Rule::Overlap, |plan| plan.strips[0].pieces[2].along = plan.strips[0].pieces[1].along);
    finds_broken_down(Rule::Overlap, |plan| plan.sheets[0].boards[1].start = len("40"));
}

#[test]
fn a_size_under_scant() {
    finds_against(Rule::PanelSize, |job| job.panels[0].scant = len("1/16"));
    finds(Rule::PanelSize, |plan| plan.panels[1].cut_height = len("2 3/4"));
}

#[test]
fn a_size_over_nominal() {
    finds_against(Rule::PanelSize, |job| job.panels[0].height = len("15 3/4"));
    finds_against(Rule::PanelSize, |job| job.panels[2].height = len("9 15/16"));
}

#[test]
fn sizes_of_one_line_differing() {
    finds(Rule::PanelSize, |plan| plan.strips[0].pieces[5].length += sixty_fourth());
    finds(Rule::PanelSize, |plan| plan.strips[1].pieces[4].width -= sixty_fourth());
}

#[test]
fn a_panel_from_the_wrong_kind_of_sheet() {
    finds_against(Rule::SheetKind, |job| {
        job.sheets.push(crate::jobs::sheet("hardboard", "96", "48"));
        job.panels[2].sheets = vec![1];
    });
    finds_against(Rule::SheetKind, |job| {
        job.panels[2].sheets = vec![0];
        job.strips[0].sheet = None;
    });
}
