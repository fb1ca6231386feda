//! Checks against stock `ssh-keygen` and `openssl`, and laws of the lines.

mod lines;
mod outside;
