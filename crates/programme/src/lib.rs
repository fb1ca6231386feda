//! What a person asks of a programme and does with it: the case for a number, limits, statements, the plan of a trip,
//! taking in, deriving anew, signing.

pub mod case;
pub mod checks;
pub mod doctor;
pub mod first_steps;
pub mod hands;
pub mod history;
pub mod index;
pub mod limits_of;
pub mod pairs;
pub mod plan;
pub mod profiles;
pub mod proofs;
pub mod recipes;
pub mod request;
pub mod shadow;
pub mod shadow_sheet;
pub mod start;
pub mod statement;
pub mod table_of_checks;
pub mod templates;
pub mod work;
