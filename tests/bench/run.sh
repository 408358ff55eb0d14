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
  wire=(--seconds 1) journal=(--seconds 5) kill=(--kills 10) analysis=(1) mat=(0.5) loads=(--minutes 0.1) accuracy=(1) golfers=2 live=(1 2) window=(--frames 20 --seconds 2 --minutes 0.5 --swings 500)
else
  wire=(--seconds 60) journal=(--seconds 600) kill=(--kills 500) analysis=(10 30 60 120) mat=(10 30 60 120) loads=() accuracy=(6 20000) golfers=100 live=(8 5) window=()
fi

title "wire: frames lost over UDP, and arrival to live share"
"$bin/wire_bench" "${wire[@]}"
title "journal against a plain write of the same bytes; fold; read"
"$bin/journal_bench" "${journal[@]}"
title "kill -9 at random instants"
"$bin/kill_bench" "${kill[@]}"
title "zero-lag filter against scipy.signal.sosfiltfilt"
"$bin/filter_bench"
title "share, CoP and filters against numpy and scipy; CoP of grids against a plain sum"
"$bin/loads_bench" "${loads[@]}"
title "analysis of a whole lesson"
for minutes in "${analysis[@]}"; do "$bin/analysis_bench" --minutes "$minutes"; done
title "analysis of a whole lesson on a mat"
for minutes in "${mat[@]}"; do "$bin/analysis_bench" --minutes "$minutes" --on mat; done
title "swings found and events timed, against the truth of eight generators"
"$bin/accuracy_bench" "${accuracy[@]}"
title "the same, against golfers that a second author made up"
golfers_folder=tests/bench/other_golfers
"$golfers_folder/trial.py"
"$golfers_folder/measure.py" "$bin/../../footing" --lessons "$golfers"
if [ "$length" = full ]; then
  "$golfers_folder/measure.py" "$bin/../../footing" --seed 770000 --lessons 60 --noise worst
fi
title "the same, against a third author's golfers, whose loads follow from mechanics"
tests/bench/third_golfers/trial.py
"$golfers_folder/measure.py" "$bin/../../footing" --golfers third --lessons "$golfers"
if [ "$length" = full ]; then
  "$golfers_folder/measure.py" "$bin/../../footing" --golfers third --lessons 60 --noise worst
fi
title "the same, against a fourth author's golfers, who load in four ways"
tests/bench/fourth_golfers/trial.py
"$golfers_folder/measure.py" "$bin/../../footing" --golfers fourth --lessons "$golfers"
if [ "$length" = full ]; then
  "$golfers_folder/measure.py" "$bin/../../footing" --golfers fourth --lessons 60 --noise worst
fi
title "the same, against a fifth author's golfers"
tests/bench/fifth_golfers/trial.py
"$golfers_folder/measure.py" "$bin/../../footing" --golfers fifth --lessons "$golfers"
if [ "$length" = full ]; then
  "$golfers_folder/measure.py" "$bin/../../footing" --golfers fifth --lessons 60 --noise worst
fi
title "the same, against golfers of eight examiners, who had only the promises of the program before them"
tests/bench/examiners/trial.py
if [ "$length" = full ]; then
  for author in sixth seventh eighth ninth tenth eleventh twelfth thirteenth; do
    "$golfers_folder/measure.py" "$bin/../../footing" --golfers "$author" --lessons 60
  done
else
  "$golfers_folder/measure.py" "$bin/../../footing" --golfers sixth --lessons "$golfers"
fi
if [ "$length" = full ]; then
  title "the same, against golfers of one more examiner (the fourteenth author): nothing was fitted to these"
  "$golfers_folder/measure.py" "$bin/../../footing" --golfers fourteenth --lessons 40
fi
if [ "$length" = short ]; then
  title "what each sign of a movement says, learned of a few lessons"
  /usr/bin/python3 tests/bench/swing_odds/fit.py "$bin/../.." --lessons 1
fi
title "how soon live finding knows of events, and what it costs"
"$bin/live_bench" "${live[@]}"
title "the window: frames, latency, opening, scrolling, idling"
"$bin/window_bench" "${window[@]}"
title "the lesson book at the size of years; whether the distance chart's statements hold"
"$bin/book_bench" "$length"
title "a season of lessons: book, recordings, chart and progress"
"$bin/season_bench" "$length"
