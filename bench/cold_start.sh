#!/bin/bash
# Cold starts in one run: `recipe list` and `season plan` against an empty C++ program.
#   cmake --build --preset release --target benches && bench/cold_start.sh
set -euo pipefail
cd "$(dirname "$0")/.."
W=build/release/hosts/cli/wheyfield
seconds() {
  local started ended i
  started=$(date +%s%N)
  for ((i = 0; i < 200; ++i)); do "$@" >/dev/null 2>&1 || true; done
  ended=$(date +%s%N)
  echo $(((ended - started) / 200000))
}
empty=$(seconds build/release/bench/bench_empty)
list=$(seconds $W recipe list)
plan=$(seconds $W season plan examples/practice.toml)
echo "empty program $empty us; recipe list $list us; season plan $plan us"
awk -v e="$empty" -v l="$list" -v p="$plan" \
  'BEGIN { printf "recipe list %.1f x, season plan %.1f x an empty program\n", l / e, p / e }'
