#!/usr/bin/env bash
# Builds everything and runs every check. Needs the .NET SDK and Node; fetches packages and nothing else.
# The last line is "N passed, N failed, N skipped".
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1
# Most processes the tests start are short: counting calls for later optimization costs them a fifth of their time.
export DOTNET_TieredPGO=0
# 64 MiB (hexadecimal): a validation allocates much and keeps nothing, so fewer collections save a tenth of the time of a short process.
export DOTNET_GCgen0size=4000000
# Build servers left behind would outlive the run.
export MSBUILDDISABLENODEREUSE=1 DOTNET_CLI_USE_MSBUILD_SERVER=0

# Steps beside the test projects, each counted as one check.
passed=0 failed=0 skipped=0
step() {
  local title=$1
  shift
  echo
  echo "== $title"
  local begin=$SECONDS
  if "$@"; then
    passed=$((passed + 1))
    echo "== $title: passed ($((SECONDS - begin)) s)"
  else
    failed=$((failed + 1))
    echo "== $title: FAILED ($((SECONDS - begin)) s)"
  fi
}

finish() {
  echo
  echo "$passed passed, $failed failed, $skipped skipped"
  [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
  exit
}

need() { command -v "$1" >/dev/null 2>&1 || { echo "run.sh: $1 is not on the PATH; install $2 and run again."; exit 3; }; }
need dotnet "the .NET SDK named in global.json"
need node "Node 20 or newer"
need npm "npm (comes with Node)"

# Programs of Debian's that tests start by themselves; without one, and without the right to install it, its tests are skipped and say so.
have() {
  case $1 in
    postgresql) compgen -G '/usr/lib/postgresql/*/bin/initdb' >/dev/null ;;
    poppler-utils) command -v pdftotext >/dev/null 2>&1 ;;
    *) command -v "$1" >/dev/null 2>&1 ;;
  esac
}
debian() {
  local missing=()
  for package in chromium postgresql poppler-utils qpdf; do have "$package" || missing+=("$package"); done
  [ "${#missing[@]}" -gt 0 ] && [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null 2>&1 || return 0
  # The package may start a server of its own on installation; the tests neither use nor touch it.
  { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null; } 2>&1 | tail -3
  return 0
}
peers() { (cd tests/peers && npm ci --no-audit --no-fund --loglevel=error); }
peer_checks() { (cd tests/peers && npm test --silent); }
build() { dotnet build HandFhirBridge.sln -c Release --disable-build-servers -v quiet; }
# A test that never ends is named every three minutes, and is a failure in the end instead of a run without one.
# A browser that is kept waiting for a processor draws nothing for a minute at times; the others only take longer.
module() {
  local priority=5
  [[ $1 == *Pages.Tests* ]] && priority=0
  nice -n "$priority" timeout --kill-after=1m 32m dotnet "$1" --progress off --timeout 30m --xunit-diagnostics on --long-running 180 "${@:2}"
}
export -f module
# Runs tests and adds up their counts.
run_tests() {
  local log
  log=$(mktemp)
  "$@" 2>&1 | tee "$log"
  local status=${PIPESTATUS[0]}
  # Where the runner believes in a terminal it puts colours before the words.
  count() { sed 's/\x1b\[[0-9;]*[A-Za-z]//g' "$log" | awk -v key="$1:" '$1 == key { n += $2 } END { print n + 0 }'; }
  passed=$((passed + $(count succeeded)))
  failed=$((failed + $(count failed)))
  skipped=$((skipped + $(count skipped)))
  # A runner that stops without a count, or fails without a failed test, is itself a failure.
  if [ "$(count total)" -eq 0 ] || { [ "$status" -ne 0 ] && [ "$(count failed)" -eq 0 ]; }; then
    echo "The test runner ended with status $status."
    failed=$((failed + 1))
  fi
  rm -f "$log"
}

debian
step "Programs of others to test against (npm)" peers
step "Build, warnings are errors" build
[ "$failed" -eq 0 ] || finish
step "Generated profiles match their source" bash profiles/generate.sh --check
step "Invariants, base structure and units by programs of others" peer_checks
# What a page takes is measured first, by itself: beside other tests it would be their time.
run_tests module tests/HandFhirBridge.Pages.Tests/bin/Release/net10.0/HandFhirBridge.Pages.Tests.dll --filter-trait machine=at-rest
# Three projects at a time, the longest first: the tests start servers and processes of their own and wait for them about half of the time.
modules=$(mktemp)
for project in tests/HandFhirBridge.{Service,Pages,Faults,Fhir}.Tests tests/*.Tests; do echo "$project/bin/Release/net10.0/${project#tests/}.dll"; done \
  | awk '!seen[$0]++' > "$modules"
run_tests xargs --arg-file="$modules" --max-procs=3 --replace=MODULE bash -c 'module MODULE --filter-not-trait machine=at-rest'
rm -f "$modules"
finish
