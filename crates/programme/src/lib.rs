//! What a person asks of a programme and does with it: the case for a number, limits, statements, the plan of a trip,
//! taking in, deriving anew, signing.

pub mod case;
pub mod checks;
pub mod first_steps;
pub mod hands;
pub mod index;
pub mod limits_of;
pub mod plan;
pub mod recipes;
pub mod start;
pub mod statement;
pub mod templates;
pub mod work;
