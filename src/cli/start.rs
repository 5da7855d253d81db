//! `yardslip start`: writes a commented job file to begin from.

use super::disk::{reason, write_new};
use super::failure::Failure;
use super::terminal::print;
use std::path::Path;
use yardslip::data::{Fault, template};

/// Writes the file, or prints it where it is called `-`; one that exists is left alone.
pub(super) fn run(file: &Path) -> Result<(), Failure> {
    if file == Path::new("-") {
        return print(template());
    }
    write_new(file, template().as_bytes()).map_err(|error| {
        let cause = format!("`{}` cannot be written: {}", file.display(), reason(&error));
        let remedy = "give another name: `yardslip start FILE`; no file was changed";
        Failure::undoable(vec![Fault::anywhere(cause, remedy)])
    })?;
    let name = file.display();
    print(&format!("wrote {name}: fill in your panels and sheets, then run `yardslip plan {name}`\n"))
}
