#!/usr/bin/env bash
# Checks the HTML reports from outside.
#   run.sh PROGRAM          with Python's standard library only: part of ./start test
#   run.sh PROGRAM FOLDER   with 200 hostile names, an HTML validator, and axe-core in headless Chromium (./start html); the pages,
#                           and the three packages of the npm registry that it needs, go into the folder
set -euo pipefail
program=$(realpath "$1")
folder=${2:+$(realpath -m "$2")}
cd "$(dirname "$0")"
python3 check_page.py --trial

if [ $# -eq 1 ]; then
  folder=$(mktemp -d)
  trap 'rm -rf "$folder"' EXIT
  bash make_pages.sh "$program" "$folder" 6
  python3 check_page.py "$folder"/*.html
  echo "$(ls "$folder" | wc -l) pages are sound"
  exit 0
fi

rm -rf "$folder/pages"
mkdir -p "$folder/pages" "$folder/tools"
echo "making pages"
bash make_pages.sh "$program" "$folder/pages" 200
echo "Python's parser: $(python3 check_page.py "$folder"/pages/*.html && echo "$(ls "$folder/pages" | wc -l) pages are sound")"

cp package.json validator.json "$folder/tools"
cd "$folder/tools"
npm install --no-audit --no-fund --no-package-lock --ignore-scripts --loglevel=error >/dev/null
npx --no-install html-validate --config validator.json "$folder"/pages/*.html
echo "html-validate: no finding"
node "$OLDPWD/check_in_browser.mjs" "$folder/pages"
