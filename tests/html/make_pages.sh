#!/usr/bin/env bash
# Makes every kind of HTML report that the program writes, and reports with hostile names.
#   make_pages.sh PROGRAM FOLDER HOSTILE_NAMES
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
footing=$1 out=$2 hostile=$3
recordings=$here/../../recordings
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir -p "$out"

run() { "$footing" "$@" >"$scratch/said" 2>&1 || { cat "$scratch/said" >&2; echo "html: footing $* failed" >&2; exit 1; }; }
book() { run "$1" --book "$scratch/pages.book" "${@:2}"; }

run import "$recordings/half_swings.csv" --out "$scratch/half_swings.h5"
run report "$scratch/half_swings.h5" --student Robin --out "$out/lesson_plain.html"
run report "$recordings/left_handed_plates.h5" --out "$out/lesson_left_handed.html"
run report "$recordings/mat.h5" --out "$out/lesson_mat.html"

# A student with wedges, carries and notes.
season() {
  local name=$1 words=$2
  book students add "$name" --hand right --units yd --consent yes
  book wedges add 56 --student "$name" --loft 56
  book lessons add --student "$name" --date 2026-03-05 --note "$words" --setup "$words"
}
season Robin "at the range"
book wedges add 60 --student Robin --loft 60
book shots add --lesson 1 --club 60 --length half --carry 39,41,40,42,38,41
book shots add --lesson 1 --club 56 --length full --carry 79,82,77,81,61,80
book lessons add "$scratch/half_swings.h5" --student Robin --band half=70:80 --setup "ball back"
book swings label 1-3 --lesson 2 --club 56 --length half
book report --student Robin --out "$out/student_season.html"
book report --student Robin --lesson 2 --units m --out "$out/student_lesson.html"
book report --student Robin --lesson 1 --out "$out/student_plain.html"

# Names from files: a shell takes line ends at the end away, nothing else.
python3 "$here/hostile_names.py" "$hostile" "$scratch/names"
lesson=2
for file in "$scratch"/names/*; do
  name=$(cat "$file") number=$(basename "$file" .txt)
  run report "$scratch/half_swings.h5" "--student=$name" --out "$out/hostile_lesson_$number.html"
  book students add --hand right --units yd --consent yes -- "$name"
  student=$(("10#${number#name_}" + 2))
  lesson=$((lesson + 1))
  book lessons add --student "#$student" --date 2026-03-05 "--note=$name" "--setup=$name"
  book wedges add 56 --student "#$student" --loft 56
  book shots add --lesson $lesson --club 56 --length full --carry 79,82,77,81,61,80
  book report --student "#$student" --out "$out/hostile_student_$number.html"
done
