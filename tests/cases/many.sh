#!/usr/bin/env bash
# Runs what docs/many.md says, in its form for one machine: the indented commands up to the part about several machines.
# many.sh <docs/many.md> <evenpull> <cases> <folder to work in>
set -euo pipefail
doc=$1 program=$2 cases=$3 work=$4
for tool in parallel jq; do
  command -v "$tool" >/dev/null || { echo "$tool is missing (Debian: $tool)"; exit 1; }
done
rm -rf "$work"
mkdir -p "$work"
cp "$cases/light_tube_rudder.toml" "$work"
commands=$(sed '/^\*\*Several machines/,$d' "$doc" | sed -n 's/^    //p')
cd "$work"
PATH="$(dirname "$program"):$PATH" bash -euo pipefail -c "$commands"
cat table.csv
[ "$(wc -l <table.csv)" -eq 3 ] || { echo "three cases, but not three lines"; exit 1; }
for wall in 0.028 0.035 0.049; do
  grep -Eq "^\"wall_$wall\",([0-9]+,\"[a-z ]+\",[0-9.]+|,,)$" table.csv || { echo "no line for wall_$wall"; exit 1; }
done
# Thicker tubes bear more: the use at the coolest stage falls.
uses=$(jq -s 'map([.limits[] | select(.stage_degF == 250 and .name == "stress")][0].use) | . == (sort | reverse)' plans/*/plan.json)
[ "$uses" = true ] || { echo "a thicker wall is used more"; exit 1; }
# Nothing is made twice.
PATH="$(dirname "$program"):$PATH" parallel --resume --joblog plans.log false {} ::: shelf/*.toml
