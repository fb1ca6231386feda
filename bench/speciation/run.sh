#!/bin/sh
# One run: the crate, then its general-purpose peers on the same waters. Needs python3 with numpy
# and scipy. From the root of the workspace: sh bench/speciation/run.sh
set -e
problem=$(mktemp)
cargo run --release -q -p aqueous --example time_speciation -- "$problem" 100000
python3 bench/speciation/peers.py "$problem"
cargo run --release -q -p aqueous --example million_waters -- 1000000
rm "$problem"
