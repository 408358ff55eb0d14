#!/usr/bin/env bash
# Makes every picture of the README and of the guide anew, with the program itself: started by ./start pictures.
#   make.sh PROGRAM [FOLDER]     into this folder unless another is named
# The students are invented. The lesson in the window runs in real time on an X server without a screen, so this takes a minute and a half.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
root=$(realpath "$here/../..")
footing=$(realpath "$1")
out=$(realpath "${2:-$here}")
scratch=$(mktemp -d)
children=()
finish() {
  local child
  for child in "${children[@]}"; do kill "$child" 2>/dev/null || true; done
  wait || true
  rm -rf "$scratch"
}
trap finish EXIT
export HOME=$scratch/home XDG_DATA_HOME=$scratch/home/data XDG_CONFIG_HOME=$scratch/home/config LC_ALL=C.UTF-8
mkdir -p "$HOME" "$out"
book=$scratch/pictures.book
port=$((20000 + $$ % 20000))
cd "$scratch"

run() { "$footing" "$@" >said 2>&1 || { cat said >&2; echo "pictures: footing $* failed" >&2; exit 1; }; }
keep() { run "$@" --book "$book"; }

echo "a recorded lesson and a lesson book"
"$footing" emulate --udp 127.0.0.1:$port --swings 9 --seed 7 --fast 60 >/dev/null 2>&1 &
emulator=$!
run record --udp 127.0.0.1:$port --idle 2 --out lesson.h5
wait $emulator
keep students add "Robin Example" --hand right --units yd --consent yes
for loft in 60 56 52; do keep wedges add "$loft" --student "Robin Example" --loft "$loft"; done
keep lessons add --student "Robin Example" --date "$(date -d "14 days ago" +%F)" --note "at the range, without plates"
carries() { keep shots add --lesson 1 --club "$1" --length "$2" --carry "$3"; }
carries 60 half 39,41,40,42,38,41
carries 60 three-quarter 54,57,55,53,56
carries 60 full 69,66,72,70,48,68
carries 56 half 47,49,45,50,48,47
carries 56 three-quarter 63,66,64,62,65,66
carries 56 full 79,82,77,81,80
carries 52 half 55,58,57
carries 52 three-quarter 74,78,71,76,75
carries 52 full 93,96,90,94,92,95
keep lessons add lesson.h5 --student "Robin Example" --band half=70:80 --setup "ball back, stance narrow"
keep swings label 1-9 --lesson 2 --club 56 --length half

echo "the viewer and the reports"
run view "$root/recordings/left_handed_plates.h5" --screenshot "$out/viewer.png" --size 1280x720
keep report --student "Robin Example" --out student.pdf
pdftoppm -r 72 -png -f 1 -l 1 -singlefile student.pdf page
mv page.png "$out/student_report.png"
run report lesson.h5 --student "Robin Example" --swing 2 --out "$out/swing.png"

echo "a lesson in the window"
Xvfb -displayfd 1 -screen 0 1280x720x24 -fbdir . -nolisten tcp >display 2>/dev/null &
children+=($!)
for _ in $(seq 100); do [ -s display ] && break; sleep 0.1; done
DISPLAY=:$(cat display)
export DISPLAY

shoot() { xdotool mousemove 1279 719; sleep 0.2; python3 "$here/screen_to_png.py" Xvfb_screen0 "$out/$1.png"; }
key() { sleep 0.5; xdotool key "$1"; sleep 0.5; }
lesson_window() { "$footing" lesson --book "$book" --theme light "$@" >said 2>&1 & window=$!; children+=($window); }
is_open() { kill -0 $window || { cat said >&2; echo "pictures: the window closed by itself" >&2; exit 1; }; }

# Somebody who stands as still as weights do.
cat >weights.csv <<'W'
from_s,to_s,plate,kg,x_mm,y_mm
4,600,left,55,5,30
4,600,right,19.5,-5,20
W
"$footing" emulate --udp 127.0.0.1:$port --weights weights.csv >/dev/null 2>&1 &
standing=$!
children+=($standing)
lesson_window --udp 127.0.0.1:$port --student "Robin Example" --wedges 60,56,52 --yards --out standing.h5
sleep 12
key w
key e
sleep 2
shoot set_up
is_open
kill $window $standing

"$footing" emulate --udp 127.0.0.1:$port --swings 3 --seed 7 --truth truth.json >/dev/null 2>&1 &
children+=($!)
begun=$(date +%s.%N)
lesson_window --udp 127.0.0.1:$port --student "Robin Example" --wedges 60,56,52 --yards --out window.h5
# What happens when: the emulator writes it at the end, so the same golfer is asked beforehand, at speed.
"$footing" emulate --udp 127.0.0.1:$((port + 1)) --swings 3 --seed 7 --fast 10000 --truth soon.json >/dev/null 2>&1
until_instant() {  # swing event seconds-after
  python3 - "$begun" "$@" <<'P'
import json, sys, time
begun, swing, event, after = float(sys.argv[1]), int(sys.argv[2]), sys.argv[3], float(sys.argv[4])
due = begun + json.load(open("soon.json"))["swings"][swing - 1][event] + after
time.sleep(max(0.0, due - time.time()))
P
}
until_instant 2 finish_s 9    # the next set-up has turned up; a replay turned to by hand stays
key Return
until_instant 2 finish_s 12
shoot replay
is_open
kill $window

lesson_window
sleep 3
xdotool type --delay 100 "Robin Example"
key Return
key ctrl+4
sleep 1
shoot distances
is_open

for picture in "$out"/*.png; do
  size=$(stat -c %s "$picture")
  printf '%-24s %4d kB\n' "$(basename "$picture")" $((size / 1000))
  [ "$size" -lt 150000 ] || { echo "pictures: $picture is too large" >&2; exit 1; }
done
