//! The commented job file to begin from.

/// A job file with every key explained, which reads as a valid job as it stands.
pub fn template() -> &'static str {
    include_str!("template.toml")
}
