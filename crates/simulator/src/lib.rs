//! Invented raw files of a sampling trip whose truth is known.
