//! The built binary as a person or a script meets it: exit status, standard output, standard
//! error, files. What the rooms below check of themselves is not checked again here; the contract
//! of the command line is: 0 done, 1 the input was refused, 2 usage, 3 `verify` found a
//! difference, 4 something outside failed, 5 kept and not yet derived; `--json` is one JSON document
//! and nothing else.

mod accounting;
mod apart;
mod attribution;
mod bad_input;
mod calc;
mod demo;
mod desk;
mod documents;
mod every_command;
mod extremes;
mod field;
mod fixtures;
mod german;
mod hands;
mod labels;
mod looking;
mod names;
mod outside;
mod own_trip;
mod package;
mod page_one;
mod paper_tables;
mod papers;
mod password;
mod profiles;
mod proofs;
mod recipes;
mod record;
mod report;
mod serve;
mod server;
mod strangers;
mod table;
mod undo;
mod unmet;
