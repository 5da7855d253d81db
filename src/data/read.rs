//! From the texts of the files to a [`Job`], or every fault in them at once.

use super::reading::{Document, Fields, Notes, Section};
use super::{Fault, File, Job, Sheet, Source, StripOnHand, fit, home, panel, sheet, strip, strip_list, syntax, yard};
use crate::length::{Length, Unit};
use std::path::Path;
use toml::de::{DeTable, DeValue};

const UNITS: [(&str, Unit); 5] =
    [("in", Unit::In), ("mm", Unit::Mm), ("cm", Unit::Cm), ("inch", Unit::In), ("inches", Unit::In)];

/// The path of the panel list that a job file names under `panels`, so that it can be read and handed to [`read`].
pub fn listed(job: &File) -> Option<String> {
    let (table, _) = DeTable::parse_recoverable(job.text().ok()?);
    match table.get_ref().get("panels")?.get_ref() {
        DeValue::String(path) if !path.trim().is_empty() => Some(path.trim().to_owned()),
        _ => None,
    }
}

/// Reads a job from its files.
///
/// # Errors
/// Every fault found in the files, in the order of their lines.
pub fn read(source: &Source) -> Result<Job, Vec<Fault>> {
    let notes = Notes::default();
    let files = [Some(&source.job), source.list.as_ref(), source.rack.as_ref()];
    let names: Vec<&str> = files.into_iter().flatten().map(|file| file.name.as_str()).collect();
    let job = source.job.text().map_err(|fault| notes.fault(*fault)).ok().and_then(|text| {
        let document = Document::new(&source.job.name, text);
        let table = syntax::parse(&document, &notes)?;
        Some(job(&mut Section::root(&notes, &document, table.get_ref()), source))
    });
    let assumptions = notes.close(&names)?;
    job.map(|job| Job { assumptions, ..job }).ok_or_else(|| vec![Fault::anywhere("the job could not be read", "")])
}

/// Where each panel of a job stands, in the job's order.
pub(super) fn panel_places(source: &Source) -> Vec<super::Place> {
    let notes = Notes::default();
    let places = source.job.text().ok().and_then(|text| {
        let document = Document::new(&source.job.name, text);
        let table = syntax::parse(&document, &notes)?;
        let mut root = Section::root(&notes, &document, table.get_ref());
        let (_, names) = sheets(&mut root);
        Some(panels(&mut root, source, &names).into_iter().map(|(_, place)| place).collect())
    });
    places.unwrap_or_default()
}

/// The job, but for its assumptions; only good where no fault was noted.
fn job(root: &mut Section, source: &Source) -> Job {
    let units = root.word("units", &UNITS).unwrap_or_default();
    root.notes().set_units(units);
    let title = root.text("title").unwrap_or_else(|| stem(&source.job.name));
    let currency = currency(root);
    let rule = root.notes().usual(Length::sixty_fourths(4), Length::mm(1));
    let rule = root.length("rule").unwrap_or(rule);
    let (sheets, names) = sheets(root);
    let strips = strips(root, source, &names);
    let panels = panels(root, source, &names);
    let keepers = root.each("keep").iter_mut().filter_map(strip::read_keeper).collect();
    let mut section = root.section("yard");
    let yard = yard::read(&mut section);
    fit::check_kerf(yard.kerf, section.place("kerf"), &sheets, root.notes());
    let car = home::read_car(&mut root.section("car"));
    let mut section = root.section("saw");
    let saw = home::read_saw(&mut section);
    fit::check_kerf(saw.kerf, section.place("kerf"), &sheets, root.notes());
    let listed: Vec<super::Panel> = panels.iter().map(|(panel, _)| panel.clone()).collect();
    let week = super::week::read(root, &listed);
    root.end();
    check_whole(root, &names, &sheets, &strips, &panels);
    let panels = panels.into_iter().map(|(panel, _)| panel).collect();
    let assumptions = Vec::new();
    Job { title, units, currency, rule, sheets, panels, strips, keepers, yard, car, saw, week, assumptions }
}

