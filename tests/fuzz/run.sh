#!/usr/bin/env bash
# Runs every fuzzer for so many inputs; findings are left in build/fuzz/findings. Started by ./start fuzz [RUNS].
set -euo pipefail
cd "$(dirname "$0")/../.."
runs=${1:-10000000}

mkdir -p build/fuzz/findings
for fuzzer in build/fuzz/tests/fuzz/*_fuzz; do
  name=$(basename "$fuzzer" _fuzz)
  printf '\n== %s: %s inputs\n' "$name" "$runs"
  mkdir -p "build/fuzz/corpus/$name"
  "$fuzzer" -runs="$runs" -max_len=65536 -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 -verbosity=0 \
    -artifact_prefix="build/fuzz/findings/$name-" "build/fuzz/corpus/$name"
done
echo
echo "no finding"
