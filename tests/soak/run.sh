#!/usr/bin/env bash
# Runs the long trials whose figures docs/measurements.md tells; "short" runs a moment of each. Started by
# ./start soak [full|short], and by CTest with the folder of the programs as second word.
set -euo pipefail
cd "$(dirname "$0")/../.."
length=${1:-full}
bin=${2:-build/release/tests/soak}

title() { printf '\n== %s\n' "$*"; }

if [ "$length" = short ]; then
  lesson=(--hours 0.05) unplug=(--cycles 3) flood=(--seconds 2) apart=(--swings 1 --speed 12) mutated=(--inputs 3000)
else
  lesson=(--hours 8) unplug=(--cycles 100) flood=(--seconds 60) apart=(--swings 9) mutated=(--inputs 1000000)
fi

title "a lesson of many hours, at speed, with planted gaps"
"$bin/lesson_soak" "${lesson[@]}"
title "a serial line unplugged and plugged in again at random instants"
"$bin/unplug_soak" "${unplug[@]}"
title "a flood of strangers' packets beside plates at 1 kHz"
"$bin/flood_soak" "${flood[@]}"
title "two plates with clocks of their own, as one lesson"
"$bin/apart_soak" "${apart[@]}"
title "mutated packets, recordings, tables and C3D files, in 1 GB of memory"
for what in packets recordings csv c3d; do "$bin/mutated_${what}_soak" "${mutated[@]}"; done