/// The sign before amounts of money; with a digit in it, amounts could not be told from it.
fn currency(root: &mut Section) -> String {
    let sign = root.text("currency").unwrap_or_else(|| "$".into());
    if sign.contains(|c: char| c.is_ascii_digit()) {
        let cause = format!("`{sign}` is no sign of a currency: it has a digit in it");
        root.fault("currency", cause, "write the sign, such as `currency = \"€\"`");
    }
    sign
}

/// The sheets that could be read, and the names of all, readable or not.
fn sheets(root: &mut Section) -> (Vec<Sheet>, Vec<String>) {
    let mut sections = root.each("sheet");
    let sheets: Vec<Option<Sheet>> = sections.iter_mut().map(sheet::read).collect();
    sheet::check_names(&sections, &sheets);
    let name = |(section, sheet): (&mut Section, &Option<Sheet>)| match sheet {
        Some(sheet) => sheet.name.clone(),
        None => section.peek("name").unwrap_or_default().to_owned(),
    };
    let names = sections.iter_mut().zip(&sheets).map(name).collect();
    (sheets.into_iter().flatten().collect(), names)
}

/// Strips of the job file, then those of the rack.
fn strips(root: &mut Section, source: &Source, sheets: &[String]) -> Vec<StripOnHand> {
    let mut strips: Vec<StripOnHand> =
        root.each("strip").iter_mut().filter_map(|section| strip::read(section, sheets)).collect();
    if let Some(rack) = &source.rack {
        match rack.text() {
            Ok(text) => strips.extend(strip_list::rows(&Document::new(&rack.name, text), root.notes(), sheets)),
            Err(fault) => root.notes().fault(*fault),
        }
    }
    strips
}

/// Panels of the job file, then those of the list it names.
fn panels(root: &mut Section, source: &Source, sheets: &[String]) -> Vec<panel::Placed> {
    let mut panels: Vec<panel::Placed> =
        root.each("panel").iter_mut().filter_map(|section| panel::read(section, sheets)).collect();
    if root.peek("panels").is_none() && root.has("panels") {
        let remedy = "name a file as in `panels = \"panels.csv\"`; a panel in the job file begins with `[[panel]]`";
        root.fault("panels", "`panels` names a list kept in a file", remedy);
    } else if let Some(path) = root.text("panels") {
        let list = source.list.clone().unwrap_or_else(|| File::unreadable(path, "it was not looked for"));
        match list.text() {
            Ok(text) => panels.extend(panel::read_list(&Document::new(&list.name, text), root.notes(), sheets)),
            Err(fault) if list.content.is_err() => root.fault("panels", fault.cause, fault.remedy),
            Err(fault) => root.notes().fault(*fault),
        }
    }
    panel::settle(&mut panels, root.notes());
    panels
}

/// What only the whole job can tell.
fn check_whole(root: &Section, names: &[String], sheets: &[Sheet], strips: &[StripOnHand], panels: &[panel::Placed]) {
    if names.is_empty() && strips.is_empty() && (root.notes().clean() || !root.has("strip")) {
        root.fault("", "there is no sheet to cut", "add a section `[[sheet]]` with length, width and price");
    }
    if !root.has("panel") && !root.has("panels") {
        root.fault(
            "",
            "there is no panel to make",
            "add a section `[[panel]]` with size and count, or name a list under `panels`",
        );
    }
    // Panels that name a sheet by its place in the list are only told apart when every sheet could be read.
    if names.len() == sheets.len() && !(sheets.is_empty() && strips.is_empty()) {
        fit::check_fit(panels, &fit::boards(sheets, strips), root.notes());
    }
    let wanted = panels.iter().any(|(panel, _)| panel.count > 0);
    if root.notes().clean() && !wanted {
        root.fault("", "no panel is asked for", "write a `count` above zero for one panel at least");
    }
}

/// A file's name without folder and ending, as a title.
fn stem(name: &str) -> String {
    Path::new(name).file_stem().map_or_else(|| "Panels".into(), |stem| stem.to_string_lossy().into_owned())
}
