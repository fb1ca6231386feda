//! PDF from the report's text by a typesetting engine, fonts embedded.
