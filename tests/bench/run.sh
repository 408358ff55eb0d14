#!/usr/bin/env bash
# Prints the figures that docs/measurements.md tells. "short" runs each benchmark for a moment, so that it cannot rot; it
# says nothing about speed. Started by ./start bench [full|short],
# and by CTest with the folder of the programs as second word.
set -euo pipefail
cd "$(dirname "$0")/../.."
length=${1:-full}
bin=${2:-build/release/tests/bench}

title() { printf '\n== %s\n' "$*"; }

if [ "$length" = short ]; then
  wire=(--seconds 1) journal=(--seconds 5) kill=(--kills 10) analysis=(--minutes 1) accuracy=(1)
else
  wire=(--seconds 60) journal=(--seconds 600) kill=(--kills 500) analysis=(--minutes 60) accuracy=(6 20000)
fi

title "wire: frames lost over UDP, and arrival to live share"
"$bin/wire_bench" "${wire[@]}"
title "journal against a plain write of the same bytes; fold; read"
"$bin/journal_bench" "${journal[@]}"
title "kill -9 at random instants"
"$bin/kill_bench" "${kill[@]}"
title "zero-lag filter against scipy.signal.sosfiltfilt"
"$bin/filter_bench"
title "analysis of a whole lesson"
"$bin/analysis_bench" "${analysis[@]}"
title "swings found and events timed, against the truth of four generators"
"$bin/accuracy_bench" "${accuracy[@]}"
