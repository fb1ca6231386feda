//! One module a command.

mod calc;

use crate::args::Command;
use crate::failure::Failure;

/// Does what was asked.
pub fn run(command: Command) -> Result<(), Failure> {
    match command {
        Command::Calc(args) => calc::run(&args),
        _ => Err(Failure::Usage("not yet".into())),
    }
}
