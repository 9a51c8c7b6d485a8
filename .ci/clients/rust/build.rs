//! Writes the client from the description in OpenAPI 3.0 that `DESCRIPTION` names.

use std::{env, error::Error, fs, path::Path};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-env-changed=DESCRIPTION");
    let description = env::var("DESCRIPTION")?;
    println!("cargo:rerun-if-changed={description}");
    let read: openapiv3::OpenAPI = serde_json::from_str(&fs::read_to_string(description)?)?;
    let mut settings = progenitor::GenerationSettings::new();
    settings.with_interface(progenitor::InterfaceStyle::Builder);
    let tokens = progenitor::Generator::new(&settings).generate_tokens(&read)?;
    let client = prettyplease::unparse(&syn::parse2(tokens)?);
    fs::write(Path::new(&env::var("OUT_DIR")?).join("client.rs"), client)?;
    Ok(())
}
