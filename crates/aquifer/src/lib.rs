//! Where the water comes from: well and aquifer.
